#include <algorithm>

#include "rise/prove_step.h"
#include "rise/rise.h"

namespace maslin {
namespace {

using namespace rise_model;

/// Grams of the whole dough per 100 g of its flour: what extensive figures are
/// divided by. A bowl without flour is reckoned by its water.
Lanes portions_of_flour(const RiseDough& d) {
  return select(d.flour_g > 0.0, d.flour_g, max(d.water_g / 0.65, 1e-9)) / 100.0;
}

Chemistry<Lanes> chemistry_of(const RiseState& s, const Lanes& p) {
  Chemistry<Lanes> out;
  out[k_hexose] = s.hexose_g / p;
  out[k_sucrose] = s.sucrose_g / p;
  out[k_maltose] = s.maltose_g / p;
  out[k_latent] = s.latent_maltose_g / p;
  out[k_spent_hexose] = 0.0;
  out[k_spent_maltose] = 0.0;
  out[k_yeast] = s.yeast_g / p;
  out[k_wild] = s.wild_yeast_g / p;
  out[k_bacteria] = s.ripe_flour_g / (100.0 * p);
  out[k_awake] = s.awake;
  out[k_induction] = s.induction;
  out[k_adaptation] = s.adaptation;
  out[k_age] = s.age_h;
  out[k_lost] = 0.0;
  return out;
}

RiseState state_after(const RiseState& before, const Moment<Lanes>& end, const Lanes& p,
                      const Lanes& minutes, const RiseConstants& c) {
  const Chemistry<Lanes>& x = end.chemistry;
  RiseState s = before;
  s.hexose_g = x[k_hexose] * p;
  s.sucrose_g = x[k_sucrose] * p;
  s.maltose_g = x[k_maltose] * p;
  s.latent_maltose_g = x[k_latent] * p;
  const Lanes fermented = (x[k_spent_hexose] + x[k_spent_maltose]) * p;
  s.fermented_g += fermented;
  s.yeast_g = x[k_yeast] * p;
  s.wild_yeast_g = x[k_wild] * p;
  s.ripe_flour_g = x[k_bacteria] * 100.0 * p;
  s.awake = x[k_awake];
  s.induction = x[k_induction];
  s.adaptation = x[k_adaptation];
  s.age_h = x[k_age];
  s.co2_made_mol += fermented * mol_per_g_hexose<Lanes>(c);
  s.co2_lost_mol += x[k_lost] * p;
  s.ethanol_g += fermented * (0.5114 * c.gas_yield);
  s.minutes += minutes;
  s.temperature_k = end.temperature_k;
  return s;
}

Medium<Lanes> medium_of(const RiseDough& d, const RiseState& s, const RiseUnknowns& u,
                        const RiseSettings& settings, const RiseConstants& c, const Lanes& p) {
  Medium<Lanes> m;
  m.solvent_kg = max(d.solvent_water_g / p, 1.0) * 1e-3;
  m.inert_osmol = d.inert_osmol / p;
  m.salt_stress_osmol = d.salt_g / p * ((c.salt_weight - 1.0) * 2.0 / 58.44);
  // Fat stiffens and dilutes; it does no harm to the yeast itself: common practice.
  const Lanes fat = max(1.0 - 0.006 * max(d.fat_g / p - 5.0, 0.0), 0.75);
  m.steady_factor = fat * d.spice_factor * u.yeast_vigour;
  m.tolerant_share = d.tolerant_share;
  m.tolerance = u.tolerance;
  m.wake_h = d.wake_h * u.waking;
  m.inversion = u.inversion;
  m.yeast_start = d.yeast_g / p;
  m.ethanol_start = s.ethanol_g / p;
  m.ph_start = d.ph;
  m.buffer_mmol = max(d.buffer_mmol / p, 0.1);
  m.salt_g = d.salt_g / p;
  m.air_mol = s.air_mol / p;
  m.carbon_dioxide_start = s.co2_in_dough_mol() / p;
  m.dense_ml = d.dense_ml / p;
  m.critical_volume_ml = m.dense_ml / (1.0 - c.mixed_air) * d.critical_expansion * u.retention;
  m.pressure_pa = settings.pressure_pa;
  m.sour = any((s.wild_yeast_g > 0.0) | (s.ripe_flour_g > 0.0));
  return m;
}

Shells<Lanes> piece_shells(const RiseDough& d, const Prove& prove, const Lanes& piece_g) {
  const Lanes share = piece_g / d.mass_g;
  const Lanes volume_m3 = d.dense_ml * share * 1e-6;
  const Lanes radius = prove.shape == DoughShape::ball
                           ? exp(log(volume_m3 * (3.0 / (4.0 * 3.14159265358979323846))) / 3.0)
                           : Lanes(prove.half_thickness_m);
  return shells_of(prove.shape, radius, volume_m3, Lanes(d.heat_capacity_j_per_k * share));
}

/// The air at a time of each draw, straight between the points.
Lanes ambient_at(const std::vector<AmbientPoint>& points, const Lanes& minutes) {
  if (points.empty()) {
    return 298.15;
  }
  Lanes t = points.front().temperature_k;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const double from = points[i - 1].minutes;
    const double length = std::max(points[i].minutes - from, 1e-9);
    const Lanes share = clamp((minutes - from) / length, 0.0, 1.0);
    t += share * (points[i].temperature_k - points[i - 1].temperature_k);
  }
  return t;
}

/// A draw's values frozen at the moment it reached its target.
struct Arrival {
  Moment<Lanes> moment;
  Lanes minutes = 0.0;
  Mask reached = Lanes(1.0) < Lanes(0.0);
};

Lanes blend(const Mask& now, const Lanes& kept, const Lanes& from, const Lanes& to,
            const Lanes& share) {
  return select(now, from + share * (to - from), kept);
}

/// Takes the draws that pass the target in this step at the moment they do; between
/// the ends of a step everything is as good as straight.
void arrive(Arrival& out, const Moment<Lanes>& from, const Moment<Lanes>& to, const Lanes& share,
            const Mask& now, const Lanes& minutes) {
  for (std::size_t i = 0; i < k_species; ++i) {
    out.moment.chemistry[i] =
        blend(now, out.moment.chemistry[i], from.chemistry[i], to.chemistry[i], share);
  }
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    out.moment.temperature_k[i] =
        blend(now, out.moment.temperature_k[i], from.temperature_k[i], to.temperature_k[i], share);
  }
  out.moment.volume_ml = blend(now, out.moment.volume_ml, from.volume_ml, to.volume_ml, share);
  out.minutes = select(now, minutes, out.minutes);
  out.reached = out.reached | now;
}

