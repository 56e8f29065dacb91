#include "rise/prove_start.h"

#include <algorithm>

namespace maslin::rise_model {
namespace {

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

Shells<Lanes> piece_shells(const RiseDough& d, const Prove& prove, const Lanes& piece_g) {
  const Lanes share = piece_g / max(d.mass_g, 1e-9);
  const Lanes volume_m3 = max(d.dense_ml, 1e-9) * share * 1e-6;
  const Lanes radius = prove.shape == DoughShape::ball
                           ? exp(log(volume_m3 * (3.0 / (4.0 * 3.14159265358979323846))) / 3.0)
                           : Lanes(std::max(prove.half_thickness_m, 1e-3));
  return shells_of(prove.shape, radius, volume_m3,
                   Lanes(max(d.heat_capacity_j_per_k, 1e-9) * share));
}

/// Below this there may be ice, K: no dough freezes above it.
constexpr double k_no_frost_k = 272.65;
constexpr double k_fusion_j_per_kg = 333.6e3;
constexpr double k_ice_spares_j_per_kg_k = 2100.0;  // water 4.2, ice 2.1 kJ/(kg K): from memory

bool frost_near(const RiseState& s, const Prove& prove) {
  bool out = false;
  for (const Lanes& shell : s.temperature_k) {
    out = out || any(shell < k_no_frost_k);
  }
  for (const AmbientPoint& point : prove.ambient) {
    out = out || any(point.temperature_k < k_no_frost_k);
  }
  return out;
}

/// All that is dissolved lowers the freezing point, ethanol too.
Ice<Lanes> ice_of(const RiseDough& d, const RiseState& s, const Lanes& piece_g,
                  const Lanes& shell_capacity, DoughShape shape, const RiseConstants& c) {
  const Lanes osmol = d.inert_osmol + s.hexose_g / 180.156 + (s.sucrose_g + s.maltose_g) / 342.3 +
                      s.ethanol_g / 46.07;
  const Lanes water_kg = max(d.solvent_water_g, 1e-9) * 1e-3;
  const Lanes shell_kg =
      water_kg * (piece_g / max(d.mass_g, 1e-9)) / static_cast<double>(k_dough_shells);
  Ice<Lanes> out;
  out.to_the_middle = shape == DoughShape::ball ? k_ball_to_the_middle : 1.0;
  out.freezing_celsius = -max(c.cryoscopic_k_kg_per_mol * osmol / water_kg, 0.5);
  out.latent_j = k_fusion_j_per_kg * shell_kg;
  // Two thirds of that water is ice in a freezer.
  constexpr double k_ice_in_a_freezer = 0.67;
  out.frozen_j_per_k = shell_capacity - (k_ice_in_a_freezer * k_ice_spares_j_per_kg_k) * shell_kg;
  return out;
}

}  // namespace

Lanes portions_of_flour(const RiseDough& d) {
  return select(d.flour_g > 0.0, d.flour_g, max(d.water_g / 0.65, 1e-9)) / 100.0;
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
  m.dense_ml = max(d.dense_ml / p, 1e-9);
  m.critical_volume_ml =
      m.dense_ml / (1.0 - c.mixed_air) * d.critical_expansion * u.retention * s.strength;
  m.pressure_pa = settings.pressure_pa;
  m.sour = any((s.wild_yeast_g > 0.0) | (s.ripe_flour_g > 0.0));
  return m;
}

ProveStart begin_prove(const RiseDough& dough, const RiseState& before, const Prove& prove,
                       const RiseUnknowns& unknowns, const RiseSettings& settings,
                       const RiseConstants& constants) {
  const Lanes p = portions_of_flour(dough);
  const Lanes piece_g =
      select(prove.piece_g > 0.0, min(prove.piece_g, dough.mass_g), max(dough.mass_g, 1e-9));
  ProveStart out;
  Setting<Lanes>& setting = out.setting;
  setting.medium = medium_of(dough, before, unknowns, settings, constants, p);
  setting.shells = piece_shells(dough, prove, piece_g);
  setting.heat_transfer_w_per_m2k = prove.heat_transfer_w_per_m2k * unknowns.heat_transfer;
  setting.pieces_per_100g_flour = max(dough.mass_g, 1e-9) / p / piece_g;
  if (frost_near(before, prove)) {
    setting.ice =
        ice_of(dough, before, piece_g, setting.shells.capacity_j_per_k, prove.shape, constants);
  }
  Moment<Lanes>& now = out.moment;
  now.chemistry = chemistry_of(before, p);
  now.temperature_k = before.temperature_k;
  now.warmth = warmth_of(now.temperature_k, setting.medium.sour, settings.pressure_pa, constants);
  now.heat_w = 0.0;
  now.next_heat_w = 0.0;
  settle(now, setting, constants);
  now.next_volume_ml = now.volume_ml;
  return out;
}

int steps_ahead(const Moment<Lanes>& now, const Lanes& ambient_k, const RiseSettings& settings,
                const RiseConstants& c) {
  const double top = cardinal_rate(c.reference_k, c.gas_temperatures);
  const Lanes gas = max(now.warmth.gas, cardinal_rate(ambient_k, c.gas_temperatures) / top);
  const Lanes load = (now.chemistry[k_yeast] + now.chemistry[k_wild]) * gas;
  double most = 0.0;
  for (std::size_t i = 0; i < k_lane_count; ++i) {
    most = std::max(most, load[i]);
  }
  const double minutes = settings.sample_s / 60.0;
  const double wanted = std::min(minutes * (0.1 + 0.12 * most), 30.0);
  return (static_cast<int>(wanted) + 1) * std::max(settings.fineness, 1);
}

}  // namespace maslin::rise_model
