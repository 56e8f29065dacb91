// "Flour 4 1/2, water 2 1/4, salt 2": a card that leaves its measures to those who know them.
#include <algorithm>

#include "reading/resolve.h"

namespace maslin::reading {
namespace {

bool is_bare(const DraftLine& line) {
  return line.ingredient != nullptr && line.measure && line.measure->number &&
         line.measure->unit.empty() && line.portion_word.empty() && !line.measure->bare_article &&
         line.line.found.size.empty();
}

/// The household measure that fits beside so many cups of flour: a whole cup of what there is
/// little of in doughs is a spoon. Common practice, no source.
std::string_view measure_of(const Ingredient& ingredient, double number, double flour_cups) {
  const auto cups_to = [&](double share) {
    return number <= share * flour_cups ? std::string_view("cup") : std::string_view("tbsp");
  };
  switch (ingredient.kind) {
    case IngredientKind::flour:
    case IngredientKind::starch:
    case IngredientKind::water:
    case IngredientKind::juice:
    case IngredientKind::plant_milk:
    case IngredientKind::drink:
    case IngredientKind::dairy:
      return cups_to(1.2);
    case IngredientKind::sugar:
    case IngredientKind::syrup:
    case IngredientKind::fat:
      return cups_to(0.25);
    case IngredientKind::salt:
    case IngredientKind::spice:
    case IngredientKind::leavening:
      return "tsp";
    default:
      return "";
  }
}

}  // namespace

void settle_bare_cups(Draft& draft) {
  // More than this of flour are no cups of a household.
  constexpr double k_most_cups = 20.0;
  double flour_cups = 0.0;
  std::size_t bare = 0;
  for (const DraftPart& part : draft.parts) {
    for (const DraftLine& line : part.lines) {
      const bool flour = line.ingredient != nullptr &&
                         line.ingredient->kind == IngredientKind::flour && line.measure &&
                         line.measure->number;
      if (flour && (is_bare(line) || line.measure->unit == "cup")) {
        flour_cups += line.measure->middle();
      }
      bare += is_bare(line) && !measure_of(*line.ingredient, 1.0, 1.0).empty() ? 1U : 0U;
    }
  }
  if (bare < 2 || flour_cups < 1.0 || flour_cups > k_most_cups) {
    return;
  }
  for (DraftPart& part : draft.parts) {
    for (DraftLine& line : part.lines) {
      const std::string_view unit =
          is_bare(line) ? measure_of(*line.ingredient, line.measure->middle(), flour_cups) : "";
      if (!unit.empty()) {
        line.measure->unit = unit;
        line.line.found.unit = unit;
        const std::string_view said = unit == "cup"    ? "cups were"
                                      : unit == "tbsp" ? "a tablespoon was"
                                                       : "a teaspoon was";
        line.doubts.push_back({line.line.text, "no measure is said: " + std::string(said) +
                                                   " taken, as fits beside the flour"});
      }
    }
  }
}

}  // namespace maslin::reading
