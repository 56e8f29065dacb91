#pragma once

#include "reading/words.h"
#include "recipe/recipe.h"

namespace maslin::reading {

/// Moves ingredients listed with the dough that the method only ever puts inside or on
/// top ("pipe in the jelly", "sprinkle with sesame seeds") to a filling or topping of
/// their own. Only when the method names what it mixes, and only foods that can be
/// either: preserves, nuts, seeds, cheese, fruit and the like; sugar, fat and spice too where
/// it leaves nothing unnamed to be mixed in.
void place_by_steps(Recipe& recipe, const Lexicons& lexicons, const Lexicon& lexicon);

/// Nothing proves once it is baked: what stands then cools, or is kept ("wrap, and keep two
/// weeks").
void cool_what_is_baked(Recipe& recipe);

}  // namespace maslin::reading
