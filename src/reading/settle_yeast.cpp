#include "reading/settle_yeast.h"

#include <algorithm>

#include "quantity/table.h"

namespace maslin::reading {
namespace {

// A name row of this value is the liquid yeast of brewers and old kitchens.
constexpr double k_liquid_yeast = 3.0;
// A name row of this value is fresh yeast, unless it comes in packets.
constexpr double k_fresh_in_bulk = 4.0;
// A name row of this value is yeast, or baking powder where the text lets nothing rise.
constexpr double k_or_powder = 5.0;

// A name row of this value is the brewers' yeast: the leaven of old books by the measure, fresh
// yeast by weight, and a food where another yeast raises the dough.
constexpr double k_brewers = 6.0;

/// Nobody fills a gill or a cup with dry yeast.
bool is_vessel_of_old_yeast(std::string_view unit) {
  return unit == "gill" || unit == "teacup" || unit == "wineglass" || unit == "pint" ||
         unit == "glass" || unit == "cup" || unit == "breakfast_cup" || unit == "tumbler";
}

/// Weighed and forecast as what it was: a cup of it does the work of a small cake of yeast; what
/// was taken by the spoon had settled thick (both of household books before 1910, from memory).
void take_old_yeast(DraftLine& line, const Pantry& pantry) {
  const std::string& unit = line.line.found.unit;
  const bool thick = unit == "tbsp" || unit == "tsp" || unit == "dessertspoon";
  if (const Ingredient* yeast = pantry.find(thick ? "fresh_yeast" : "liquid_yeast")) {
    line.ingredient = yeast;
    line.line.ingredient_id = yeast->id;
    line.doubts.push_back(
        {line.line.text,
         thick ? "thick yeast of brewers is no longer sold: as much fresh yeast was taken"
               : "liquid yeast of brewers is no longer sold: a fortieth of its weight of instant "
                 "yeast, and water for the rest, does the same work"});
  }
}

/// What the rest of the recipe says of its yeast.
struct YeastSaid {
  bool active = false;  // "active dry" stands somewhere
  bool fresh = false;   // another line is fresh yeast by name
  bool other = false;   // a yeast that raises it stands beside a brewers' one
  bool flat = false;    // there is a method, and nothing in it rises
};

// Grams of dry yeast in a sachet: 7 to 11 are sold (common practice, no source).
constexpr double k_heaviest_sachet = 12.0;

/// A plain "yeast" is what its unit says, else what the country sells.
void settle_yeast(DraftLine& line, const std::vector<PlaceShare>& places, double flour_grams,
                  const YeastSaid& said, const Pantry& pantry) {
  if (line.ingredient == nullptr || line.ingredient->kind != IngredientKind::yeast) {
    return;
  }
  const bool plain = line.generic == 1.0 || line.generic == k_or_powder;
  if (line.generic == k_brewers && said.other) {
    if (const Ingredient* food = pantry.find("nutritional_yeast")) {
      line.ingredient = food;
      line.line.ingredient_id = food->id;
    }
    return;
  }
  const bool by_vessel =
      (plain || line.generic == k_brewers) && is_vessel_of_old_yeast(line.line.found.unit);
  if (line.generic == k_liquid_yeast || by_vessel) {
    take_old_yeast(line, pantry);
    return;
  }
  if (!plain && line.generic != k_fresh_in_bulk && line.generic != k_brewers) {
    return;
  }
  const std::string_view unit = line.line.found.unit;
  std::string_view id = line.ingredient->id;
  const double grams = line.measure ? line.measure->middle() * grams_in(unit) : 0.0;
  const bool fresh_beside = said.fresh && grams_in(unit) > 0.0;
  // What is sold in sachets is dry, unless they are as heavy as a cube is.
  const bool packets = unit == "packet" || (line.other && line.other->unit == "packet");
  const double count = unit == "packet" ? line.measure->middle()
                       : packets        ? line.other->middle()
                                        : 0.0;
  const bool sachet = packets && grams <= k_heaviest_sachet * std::max(count, 0.01);
  // Dry yeast is sold and used by less: 15 g of it are two packets. Common practice, no source.
  const bool heavy = grams >= 15.0 && grams > 0.017 * flour_grams;
  const bool much =
      !sachet && grams > 0.0 && flour_grams > 0.0 && (grams > 0.022 * flour_grams || heavy);
  const bool pieces = unit.empty() && line.measure.has_value();  // "½ Hefe"
  if (line.generic == k_or_powder && said.flat && packets) {
    if (const Ingredient* powder = pantry.find("baking_powder")) {
      line.ingredient = powder;
      line.line.ingredient_id = powder->id;
      line.doubts.push_back(
          {line.line.text, "nothing is left to rise: " + powder->name + " was taken, not yeast"});
      return;
    }
  }
  const bool bulk = (line.generic == k_fresh_in_bulk || line.generic == k_brewers) && !sachet;
  if (pieces || bulk || unit == "cube" || unit == "cake" || unit == "tablet" || much ||
      fresh_beside) {
    id = "fresh_yeast";
  } else if (said.active || (!places.empty() && places.front().locale == "us")) {
    id = "active_dry_yeast";
  } else {
    id = "instant_yeast";
  }
  line.doubts.push_back(
      {line.line.text, "the kind of yeast is not said: " + pantry.find(id)->name + " was taken"});
  if (const Ingredient* settled = pantry.find(id)) {
    line.ingredient = settled;
    line.line.ingredient_id = settled->id;
  }
}

bool is_fresh_yeast(const DraftLine& line) {
  return line.generic == 0.0 && line.line.ingredient_id == "fresh_yeast";
}

bool raises(const DraftLine& line) {
  return line.ingredient != nullptr && line.ingredient->kind == IngredientKind::yeast &&
         line.generic != k_brewers && line.ingredient->yeast.activity > 0.0;
}

/// "1 yeast cake", "a yeast cube": the unit stands in the name.
void settle_cake(DraftLine& line) {
  if (!is_fresh_yeast(line) || !line.measure || !line.measure->number ||
      !line.measure->unit.empty()) {
    return;
  }
  const std::string name = folded_name(line.line.name);
  if (name == "cake" || name.ends_with(" cake") || name.starts_with("cake ")) {
    line.measure->unit = "cake";
    line.line.found.unit = "cake";
  }
}

double flour_grams(const Draft& draft) {
  double grams = 0.0;
  for (const DraftPart& part : draft.parts) {
    for (const DraftLine& line : part.lines) {
      if (line.ingredient != nullptr && line.ingredient->kind == IngredientKind::flour &&
          line.measure) {
        const bool filled = line.measure->content.has_value();  // "a two-pound bag of flour"
        const double mass =
            filled ? line.measure->content->middle() * grams_in(line.measure->content_unit)
                   : grams_in(line.measure->unit);
        // A cup of flour is near enough 130 g to tell fresh yeast from dry.
        grams += line.measure->middle() * (mass > 0.0                    ? mass
                                           : line.measure->unit == "cup" ? 130.0
                                                                         : 0.0);
      }
    }
  }
  return grams;
}

bool says(const Draft& draft, std::string_view first, std::string_view second) {
  for (const Text& text : draft.texts) {
    for (std::size_t i = 0; i + 1 < text.size(); ++i) {
      if (text[i].word == first && text[i + 1].word == second) {
        return true;
      }
    }
  }
  return false;
}

/// Whether the text has a method in which nothing is left to rise.
bool lets_nothing_rise(const Draft& draft) {
  bool any = false;
  for (const DraftPart& part : draft.parts) {
    for (const DraftStep& step : part.steps) {
      any = true;
      for (std::size_t i = step.from; i < step.to; ++i) {
        const Match verb = match(*step.text, i, WordClass::verb);
        if (verb && verb.phrase->means == "prove" && verb.phrase->value == 0.0) {
          return false;
        }
      }
    }
  }
  return any;
}

}  // namespace

void settle_yeasts(Draft& draft, const std::vector<PlaceShare>& places, const Pantry& pantry) {
  const double flour = flour_grams(draft);
  YeastSaid said;
  said.active = says(draft, "active", "dry");
  said.flat = lets_nothing_rise(draft);
  for (const DraftPart& part : draft.parts) {
    said.fresh = said.fresh || std::any_of(part.lines.begin(), part.lines.end(), is_fresh_yeast);
    said.other = said.other || std::any_of(part.lines.begin(), part.lines.end(), raises);
  }
  for (DraftPart& part : draft.parts) {
    for (DraftLine& line : part.lines) {
      settle_yeast(line, places, flour, said, pantry);
      settle_cake(line);
    }
  }
}

}  // namespace maslin::reading
