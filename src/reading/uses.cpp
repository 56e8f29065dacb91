#include "reading/uses.h"

#include <algorithm>
#include <map>
#include <string>

#include "reading/token.h"

namespace maslin::reading {
namespace {

struct Uses {
  int mixed = 0;
  int filled = 0;
  int finished = 0;
};

bool can_be_either(IngredientKind kind) {
  switch (kind) {
    case IngredientKind::cheese:
    case IngredientKind::fruit:
    case IngredientKind::dried_fruit:
    case IngredientKind::puree:
    case IngredientKind::vegetable:
    case IngredientKind::herb:
    case IngredientKind::nut:
    case IngredientKind::nut_paste:
    case IngredientKind::seed:
    case IngredientKind::chocolate:
    case IngredientKind::meat:
    case IngredientKind::fish:
    case IngredientKind::preserve:
    case IngredientKind::topping:
      return true;
    default:
      return false;
  }
}

/// How often the steps name each ingredient, by what they do with it.
std::map<std::string, Uses, std::less<>> count_uses(const Recipe& recipe, const Lexicons& lexicons,
                                                    const Lexicon& lexicon) {
  std::map<std::string, Uses, std::less<>> out;
  for (const Part& part : recipe.parts) {
    for (const Step& step : part.steps) {
      const Text text = tokenise(step.text, lexicons, lexicon);
      for (std::size_t i = 0; i < text.size(); ++i) {
        const Match name = match_name(text, i);
        if (!name) {
          continue;
        }
        Uses& uses = out[name.phrase->ingredient->id];
        uses.filled += step.kind == StepKind::fill ? 1 : 0;
        uses.finished += step.kind == StepKind::finish ? 1 : 0;
        uses.mixed += step.kind != StepKind::fill && step.kind != StepKind::finish ? 1 : 0;
        i = name.end - 1;
      }
    }
  }
  return out;
}

Part& part_of_kind(Recipe& recipe, PartKind kind) {
  for (Part& part : recipe.parts) {
    if (part.kind == kind) {
      return part;
    }
  }
  Part part;
  part.kind = kind;
  part.name = part_kind_name(kind);
  recipe.parts.push_back(part);
  return recipe.parts.back();
}

}  // namespace

void place_by_steps(Recipe& recipe, const Lexicons& lexicons, const Lexicon& lexicon) {
  const auto uses = count_uses(recipe, lexicons, lexicon);
  const auto mixed =
      std::count_if(uses.begin(), uses.end(), [](const auto& one) { return one.second.mixed > 0; });
  if (mixed < 3) {
    return;
  }
  std::vector<std::pair<PartKind, Line>> moved;
  for (Part& part : recipe.parts) {
    if (part.kind != PartKind::dough) {
      continue;
    }
    std::erase_if(part.lines, [&](const Line& line) {
      const Ingredient* ingredient = lexicons.pantry->find(line.ingredient_id);
      const auto at = uses.find(line.ingredient_id);
      if (ingredient == nullptr || at == uses.end() || !can_be_either(ingredient->kind) ||
          at->second.mixed > 0 || at->second.filled + at->second.finished == 0) {
        return false;
      }
      moved.emplace_back(at->second.filled > 0 ? PartKind::filling : PartKind::topping, line);
      return true;
    });
  }
  for (auto& [kind, line] : moved) {
    part_of_kind(recipe, kind).lines.push_back(std::move(line));
  }
}

}  // namespace maslin::reading