struct ProveLoop {
  const Prove& prove;
  const Setting<Lanes>& setting;
  const RiseSettings& settings;
  const RiseConstants& constants;
  Lanes clock_start;
};

/// Cold enough everywhere that a long step is as good as a short one.
bool all_cold(const Moment<Lanes>& now, const Lanes& ambient_k) {
  Mask cold = ambient_k < 285.15;
  for (const Lanes& t : now.temperature_k) {
    cold = cold & (t < 285.15);
  }
  return all(cold);
}

/// The share of the step after which each draw reaches its target; beyond 1 if later.
Lanes share_to_target(const Prove& prove, const Moment<Lanes>& from, const Moment<Lanes>& to,
                      const Lanes& start_volume, double elapsed_s, double step_s) {
  if (prove.target == ProveTarget::minutes) {
    return (prove.value * 60.0 - elapsed_s) / step_s;
  }
  const Lanes goal = prove.value * start_volume;
  const Lanes gain = to.volume_ml - from.volume_ml;
  return select(to.volume_ml >= goal, (goal - from.volume_ml) / max(gain, 1e-12), 2.0);
}

void sample(ProveRun& run, const Moment<Lanes>& now, const Lanes& start_volume) {
  run.volume_ratio.push_back(now.volume_ml / start_volume);
  run.temperature_k.push_back(mean_of(now.temperature_k));
}

/// Steps until every draw has reached the target and the trace is long enough, or the
/// limit; fills the traces. Returns the number of steps.
std::size_t advance(const ProveLoop& loop, Moment<Lanes> now, ProveRun& run, Arrival& arrival) {
  const RiseSettings& settings = loop.settings;
  const double limit_s = settings.limit_minutes * 60.0;
  const double trace_s = settings.trace_minutes * 60.0;
  const Lanes start_volume = now.volume_ml;
  sample(run, now, start_volume);
  std::size_t steps = 0;
  double elapsed_s = 0.0;
  double sampled_s = 0.0;
  while (elapsed_s < limit_s && (!all(arrival.reached) || elapsed_s < trace_s)) {
    const Lanes clock = loop.clock_start + elapsed_s / 60.0;
    const Lanes ambient_now = ambient_at(loop.prove.ambient, clock);
    const bool rested = elapsed_s == sampled_s && all_cold(now, ambient_now);
    const double step_s = rested ? settings.sample_s : settings.step_s;
    const Lanes ambient = ambient_at(loop.prove.ambient, clock + 0.5 * step_s / 60.0);
    const Moment<Lanes> next = stepped(now, loop.setting, ambient, step_s, loop.constants);
    const Lanes share = share_to_target(loop.prove, now, next, start_volume, elapsed_s, step_s);
    const Mask due = (!arrival.reached) & (share <= 1.0);
    if (any(due)) {
      const Lanes inside = clamp(share, 0.0, 1.0);
      arrive(arrival, now, next, inside, due, (elapsed_s + inside * step_s) / 60.0);
    }
    now = next;
    elapsed_s += step_s;
    ++steps;
    if (elapsed_s >= sampled_s + settings.sample_s) {
      sample(run, now, start_volume);
      sampled_s += settings.sample_s;
    }
  }
  const Mask reached = arrival.reached;
  if (!all(reached)) {
    arrive(arrival, now, now, 0.0, !reached, elapsed_s / 60.0);
    arrival.reached = reached;
  }
  return steps;
}

