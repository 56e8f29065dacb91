#include "reading/doubts.h"

#include <algorithm>
#include <string>

#include "quantity/number_text.h"
#include "recipe/hot_rise.h"

namespace maslin::reading {
namespace {

struct Totals {
  double flour = 0.0;
  double salt = 0.0;
  double dry_yeast = 0.0;
  double sugar = 0.0;
  double water = 0.0;      // of what pours
  double wet_foods = 0.0;  // water in fruit and the like, of which a dough gets some
  double baking_powder = 0.0;
  bool has_salt = false;
  bool has_yeast = false;
  bool has_leavening = false;
  bool has_liquid = false;
  bool has_flour = false;
  bool flour_weighed = true;
  const Line* salt_line = nullptr;
  const Line* yeast_line = nullptr;
  const Line* sugar_line = nullptr;
};

bool is_liquid(const Ingredient& ingredient) {
  switch (ingredient.kind) {
    case IngredientKind::water:
    case IngredientKind::juice:
    case IngredientKind::plant_milk:
    case IngredientKind::alcohol:
    case IngredientKind::drink:
    case IngredientKind::egg:
    case IngredientKind::puree:
      return true;
    case IngredientKind::dairy:
    case IngredientKind::cheese:
      return ingredient.composition[Component::water] > 0.6;
    default:
      return false;
  }
}

void count_line(const Line& line, const Ingredient& ingredient, Totals& out) {
  const double grams = line.weighed ? line.grams.p50() : 0.0;
  switch (ingredient.kind) {
    case IngredientKind::flour:
      out.has_flour = true;
      out.flour += grams;
      out.flour_weighed = out.flour_weighed && line.weighed;
      break;
    case IngredientKind::salt:
      out.has_salt = true;
      out.salt += grams;
      out.salt_line = &line;
      break;
    case IngredientKind::yeast:
      out.has_yeast = true;
      if (ingredient.yeast.kind != YeastKind::starter && ingredient.yeast.activity > 0.0) {
        // Fresh yeast does a third of the work of instant.
        const bool fresh = ingredient.yeast.kind == YeastKind::fresh;
        out.dry_yeast += fresh ? grams / 3.0 : grams;
        out.yeast_line = &line;
      }
      break;
    case IngredientKind::leavening:
      out.has_leavening = true;
      out.baking_powder += grams;
      break;
    case IngredientKind::sugar:
      out.sugar += grams;
      out.sugar_line = &line;
      break;
    default:
      break;
  }
  out.has_liquid = out.has_liquid || is_liquid(ingredient);
  // The flour's own moisture and that of solid foods is no liquid of the dough.
  if (is_liquid(ingredient)) {
    out.water += grams * ingredient.composition[Component::water];
  } else if (ingredient.composition[Component::water] > 0.6) {
    out.wet_foods += grams * ingredient.composition[Component::water];
  }
}

Totals count(const Recipe& recipe, const Pantry& pantry) {
  Totals out;
  for (const Part& part : recipe.parts) {
    const bool goes_in = part.kind == PartKind::dough || part.kind == PartKind::preferment ||
                         part.kind == PartKind::soaker || part.kind == PartKind::extract;
    // What a soaker drinks is bound, and does not make the dough softer.
    const double water = out.water;
    for (const Line& line : part.lines) {
      const Ingredient* ingredient = pantry.find(line.ingredient_id);
      if (goes_in && ingredient != nullptr) {
        count_line(line, *ingredient, out);
      }
    }
    if (part.kind == PartKind::soaker) {
      out.wet_foods += out.water - water;
      out.water = water;
    }
  }
  return out;
}

std::string percent(double value) {
  return number_text(value, value < 10.0 ? 1 : 0) + " %";
}

const SaneRow* sane_row(const Lexicons& lexicons, std::string_view what) {
  for (const SaneRow& row : lexicons.sane) {
    if (row.what == what) {
      return &row;
    }
  }
  return nullptr;
}

void add(Recipe& recipe, std::string text, std::string why) {
  recipe.doubts.push_back({std::move(text), std::move(why)});
}

/// A share of the flour far outside what doughs have.
void doubt_share(Recipe& recipe, const Lexicons& lexicons, std::string_view what,
                 std::string_view name, double grams, double flour, const Line* line) {
  const SaneRow* row = sane_row(lexicons, what);
  if (row == nullptr || flour <= 0.0 || grams <= 0.0) {
    return;
  }
  const double pct = 100.0 * grams / flour;
  // A pinch is little on purpose.
  const bool counted = line == nullptr || (line->found.number && line->found.unit != "pinch");
  if (pct > row->high || (pct < row->low && counted)) {
    recipe.doubts.push_back({line == nullptr ? std::string(name) : line->text,
                             std::string(name) + " is " + percent(pct) +
                                 " of the flour, doughs have " + percent(row->low) + " to " +
                                 percent(row->high) + ": " +
                                 std::string(pct > row->high ? row->cause : "was some left out?")});
  }
}

bool has_step(const Recipe& recipe, StepKind kind) {
  for (const Part& part : recipe.parts) {
    for (const Step& step : part.steps) {
      if (step.kind == kind) {
        return true;
      }
    }
  }
  return false;
}

const Step* step_of(const Recipe& recipe, StepKind kind) {
  for (const Part& part : recipe.parts) {
    for (const Step& step : part.steps) {
      if (step.kind == kind) {
        return &step;
      }
    }
  }
  return nullptr;
}

/// Nine tenths of the flour in water pours; nobody shapes it (common practice, no source).
constexpr double k_pours_pct = 92.0;

/// A batter where the text kneads or shapes a dough; true when it was doubted.
bool doubt_batter(Recipe& recipe, const Totals& totals) {
  if (totals.flour <= 0.0 || 100.0 * totals.water / totals.flour < k_pours_pct) {
    return false;
  }
  const Step* shaped = step_of(recipe, StepKind::shape);
  shaped = shaped == nullptr ? step_of(recipe, StepKind::knead) : shaped;
  if (shaped == nullptr) {
    return false;
  }
  add(recipe, shaped->text,
      "with " + percent(100.0 * totals.water / totals.flour) +
          " of the flour in water it pours like batter, yet it is shaped: is the flour's or the "
          "liquid's amount right?");
  return true;
}

void doubt_missing(Recipe& recipe, const Totals& totals) {
  if (!totals.has_flour) {
    add(recipe, recipe.title, "no flour is listed: nothing can be told of a dough without it");
    return;
  }
  if (!totals.has_salt) {
    add(recipe, recipe.title,
        "no salt is listed: 1.8 to 2 % of the flour is usual" +
            (totals.flour > 0.0 ? ", here about " + number_text(totals.flour * 0.019, 0) + " g"
                                : std::string()));
  }
  const bool rises = has_step(recipe, StepKind::prove);
  if (!totals.has_yeast && !totals.has_leavening && rises) {
    add(recipe, recipe.title,
        "it is left to rise but no yeast is listed: 1 % of the flour as "
        "instant yeast is usual" +
            (totals.flour > 0.0 ? ", here about " + number_text(totals.flour * 0.01, 0) + " g"
                                : std::string()));
  }
  if (!totals.has_liquid) {
    add(recipe, recipe.title, "no liquid is listed: 60 to 65 % of the flour is usual");
  }
}

void doubt_steps(Recipe& recipe, const Totals& totals) {
  bool any = false;
  for (const Part& part : recipe.parts) {
    any = any || !part.steps.empty();
  }
  if (!any) {
    return;
  }
  if (totals.has_yeast) {
    const Step* prove = step_of(recipe, StepKind::prove);
    if (prove == nullptr) {
      add(recipe, recipe.title,
          "no time to rise is said: an hour to double, then 30 to 45 "
          "minutes once shaped, is usual");
    } else if (!prove->minutes && prove->until.empty()) {
      add(recipe, prove->text, "how long it rises is not said: an hour, until doubled, is usual");
    }
  }
  const Step* bake = step_of(recipe, StepKind::bake);
  if (bake != nullptr && !bake->celsius) {
    add(recipe, bake->text,
        "no oven temperature is said: 190 to 220 °C is usual for buns and "
        "bread");
  }
}

/// What was read as the heat of a rise and is an oven's.
void refuse_hot_rises(Recipe& recipe) {
  for (Part& part : recipe.parts) {
    for (Step& step : part.steps) {
      if (is_hot_rise(step)) {
        recipe.doubts.push_back({step.text, "yeast dies at " +
                                                number_text(step.celsius->middle(), 0) +
                                                " °C: it was not taken as the warmth of the rise"});
        step.celsius.reset();
        step.fan = false;
      }
    }
  }
}

}  // namespace

void doubt(Recipe& recipe, const Pantry& pantry, const Lexicons& lexicons) {
  refuse_hot_rises(recipe);
  const Totals totals = count(recipe, pantry);
  if (totals.flour_weighed) {
    doubt_share(recipe, lexicons, "salt", "salt", totals.salt, totals.flour, totals.salt_line);
    doubt_share(recipe, lexicons, "yeast", "yeast", totals.dry_yeast, totals.flour,
                totals.yeast_line);
    doubt_share(recipe, lexicons, "sugar", "sugar", totals.sugar, totals.flour, totals.sugar_line);
    if (totals.has_liquid && !doubt_batter(recipe, totals)) {
      // Too little only if fruit, potato and the like could not make it up.
      const SaneRow* row = sane_row(lexicons, "water");
      const double enough = row == nullptr ? 0.0 : row->low * totals.flour / 100.0;
      const double most = totals.water + totals.wet_foods;
      doubt_share(recipe, lexicons, "water", "the water in it all",
                  std::max(totals.water, std::min(most, enough)), totals.flour, nullptr);
    }
  }
  doubt_missing(recipe, totals);
  doubt_steps(recipe, totals);
}

}  // namespace maslin::reading
