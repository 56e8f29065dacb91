#include "adjust/substitution.h"

#include <algorithm>

#include "adjust/embedded_table.h"
#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin {
namespace {

const Ingredient* known(const Pantry& pantry, std::string_view word) {
  const Ingredient* one = pantry.find(word);
  return one != nullptr ? one : pantry.named(word);
}

/// Puts `to` in the line's place, `ratio` times as heavy.
void replace(Line& line, const Ingredient& to, double ratio) {
  line.ingredient_id = to.id;
  line.name = to.name;
  line.grams = line.grams.scaled(ratio);
  line.found = {Range{line.grams.p50(), line.grams.p50()}, "g", "", ""};
  line.text = number_text(line.grams.p50(), 1) + " g " + to.name;
}

std::string note_of(const Line& before, const Ingredient& to, double ratio,
                    std::string_view changes) {
  std::string out =
      before.text + " becomes " + number_text(before.grams.p50() * ratio, 0) + " g of " + to.name;
  if (!changes.empty()) {
    out += ": " + std::string(changes);
  }
  return out;
}

void swap_line(Swapped& out, const SwappedLine& swap, const Ingredient& to, double ratio) {
  out.notes.push_back(swap.why);
  out.lines.push_back(swap);
  replace(out.recipe.parts[swap.part_index].lines[swap.line_index], to, ratio);
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
    return {from.id, to.id, from.yeast.activity / to.yeast.activity,
            "the same lift by the activity of the two yeasts"};
  }
  return {from.id, to.id, 1.0, "weight for weight; nothing is known of this swap"};
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
  return first;
}

}  // namespace

bool bears_allergen(const Ingredient& ingredient, std::string_view allergen) {
  return std::find(ingredient.allergens.begin(), ingredient.allergens.end(), allergen) !=
         ingredient.allergens.end();
}

std::vector<Substitution> substitutions() {
  std::vector<Substitution> out;
  const Table table(adjust_data::embedded_table("substitutions.tsv"));
  for (std::size_t row = 0; row < table.size(); ++row) {
    out.push_back({std::string(table.cell(row, "from")), std::string(table.cell(row, "to")),
                   table.number(row, "ratio", 1.0), std::string(table.cell(row, "changes"))});
  }
  return out;
}

Swapped swap_ingredient(const Recipe& recipe, const Pantry& pantry, std::string_view from,
                        std::string_view to, const std::vector<std::string>& at_hand) {
  const std::vector<Substitution> table = substitutions();
  Swapped out{recipe, {}, {}, ""};
  const Ingredient* goes = known(pantry, from);
  if (goes == nullptr) {
    out.problem = "There is no ingredient called \"" + std::string(from) + "\" to swap.";
    return out;
  }
  const Ingredient* comes =
      to.empty() ? stand_in(table, pantry, *goes, "", at_hand) : known(pantry, to);
  if (comes == nullptr) {
    out.problem = to.empty() ? "No stand-in for " + goes->name + " is known; name one."
                             : "There is no ingredient called \"" + std::string(to) + "\".";
    return out;
  }
  const Substitution row = swap_of(table, *goes, *comes);
  for (std::size_t p = 0; p < out.recipe.parts.size(); ++p) {
    for (std::size_t l = 0; l < out.recipe.parts[p].lines.size(); ++l) {
      const Line& line = out.recipe.parts[p].lines[l];
      if (line.ingredient_id == goes->id && line.weighed) {
        swap_line(out, {p, l, note_of(line, *comes, row.ratio, row.changes)}, *comes, row.ratio);
      }
    }
  }
  if (out.notes.empty()) {
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
      if (goes == nullptr || !bears_allergen(*goes, allergen)) {
        continue;
      }
      const Ingredient* comes = stand_in(table, pantry, *goes, allergen, at_hand);
      if (comes == nullptr) {
        out.notes.push_back(line.text + " has " + std::string(allergen) +
                            " and no stand-in is known: it is left out");
        continue;
      }
      const Substitution row = swap_of(table, *goes, *comes);
      swap_line(out, {p, l, note_of(line, *comes, row.ratio, row.changes)}, *comes, row.ratio);
    }
  }
  return out;
}

}  // namespace maslin