/// Bubbles pressed out before a prove: air and carbon dioxide alike; what is dissolved
/// stays.
RiseState pressed(const RiseState& s, const Prove& prove, const RiseDough& d, const RiseUnknowns& u,
                  const RiseSettings& settings, const RiseConstants& c, const Lanes& p) {
  const bool whole = !any(prove.gas_kept_before < 1.0);
  if (whole) {
    return s;
  }
  const Lanes kept = min(prove.gas_kept_before * u.gas_kept, 1.0);
  const Medium<Lanes> m = medium_of(d, s, u, settings, c, p);
  const Warmth<Lanes> w = warmth_of(s.temperature_k, false, settings.pressure_pa, c);
  const Lanes in_bubbles =
      bubbles_of(m.carbon_dioxide_start, m, w).volume_ml / w.molar_ml - m.air_mol;
  RiseState out = s;
  out.co2_lost_mol += in_bubbles * (1.0 - kept) * p;
  out.air_mol = s.air_mol * kept;
  return out;
}

RiseBalance balance_of(const RiseState& a, const RiseState& b, const RiseConstants& c) {
  const auto sugar = [](const RiseState& s) {
    return s.hexose_g +
           k_hexose_per_disaccharide * (s.sucrose_g + s.maltose_g + s.latent_maltose_g) +
           s.fermented_g;
  };
  const Lanes made = b.co2_made_mol - a.co2_made_mol;
  const Lanes fermented = b.fermented_g - a.fermented_g;
  RiseBalance out;
  out.sugar = abs(sugar(b) - sugar(a)) / max(sugar(a), 1e-9);
  out.carbon_dioxide = abs(made - fermented * mol_per_g_hexose<Lanes>(c)) / max(made, 1e-9);
  out.ethanol = abs((b.ethanol_g - a.ethanol_g) - fermented * (0.5114 * c.gas_yield)) /
                max(b.ethanol_g, 1e-9);
  return out;
}

}  // namespace

RiseRun run_proves(const RiseDough& dough, const RiseState& start, std::span<const Prove> proves,
                   const RiseUnknowns& unknowns, const RiseSettings& settings,
                   const RiseConstants& constants) {
  RiseRun out;
  out.end = start;
  const Lanes p = portions_of_flour(dough);
  for (const Prove& prove : proves) {
    const RiseState before = pressed(out.end, prove, dough, unknowns, settings, constants, p);
    const Lanes piece_g =
        select(prove.piece_g > 0.0, min(prove.piece_g, dough.mass_g), dough.mass_g);
    Setting<Lanes> setting;
    setting.medium = medium_of(dough, before, unknowns, settings, constants, p);
    setting.shells = piece_shells(dough, prove, piece_g);
    setting.heat_transfer_w_per_m2k = prove.heat_transfer_w_per_m2k * unknowns.heat_transfer;
    setting.pieces_per_100g_flour = dough.mass_g / p / piece_g;

    Moment<Lanes> now;
    now.chemistry = chemistry_of(before, p);
    now.temperature_k = before.temperature_k;
    now.warmth = warmth_of(now.temperature_k, setting.medium.sour, settings.pressure_pa, constants);
    now.heat_w = 0.0;
    settle(now, setting, constants);

    ProveRun run;
    run.name = prove.name;
    run.sample_s = settings.sample_s;
    run.start_volume_ml = now.volume_ml * p;
    Arrival arrival;
    arrival.moment = now;
    const Lanes clock_start =
        prove.clock == AmbientClock::from_mixing ? before.minutes : Lanes(0.0);
    out.steps += advance({prove, setting, settings, constants, clock_start}, now, run, arrival);
    run.reached = arrival.reached;
    const bool barren = !any((before.yeast_g > 0.0) | (before.wild_yeast_g > 0.0));
    run.status = all(arrival.reached) ? RiseStatus::reached
                 : barren             ? RiseStatus::nothing_to_rise
                                      : RiseStatus::not_reached;
    run.minutes_to_target = arrival.minutes;
    run.volume_ratio_end = arrival.moment.volume_ml / now.volume_ml;
    run.end = state_after(before, arrival.moment, p, arrival.minutes, constants);
    out.end = run.end;
    out.proves.push_back(std::move(run));
  }
  out.balance = balance_of(start, out.end, constants);
  return out;
}

}  // namespace maslin
