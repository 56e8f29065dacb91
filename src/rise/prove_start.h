// From a dough, its state and a prove to what the step needs: per 100 g flour.
#pragma once

#include "rise/prove_step.h"
#include "rise/rise.h"

namespace maslin::rise_model {

/// Grams of the whole dough per 100 g of its flour, divided by 100: what extensive figures
/// are divided by. A bowl without flour is reckoned by its water.
Lanes portions_of_flour(const RiseDough& dough);

Medium<Lanes> medium_of(const RiseDough& dough, const RiseState& state,
                        const RiseUnknowns& unknowns, const RiseSettings& settings,
                        const RiseConstants& constants, const Lanes& portions);

struct ProveStart {
  Setting<Lanes> setting;
  Moment<Lanes> moment;
};

/// The first moment of a prove, with all that stays the same during it.
ProveStart begin_prove(const RiseDough& dough, const RiseState& before, const Prove& prove,
                       const RiseUnknowns& unknowns, const RiseSettings& settings,
                       const RiseConstants& constants);

/// Steps to take over the next sample interval: more for much yeast in the warm, whose
/// sugar runs out within minutes; few in the fridge.
int steps_ahead(const Moment<Lanes>& now, const Lanes& ambient_k, const RiseSettings& settings,
                const RiseConstants& constants);

}  // namespace maslin::rise_model
