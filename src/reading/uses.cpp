#include "reading/uses.h"

#include <algorithm>
#include <map>
#include <optional>
#include <string>

#include "reading/token.h"

namespace maslin::reading {
namespace {

struct Uses {
  int mixed = 0;
  int filled = 0;
  int finished = 0;

  int outside() const { return filled + finished; }
};

using UsesByName = std::map<std::string, Uses, std::less<>>;

/// What the dough's method says of its ingredients.
struct Method {
  UsesByName uses;
  bool fills = false;           // a step says so
  bool has_filling = false;     // a part of that kind stands there
  bool takes_the_rest = false;  // "all the other ingredients": what is not named is mixed too
};

/// Sweetened, buttered and spiced are doughs and what is rolled up in them alike.
bool goes_with_both(IngredientKind kind) {
  return kind == IngredientKind::sugar || kind == IngredientKind::syrup ||
         kind == IngredientKind::fat || kind == IngredientKind::spice;
}

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

/// "All the other ingredients", "the dry things": what the step does not name goes in as well.
bool takes_the_rest(const Text& step) {
  for (std::size_t i = 0; i < step.size(); ++i) {
    if (is_class(step, i, WordClass::all_else)) {
      return true;
    }
  }
  return false;
}

/// Which line's ingredient the method means by a name: "butter" is the list's unsalted butter,
/// "sugar" its first sugar, where it lists no plain one.
std::string meant_by(const Ingredient& named, const Recipe& recipe, const Lexicons& lexicons) {
  std::string of_kind;
  std::string longer;
  for (const Part& part : recipe.parts) {
    for (const Line& line : part.lines) {
      const Ingredient* one = lexicons.pantry->find(line.ingredient_id);
      if (one == nullptr || one->kind != named.kind) {
        continue;
      }
      if (one->id == named.id) {
        return named.id;
      }
      longer = longer.empty() && one->name.ends_with(" " + named.name) ? one->id : longer;
      of_kind = of_kind.empty() ? one->id : of_kind;
    }
  }
  const bool any_does = named.kind == IngredientKind::sugar;
  return !longer.empty() ? longer : any_does && !of_kind.empty() ? of_kind : named.id;
}

/// How often the steps name each ingredient, by what they do with it. What is spread while the
/// risen dough is rolled out goes inside.
Method method_of(const Recipe& recipe, const Lexicons& lexicons, const Lexicon& lexicon) {
  Method out;
  for (const Part& part : recipe.parts) {
    out.has_filling = out.has_filling || part.kind == PartKind::filling;
    bool worked = false;
    bool shaped = false;
    bool baked = false;
    const auto last_shape =
        std::find_if(part.steps.rbegin(), part.steps.rend(), [](const Step& step) {
          return step.kind == StepKind::shape || step.kind == StepKind::divide;
        }).base();
    for (auto one = part.steps.begin(); one != part.steps.end(); ++one) {
      const Step& step = *one;
      out.fills = out.fills || step.kind == StepKind::fill;
      worked = worked || step.kind == StepKind::knead || step.kind == StepKind::prove;
      shaped = shaped || (worked && step.kind == StepKind::shape);
      baked = baked || step.kind == StepKind::bake;
      // What is strewn before the rolling up goes inside.
      const bool rolled_up_later = shaped && one < last_shape;
      const bool finishes = baked || (step.kind == StepKind::finish && !rolled_up_later);
      const bool fills = !finishes && (shaped || step.kind == StepKind::fill);
      const Text text = tokenise(step.text, lexicons, lexicon);
      out.takes_the_rest = out.takes_the_rest || (!fills && !finishes && takes_the_rest(text));
      for (std::size_t i = 0; i < text.size(); ++i) {
        const Match name = match_name(text, i);
        if (!name) {
          continue;
        }
        Uses& uses = out.uses[meant_by(*name.phrase->ingredient, recipe, lexicons)];
        uses.filled += fills ? 1 : 0;
        uses.finished += finishes ? 1 : 0;
        uses.mixed += !fills && !finishes ? 1 : 0;
        i = name.end - 1;
      }
    }
  }
  return out;
}

/// Whether another line of that kind is mixed into the dough; `named_twice`: and is put on or in
/// as well, so that its name may stand for both.
bool has_twin(const Ingredient& ingredient, const Part& part, const UsesByName& uses,
              const Lexicons& lexicons, bool named_twice) {
  return std::any_of(part.lines.begin(), part.lines.end(), [&](const Line& line) {
    const Ingredient* one = lexicons.pantry->find(line.ingredient_id);
    const auto at = uses.find(line.ingredient_id);
    return one != nullptr && one->id != ingredient.id && one->kind == ingredient.kind &&
           at != uses.end() && at->second.mixed > 0 && (!named_twice || at->second.outside() > 0);
  });
}

/// Where the method puts a line of the dough; nothing: into it.
std::optional<PartKind> goes_to(const Line& line, const Part& part, const Method& method,
                                const Lexicons& lexicons) {
  const Ingredient* ingredient = lexicons.pantry->find(line.ingredient_id);
  if (ingredient == nullptr) {
    return std::nullopt;
  }
  const auto at = method.uses.find(line.ingredient_id);
  const bool named = at != method.uses.end();
  const bool told = goes_with_both(ingredient->kind) && !method.takes_the_rest &&
                    (ingredient->kind == IngredientKind::spice ||
                     has_twin(*ingredient, part, method.uses, lexicons, !named));
  const bool jam = ingredient->kind == IngredientKind::preserve;
  if (!named && jam && method.fills && !method.has_filling) {
    return PartKind::filling;  // "fill", and nothing else is there to fill with
  }
  if (!named) {
    // The second sugar of a list in which one is mixed in and one strewn, both called "sugar".
    return told && ingredient->kind != IngredientKind::spice ? std::optional(PartKind::filling)
                                                             : std::nullopt;
  }
  if (!(can_be_either(ingredient->kind) || told) || at->second.mixed > 0 ||
      at->second.outside() == 0) {
    return std::nullopt;
  }
  return at->second.filled > 0 ? PartKind::filling : PartKind::topping;
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
  const Method method = method_of(recipe, lexicons, lexicon);
  const auto mixed = std::count_if(method.uses.begin(), method.uses.end(),
                                   [](const auto& one) { return one.second.mixed > 0; });
  if (mixed < 3) {
    return;
  }
  std::vector<std::pair<PartKind, Line>> moved;
  for (Part& part : recipe.parts) {
    if (part.kind != PartKind::dough) {
      continue;
    }
    const Part whole = part;
    std::erase_if(part.lines, [&](const Line& line) {
      const std::optional<PartKind> to = goes_to(line, whole, method, lexicons);
      if (to) {
        moved.emplace_back(*to, line);
      }
      return to.has_value();
    });
  }
  for (auto& [kind, line] : moved) {
    part_of_kind(recipe, kind).lines.push_back(std::move(line));
  }
}

void cool_what_is_baked(Recipe& recipe) {
  // So long nothing is proved, and what is told as a prove in so many words is left one.
  constexpr double k_a_day = 1440.0;
  for (Part& part : recipe.parts) {
    const auto after_heat =
        std::find_if(part.steps.rbegin(), part.steps.rend(), [](const Step& step) {
          return step.kind == StepKind::bake || step.kind == StepKind::steam ||
                 step.kind == StepKind::fry;
        }).base();
    // Without any heat the reverse search ends at the beginning: nothing was baked.
    if (after_heat == part.steps.begin()) {
      continue;
    }
    std::for_each(after_heat, part.steps.end(), [](Step& step) {
      const bool kept =
          step.kind == StepKind::prove && step.minutes && step.minutes->low >= k_a_day;
      step.kind = kept ? StepKind::cool : step.kind;
    });
  }
}

}  // namespace maslin::reading
