// Where a rise begins, and what joins or interrupts it.
#include "rise/rise.h"

namespace maslin {

Lanes RiseDough::osmolality() const {
  const Lanes mol = inert_osmol + (hexose_g + native_hexose_g) / 180.156 +
                    (sucrose_g + maltose_g + native_maltose_g) / 342.3;
  return mol / max(solvent_water_g, 1e-9) * 1000.0;
}

Lanes RiseDough::osmolality_inverted() const {
  return osmolality() + sucrose_g / 342.3 / max(solvent_water_g, 1e-9) * 1000.0;
}

Lanes RiseDough::ph_with(const RiseState& state, const RiseConstants& constants) const {
  const Lanes acid_mmol = state.ripe_flour_g * (constants.ripe_acid_mmol / 100.0);
  return ph - acid_mmol / max(buffer_mmol, 1e-9);
}

Lanes RiseState::mean_temperature_k() const {
  Lanes total = 0.0;
  for (const Lanes& t : temperature_k) {
    total += t;
  }
  return total / static_cast<double>(k_dough_shells);
}

RiseState start_of_rise(const RiseDough& dough, const Lanes& temperature_k,
                        const RiseUnknowns& unknowns, const RiseConstants& constants) {
  RiseState s;
  s.hexose_g = dough.hexose_g + dough.native_hexose_g * unknowns.flour_sugar;
  s.sucrose_g = dough.sucrose_g;
  s.maltose_g = dough.maltose_g + dough.native_maltose_g * unknowns.flour_sugar;
  s.latent_maltose_g = dough.latent_maltose_g * unknowns.flour_sugar;
  s.yeast_g = dough.yeast_g;
  s.wild_yeast_g = dough.wild_yeast_g;
  s.ripe_flour_g = dough.ripe_flour_g;
  s.ethanol_g = dough.ethanol_g;
  const Lanes share = min(constants.mixed_air * unknowns.mixed_air, 0.5);
  s.air_mol = dough.dense_ml * share / (1.0 - share) / 24880.0;
  s.temperature_k.fill(temperature_k);
  return s;
}

RiseState mix_in(const RiseState& dough_start, const RiseState& preferment_start,
                 const RiseState& preferment_end, const Lanes& share) {
  const auto more = [&](Lanes RiseState::* field) {
    return dough_start.*field + share * (preferment_end.*field - preferment_start.*field);
  };
  RiseState s = dough_start;
  s.hexose_g = max(more(&RiseState::hexose_g), 0.0);
  s.sucrose_g = max(more(&RiseState::sucrose_g), 0.0);
  s.maltose_g = max(more(&RiseState::maltose_g), 0.0);
  s.latent_maltose_g = max(more(&RiseState::latent_maltose_g), 0.0);
  s.yeast_g = max(more(&RiseState::yeast_g), 0.0);
  s.wild_yeast_g = max(more(&RiseState::wild_yeast_g), 0.0);
  s.ripe_flour_g = max(more(&RiseState::ripe_flour_g), 0.0);
  s.ethanol_g = more(&RiseState::ethanol_g);
  s.fermented_g = more(&RiseState::fermented_g);
  s.co2_made_mol = more(&RiseState::co2_made_mol);
  // Its bubbles are stirred out; what its water holds (about 1 atm of gas) comes along.
  s.co2_lost_mol = s.co2_made_mol;
  // Yeast of the preferment is awake and used to maltose; new yeast is not.
  const Lanes old_yeast = share * (preferment_end.yeast_g + preferment_end.wild_yeast_g);
  const Lanes weight = min(old_yeast / max(s.yeast_g + s.wild_yeast_g, 1e-12), 1.0);
  s.awake = weight * preferment_end.awake;
  s.induction = weight * preferment_end.induction;
  s.adaptation = weight * preferment_end.adaptation;
  return s;
}

RiseState after_freezing(const RiseState& state, double months, const RiseConstants& constants) {
  RiseState s = state;
  const Lanes kept = (1.0 - constants.freezing_loss) *
                     exp(log(Lanes(1.0 - constants.frozen_loss_per_month)) * months);
  s.strength *= (1.0 - constants.freezing_weakens) *
                exp(log(Lanes(1.0 - constants.frozen_weakens_per_month)) * months);
  s.yeast_g *= kept;
  s.wild_yeast_g *= kept;
  return s;
}

}  // namespace maslin
