#include <algorithm>

#include "rise/prove_start.h"
#include "rise/rise.h"

namespace maslin {
namespace {

using namespace rise_model;

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
  Lanes goal_ratio;
  const Setting<Lanes>& setting;
  const RiseSettings& settings;
  const RiseConstants& constants;
  Lanes clock_start;
  Mask never;  // what nothing raises is not waited for
};

/// Ice lasts longest in the middle; where there is none, a dough is thawed from the start.
Lanes share_to_thawed(const Setting<Lanes>& setting, const Moment<Lanes>& from,
                      const Moment<Lanes>& to) {
  if (!setting.ice) {
    return 0.0;
  }
  const Lanes melts_k = setting.ice->freezing_celsius + 273.15;
  const Lanes before = from.temperature_k.front();
  const Lanes after = to.temperature_k.front();
  const Lanes share =
      select(before >= melts_k, 0.0, (melts_k - before) / max(after - before, 1e-12));
  return select(after >= melts_k, share, 2.0);
}

/// The share of the step after which each draw reaches its target; beyond 1 if later.
Lanes share_to_target(const ProveLoop& loop, const Moment<Lanes>& from, const Moment<Lanes>& to,
                      const Lanes& start_volume, double elapsed_s, double step_s) {
  if (loop.prove.target == ProveTarget::minutes) {
    return (loop.prove.value * 60.0 - elapsed_s) / step_s;
  }
  if (loop.prove.target == ProveTarget::thawed) {
    return share_to_thawed(loop.setting, from, to);
  }
  const Lanes goal = loop.goal_ratio * start_volume;
  const Lanes gain = to.volume_ml - from.volume_ml;
  return select(to.volume_ml >= goal, (goal - from.volume_ml) / max(gain, 1e-12), 2.0);
}

void sample(ProveRun& run, const Moment<Lanes>& now, const Lanes& start_volume) {
  run.volume_ratio.push_back(now.volume_ml / start_volume);
  run.temperature_k.push_back(mean_of(now.temperature_k));
}

/// When the last ice is gone in each draw; stays behind what is still frozen.
void note_thawing(ProveRun& run, Mask& thawed, const Setting<Lanes>& setting,
                  const Moment<Lanes>& from, const Moment<Lanes>& to, double at_s, double step_s) {
  const Lanes share = share_to_thawed(setting, from, to);
  const Lanes minutes = (at_s + step_s * clamp(share, 0.0, 1.0)) / 60.0;
  run.thawed_minutes = select(thawed, *run.thawed_minutes, minutes);
  thawed = thawed | (share <= 1.0);
}

/// Steps until every draw that ever can has reached the target and the trace is long enough, or the
/// limit; fills the traces. Returns the number of steps.
// Compiled for wide registers too where the loader can choose: 1.8 times as fast, and to
// the same bits, as a test of this folder checks.
#if defined(__x86_64__) && defined(__gnu_linux__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
[[gnu::target_clones("avx512f", "avx2", "default"), gnu::flatten]]
#endif
std::size_t advance(const ProveLoop& loop, Moment<Lanes> now, ProveRun& run, Arrival& arrival) {
  const RiseSettings& settings = loop.settings;
  const double limit_s = settings.limit_minutes * 60.0;
  const double trace_s = loop.prove.traced ? settings.trace_minutes * 60.0 : 0.0;
  const Lanes start_volume = now.volume_ml;
  sample(run, now, start_volume);
  Mask thawed = Lanes(1.0) < Lanes(0.0);
  const bool had_ice = loop.setting.ice &&
                       any(now.temperature_k.front() < loop.setting.ice->freezing_celsius + 273.15);
  if (had_ice) {
    run.thawed_minutes = Lanes(0.0);
  }
  std::size_t steps = 0;
  double elapsed_s = 0.0;
  while (elapsed_s < limit_s && (!all(arrival.reached | loop.never) || elapsed_s < trace_s)) {
    const Lanes clock = loop.clock_start + elapsed_s / 60.0;
    const Lanes ambient_now = ambient_at(loop.prove.ambient, clock);
    const int ahead = steps_ahead(now, ambient_now, settings, loop.constants);
    const double step_s = settings.sample_s / ahead;
    for (int k = 0; k < ahead; ++k) {
      const double at_s = elapsed_s + k * step_s;
      const Lanes ambient =
          ambient_at(loop.prove.ambient, loop.clock_start + (at_s + 0.5 * step_s) / 60.0);
      const Moment<Lanes> next = stepped(now, loop.setting, ambient, step_s, loop.constants);
      const Lanes share = share_to_target(loop, now, next, start_volume, at_s, step_s);
      const Mask due = (!arrival.reached) & (share <= 1.0 + 1e-9);
      if (any(due)) {
        const Lanes inside = clamp(share, 0.0, 1.0);
        arrive(arrival, now, next, inside, due, (at_s + inside * step_s) / 60.0);
      }
      if (had_ice) {
        note_thawing(run, thawed, loop.setting, now, next, at_s, step_s);
      }
      now = next;
    }
    steps += static_cast<std::size_t>(ahead);
    elapsed_s += settings.sample_s;
    sample(run, now, start_volume);
  }
  const Mask reached = arrival.reached;
  if (!all(reached)) {
    arrive(arrival, now, now, 0.0, !reached, settings.limit_minutes);
    arrival.reached = reached;
  }
  return steps;
}

/// Bubbles pressed out before a prove: air and carbon dioxide alike, and first what had
/// blown the dough beyond double; what is dissolved stays.
RiseState pressed(const RiseState& s, const Prove& prove, const RiseDough& d, const RiseUnknowns& u,
                  const RiseSettings& settings, const RiseConstants& c, const Lanes& p) {
  const bool whole = !any(prove.gas_kept_before < 1.0);
  if (whole) {
    return s;
  }
  const Lanes kept = min(prove.gas_kept_before * u.gas_kept, 1.0);
  const Medium<Lanes> m = medium_of(d, s, u, settings, c, p);
  const Warmth<Lanes> w = warmth_of(s.temperature_k, false, settings.pressure_pa, c);
  const Lanes carbon_dioxide =
      bubbles_of(m.carbon_dioxide_start, m, w).volume_ml / w.molar_ml - m.air_mol;
  const Lanes gas_ml = (carbon_dioxide + m.air_mol) * w.molar_ml;
  const Lanes beyond = max(gas_ml - c.full_gas * m.dense_ml, 0.0);
  const Lanes share = (kept * (gas_ml - beyond) + kept * kept * kept * beyond) / max(gas_ml, 1e-12);
  RiseState out = s;
  out.co2_lost_mol += carbon_dioxide * (1.0 - share) * p;
  out.air_mol = s.air_mol * share;
  return out;
}

/// Frozen through long before that, minutes; from then on the months alone count.
constexpr double k_frozen_through_minutes = 600.0;
constexpr double k_month_minutes = 30.0 * 1440.0;

/// What the freezer does beyond the cold, in the draws whose middle is frozen.
RiseState kept_frozen(const RiseState& s, const Setting<Lanes>& setting, double minutes,
                      const RiseConstants& c) {
  if (!setting.ice) {
    return s;
  }
  const Mask frozen = s.temperature_k.front() < setting.ice->freezing_celsius + 273.15;
  const RiseState kept = after_freezing(s, minutes / k_month_minutes, c);
  RiseState out = s;
  out.yeast_g = select(frozen, kept.yeast_g, s.yeast_g);
  out.wild_yeast_g = select(frozen, kept.wild_yeast_g, s.wild_yeast_g);
  out.strength = select(frozen, kept.strength, s.strength);
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
  for (const Prove& asked : proves) {
    Prove prove = asked;
    const double stored =
        prove.freezes ? std::max(prove.value - k_frozen_through_minutes, 0.0) : 0.0;
    prove.value -= stored;
    const RiseState before = pressed(out.end, prove, dough, unknowns, settings, constants, p);
    const ProveStart begin = begin_prove(dough, before, prove, unknowns, settings, constants);
    const Setting<Lanes>& setting = begin.setting;
    const Moment<Lanes>& now = begin.moment;

    ProveRun run;
    run.name = prove.name;
    run.sample_s = settings.sample_s;
    run.start_volume_ml = now.volume_ml * p;
    Arrival arrival;
    arrival.moment = now;
    const Lanes clock_start =
        prove.clock == AmbientClock::from_mixing ? before.minutes : Lanes(0.0);
    // At a fiftieth of its vigour a yeast doubles nothing in the two days that are waited for it.
    constexpr double k_least_vigour = 0.02;
    const Mask works = (before.yeast_g > 0.0) & (unknowns.yeast_vigour >= k_least_vigour);
    const Mask barren = !(works | (before.wild_yeast_g > 0.0));
    const Mask rises = Lanes(prove.target == ProveTarget::volume_ratio ? 1.0 : 0.0) > 0.0;
    out.steps += advance({prove, 1.0 + (prove.value - 1.0) * unknowns.eye, setting, settings,
                          constants, clock_start, barren & rises},
                         now, run, arrival);
    run.reached = arrival.reached;
    run.status = all(arrival.reached) ? RiseStatus::reached
                 : all(barren)        ? RiseStatus::nothing_to_rise
                                      : RiseStatus::not_reached;
    run.minutes_to_target = arrival.minutes + stored;
    run.volume_ratio_end = arrival.moment.volume_ml / now.volume_ml;
    run.end = state_after(before, arrival.moment, p, run.minutes_to_target, constants);
    if (prove.freezes) {
      run.end = kept_frozen(run.end, setting, asked.value, constants);
    }
    out.end = run.end;
    out.proves.push_back(std::move(run));
  }
  out.balance = balance_of(start, out.end, constants);
  return out;
}

}  // namespace maslin
