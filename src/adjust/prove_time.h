// A wanted prove time, met by yeast first, then by warmth.
#pragma once

#include "adjust/adjust.h"
#include "pantry/pantry.h"
#include "recipe/recipe.h"

namespace maslin {

/// Changes the yeast (half to twice as much), where that does not reach the warmth the proves
/// stand in (8 to 34 C), and where both do not the yeast again (a tenth to four times), until
/// the median proves take the wanted minutes in this kitchen; or says how near they come.
void meet_prove_time(Adjustment& out, const Pantry& pantry, const AdjustRequest& request,
                     const Want& want);

}  // namespace maslin
