#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "reading/measure.h"
#include "reading/noun.h"
#include "recipe/recipe.h"

namespace maslin::reading {

/// An ingredient as read from a line, not yet weighed.
struct DraftLine {
  Line line;  // text, name, ingredient_id, found, note
  const Ingredient* ingredient = nullptr;
  std::optional<FoundMeasure> measure;  // the one that rules
  std::optional<FoundMeasure> other;    // said beside it: "(about 3 cups)"
  std::vector<FoundMeasure> sums;       // further amounts of the same: "+ 60 g"; less: negative
  std::string portion_word;             // the thing counted: "clove", "sachet", "thumb"
  std::string_view purpose;             // wash, top, dust, fry, grease, serve, taste, need, extra
  std::optional<PartKind> part_said;    // "for the filling" at its end
  bool same_as_before = false;          // "the same"
  bool made_up = false;                 // its measure is filled by the lines before it as well,
  std::size_t made_up_with = 0;         // so many of them
  bool mended = false;
  double generic = 0.0;        // how little of the kind is said, of Noun
  std::size_t name_words = 0;  // by which the ingredient was known
  std::vector<Doubt> doubts;
};

/// The ingredient lines said in the tokens [from, to): usually one, two for "juice and
/// zest of 1 lemon" or "2 eggs plus 1 yolk". Empty when nothing there is an ingredient.
std::vector<DraftLine> read_ingredient(Text& text, std::size_t from, std::size_t to);

/// "1 tsp each cinnamon and nutmeg", "50 g each of raisins, currants and dates": a line
/// for each; empty when the tokens do not say "each" after an amount.
std::vector<DraftLine> read_each(Text& text, std::size_t from, std::size_t to);

/// How sure it is, without reading it whole, that the tokens say an ingredient.
struct LineLook {
  bool measure_first = false;   // begins with an amount and a unit, or a counted name
  bool measure_inside = false;  // has an amount with a unit further on
  bool measure_only = false;    // nothing but an amount
  bool name_first = false;      // begins with a known ingredient
  bool name = false;            // has one
  bool or_inside = false;
  std::size_t words = 0;
};
LineLook look_at(const Text& text, std::size_t from, std::size_t to);

/// Where a list begins after a colon near the start ("For the dough: 500 g flour, …",
/// "Ingredients.—1 lb of flour"), `from` when there is none.
std::size_t list_after_colon(const Text& text, std::size_t from, std::size_t to);

/// Past bullets and boxes at the start.
std::size_t skip_bullets(const Text& text, std::size_t from, std::size_t to);

}  // namespace maslin::reading
