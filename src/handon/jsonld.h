// A recipe in the open schema.org/Recipe vocabulary, as JSON-LD, for pages and programs that know
// no other form. Reading it back gives the same recipe.
#pragma once

#include <optional>
#include <string>

#include "handon/label.h"
#include "pantry/pantry.h"
#include "recipe/recipe.h"

namespace maslin::handon {

/// What is known beside the recipe; all may be missing.
struct JsonLdExtras {
  std::string language;                  // BCP 47: the spelling of English, where it is that
  std::optional<double> cook_minutes;    // in the oven
  std::optional<double> total_minutes;   // from the scale to the rack
  std::optional<LabelServing> serving;   // what `nutrition` is for
  std::vector<LabelNutrient> nutrition;  // declared figures of a label
};

/// One document. Where a recipe has several parts, each begins in recipeIngredient with its
/// heading and in recipeInstructions with a HowToSection. The measures' country stands as
/// locationCreated, the tin as tool.
std::string recipe_to_jsonld(const Recipe& recipe, const Pantry& pantry,
                             const JsonLdExtras& extras);

/// "PT1H30M", ISO 8601, whole minutes.
std::string iso_duration(double minutes);

}  // namespace maslin::handon
