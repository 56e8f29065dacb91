#include "adjust/substitution.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "adjust/amounts.h"
#include "adjust/embedded_table.h"
#include "adjust/flour_moves.h"
#include "adjust/want_words.h"
#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin {
namespace {

const Ingredient* known(const Pantry& pantry, std::string_view word) {
  const Ingredient* one = pantry.find(word);
  return one != nullptr ? one : pantry.named(word);
}

/// What of the recipe is called that: "yeast" is the yeast that is in it; else what the pantry
/// calls so.
const Ingredient* in_recipe(const Recipe& recipe, const Pantry& pantry, std::string_view word) {
  const Ingredient* named = known(pantry, word);
  const std::string what = folded_name(word);
  const Ingredient* like = nullptr;
  for (const Part& part : recipe.parts) {
    for (const Line& line : part.lines) {
      const Ingredient* one = pantry.find(line.ingredient_id);
      if (one == nullptr || !line.weighed) {
        continue;
      }
      if (one == named) {
        return one;
      }
      const bool called = what == folded_name(kind_name(one->kind)) ||
                          (!what.empty() && folded_name(one->name).find(what) != std::string::npos);
      like = like == nullptr && called ? one : like;
    }
  }
  return like != nullptr ? like : named;
}

/// What the recipe has most of that is of the same kind as what is to come.
const Ingredient* like_in_recipe(const Recipe& recipe, const Pantry& pantry,
                                 const Ingredient& comes) {
  const Ingredient* out = nullptr;
  double most = 0.0;
  for (const Part& part : recipe.parts) {
    for (const Line& line : part.lines) {
      const Ingredient* one = pantry.find(line.ingredient_id);
      if (one != nullptr && line.weighed && one->kind == comes.kind && line.grams.p50() > most) {
        out = one;
        most = line.grams.p50();
      }
    }
  }
  return out;
}

/// Puts `to` in the line's place, `ratio` times as heavy.
void replace(Line& line, const Ingredient& to, double ratio) {
  line.ingredient_id = to.id;
  line.name = to.name;
  line.grams = line.grams.scaled(ratio);
  line.found = {Range{line.grams.p50(), line.grams.p50()}, "g", "", ""};
  line.text = number_text(line.grams.p50(), 1) + " g " + to.name;
}

double sugar_in(const Ingredient& one) {
  double out = 0.0;
  for (const Component c : {Component::sucrose, Component::glucose, Component::fructose,
                            Component::lactose, Component::maltose}) {
    out += one.composition[c];
  }
  return out;
}
double fat_in(const Ingredient& one) {
  return one.composition[Component::fat];
}
double water_in(const Ingredient& one) {
  return one.composition[Component::water];
}
double protein_in(const Ingredient& one) {
  return one.composition[Component::protein];
}

/// What a food is put in for, and how much of that is in a gram of it.
struct Work {
  std::string_view name;
  std::string_view keeps;
  double (*of)(const Ingredient&);
};
constexpr std::array<Work, 3> k_works{
    {{"fat", "fat", &fat_in}, {"sugar", "sweetness", &sugar_in}, {"water", "water", &water_in}}};

/// "12 g less fat, 8 g more water": of what the grams bring.
std::string balance_text(const Ingredient& from, const Ingredient& to, double grams,
                         const Substitution& row) {
  constexpr std::array<Work, 4> k_all{{{"water", "", &water_in},
                                       {"fat", "", &fat_in},
                                       {"sugar", "", &sugar_in},
                                       {"protein", "", &protein_in}}};
  std::string out;
  for (const Work& one : k_all) {
    const double beside = one.of == &water_in ? row.water : 0.0;
    const double more = grams * (row.ratio * one.of(to) + beside - one.of(from));
    if (std::fabs(more) >= 1.0) {
      out += (out.empty() ? "" : ", ") + number_text(std::fabs(more), 0) + " g " +
             (more > 0.0 ? "more " : "less ") + std::string(one.name);
    }
  }
  return out;
}

/// "keeps water and colour".
std::string keeps_text(const std::string& keeps) {
  std::string out = keeps;
  const std::size_t last = out.rfind(' ');
  if (last != std::string::npos) {
    out.replace(last, 1, " and ");
  }
  return out.empty() ? "" : "keeps the " + out;
}

std::string note_of(const Line& before, const Ingredient& from, const Ingredient& to,
                    const Substitution& row, double share = 1.0) {
  const double grams = share * before.grams.p50();
  std::string out = (share < 1.0 ? number_text(grams, grams < 20.0 ? 1 : 0) + " g of " : "") +
                    before.text + " becomes " +
                    number_text(grams * row.ratio, grams * row.ratio < 20.0 ? 1 : 0) + " g of " +
                    to.name;
  if (row.water > 0.0) {
    out += " and " + number_text(grams * row.water, 0) + " g of water";
  }
  const char* before_it = ": ";
  for (const std::string& said :
       {keeps_text(row.keeps), row.changes, balance_text(from, to, grams, row)}) {
    if (!said.empty()) {
      out += before_it + said;
      before_it = "; ";
    }
  }
  return out;
}

/// So much water more in a part, in the line that has water or one of its own.
void add_water(Part& part, double grams) {
  for (Line& line : part.lines) {
    if (line.ingredient_id == "water" && line.weighed) {
      set_grams(line, line.grams.p50(), line.grams.p50() + grams, 0.0);
      return;
    }
  }
  Line water;
  water.ingredient_id = "water";
  water.name = "water";
  water.text = number_text(grams, 0) + " g water";
  set_grams(water, 0.0, grams, 0.0);
  part.lines.push_back(std::move(water));
}

/// Swaps so much of a line; what stays stands before it, what comes last in the part.
void swap_line(Swapped& out, SwappedLine swap, const Ingredient& to, double ratio,
               double share = 1.0, double water = 0.0) {
  std::vector<Line>& lines = out.recipe.parts[swap.part_index].lines;
  if (share < 1.0) {
    Line taken = lines[swap.line_index];
    scale_line(taken, share);
    scale_line(lines[swap.line_index], 1.0 - share);
    lines.push_back(std::move(taken));
    swap.line_index = lines.size() - 1;
  }
  const double goes_g = lines[swap.line_index].grams.p50();
  replace(lines[swap.line_index], to, ratio);
  if (water > 0.0) {
    add_water(out.recipe.parts[swap.part_index], water * goes_g);
  }
  out.notes.push_back(swap.why);
  out.lines.push_back(std::move(swap));
}

/// What another flour changes, by what it takes up and its gluten.
std::string flour_change(const Ingredient& from, const Ingredient& to) {
  const double points = to.flour.absorption_pct - from.flour.absorption_pct;
  std::string out = std::fabs(points) < 1.0
                        ? "takes up as much water"
                        : "takes up about " + number_text(std::fabs(points), 0) +
                              (std::fabs(points) < 1.5 ? " point " : " points ") +
                              (points > 0.0 ? "more" : "less") + " water";
  if (to.flour.gluten == Gluten::none) {
    out += ", no gluten: it holds little gas, denser";
  } else if (to.flour.gluten != from.flour.gluten) {
    out +=
        to.flour.gluten < from.flour.gluten ? ", weaker gluten: rises less" : ", stronger gluten";
  }
  return out;
}

/// How much of `to` does the work of a gram of `from`, and what is said of it.
Substitution swap_of(const std::vector<Substitution>& table, const Ingredient& from,
                     const Ingredient& to) {
  for (const Substitution& row : table) {
    if (row.from == from.id && row.to == to.id) {
      return row;
    }
  }
  if (from.yeast.activity > 0.0 && to.yeast.activity > 0.0) {
    return {from.id,
            to.id,
            from.yeast.activity / to.yeast.activity,
            "the same lift by the activity of the two yeasts",
            "lift",
            ""};
  }
  constexpr double k_much = 0.3;  // of its weight, for what it is used for
  for (const Work& work : k_works) {
    const double had = work.of(from);
    const double has = work.of(to);
    if (had > k_much && has > k_much) {
      return {from.id,
              to.id,
              had / has,
              "as much " + std::string(work.name) + " as before",
              std::string(work.keeps),
              ""};
    }
  }
  if (from.kind == IngredientKind::flour && to.kind == IngredientKind::flour) {
    return {from.id, to.id, 1.0, flour_change(from, to), "", ""};
  }
  return {from.id, to.id, 1.0, "weight for weight; nothing is known of this swap", "", ""};
}

bool is_wet_dairy(const Ingredient& one) {
  constexpr double k_wet = 0.6;
  return one.kind == IngredientKind::dairy && one.composition[Component::water] > k_wet;
}

const Ingredient* stand_in(const std::vector<Substitution>& table, const Pantry& pantry,
                           const Ingredient& from, std::string_view without,
                           const std::vector<std::string>& at_hand) {
  const Ingredient* first = nullptr;
  for (const Substitution& row : table) {
    const Ingredient* to = row.from == from.id ? pantry.find(row.to) : nullptr;
    if (to == nullptr || (!without.empty() && bears_allergen(*to, without))) {
      continue;
    }
    if (std::find(at_hand.begin(), at_hand.end(), to->id) != at_hand.end()) {
      return to;
    }
    first = first == nullptr ? to : first;
  }
  // What the table does not know of a cream or a thin milk it knows of milk.
  const Ingredient* milk = pantry.find("whole_milk");
  if (first == nullptr && milk != nullptr && &from != milk && is_wet_dairy(from)) {
    return stand_in(table, pantry, *milk, without, at_hand);
  }
  return first;
}

}  // namespace

bool bears_allergen(const Ingredient& ingredient, std::string_view allergen) {
  return std::find(ingredient.allergens.begin(), ingredient.allergens.end(), allergen) !=
         ingredient.allergens.end();
}

bool does_in(const Substitution& row, PartKind part) {
  const auto words = split(row.not_in, ' ');
  return std::find(words.begin(), words.end(), part_kind_name(part)) == words.end();
}

std::vector<Substitution> substitutions() {
  std::vector<Substitution> out;
  const Table table(adjust_data::embedded_table("substitutions.tsv"));
  for (std::size_t row = 0; row < table.size(); ++row) {
    out.push_back({std::string(table.cell(row, "from")), std::string(table.cell(row, "to")),
                   table.number(row, "ratio", 1.0), std::string(table.cell(row, "changes")),
                   std::string(table.cell(row, "keeps")), std::string(table.cell(row, "not_in")),
                   table.number(row, "water", 0.0)});
  }
  return out;
}

Swapped swap_ingredient(const Recipe& recipe, const Pantry& pantry, std::string_view from,
                        std::string_view to, const std::vector<std::string>& at_hand,
                        double share) {
  const std::vector<Substitution> table = substitutions();
  Swapped out{recipe, {}, {}, ""};
  const Ingredient* named = to.empty() ? nullptr : known(pantry, to);
  const Ingredient* goes = !from.empty()      ? in_recipe(recipe, pantry, from)
                           : named != nullptr ? like_in_recipe(recipe, pantry, *named)
                                              : nullptr;
  if (goes == nullptr) {
    out.problem = !from.empty()
                      ? "There is no ingredient called \"" + std::string(from) + "\" to swap."
                  : named != nullptr ? "Nothing in the recipe is of the kind of " + named->name +
                                           ": say what it goes in for, for example \"" +
                                           named->name + " instead of butter\"."
                                     : not_a_want(to);
    return out;
  }
  const Ingredient* comes = to.empty() ? stand_in(table, pantry, *goes, "", at_hand) : named;
  if (comes == nullptr) {
    out.problem = to.empty() ? "No stand-in for " + goes->name + " is known; name one."
                             : "There is no ingredient called \"" + std::string(to) + "\".";
    return out;
  }
  if (comes == goes) {
    out.notes.push_back("the recipe has " + goes->name + " already");
    return out;
  }
  const Substitution row = swap_of(table, *goes, *comes);
  std::string kept;
  for (std::size_t p = 0; p < out.recipe.parts.size(); ++p) {
    for (std::size_t l = 0; l < out.recipe.parts[p].lines.size(); ++l) {
      const Line& line = out.recipe.parts[p].lines[l];
      if (line.ingredient_id != goes->id || !line.weighed) {
        continue;
      }
      if (crosses_leavens(*goes, *comes)) {
        swap_leaven(out, pantry, p, l, *comes);
        continue;
      }
      if (does_in(row, out.recipe.parts[p].kind)) {
        swap_line(out, {p, l, note_of(line, *goes, *comes, row, share)}, *comes, row.ratio, share,
                  row.water);
      } else {
        kept += line.text + " stays in the " + out.recipe.parts[p].name + ": " + comes->name +
                " does not dissolve in so little water and leaves it gritty.";
      }
    }
  }
  if (out.notes.empty() && !kept.empty()) {
    out.problem = kept;
  } else if (!kept.empty()) {
    out.notes.push_back(kept);
  } else if (out.notes.empty()) {
    out.problem = "The recipe has no weighed " + goes->name + " to swap.";
  }
  return out;
}

Swapped avoid_allergen(const Recipe& recipe, const Pantry& pantry, std::string_view allergen,
                       const std::vector<std::string>& at_hand) {
  const std::vector<Substitution> table = substitutions();
  Swapped out{recipe, {}, {}, ""};
  for (std::size_t p = 0; p < out.recipe.parts.size(); ++p) {
    for (std::size_t l = 0; l < out.recipe.parts[p].lines.size(); ++l) {
      const Line& line = out.recipe.parts[p].lines[l];
      const Ingredient* goes = pantry.find(line.ingredient_id);
      if (goes == nullptr || !bears_allergen(*goes, allergen) || line.grams.p90() <= 0.0) {
        continue;
      }
      const Ingredient* comes = stand_in(table, pantry, *goes, allergen, at_hand);
      if (comes == nullptr) {
        out.notes.push_back(line.text + " has " + std::string(allergen) +
                            " and no stand-in is known: it is left out");
        continue;
      }
      const Substitution row = swap_of(table, *goes, *comes);
      swap_line(out, {p, l, note_of(line, *goes, *comes, row)}, *comes, row.ratio, 1.0, row.water);
    }
  }
  return out;
}

}  // namespace maslin
