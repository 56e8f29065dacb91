// A recipe and a kitchen as JSON documents, exact both ways.
// Schemas: docs/schema/recipe.schema.json, docs/schema/kitchen.schema.json.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "recipe/kitchen.h"
#include "recipe/recipe.h"

namespace maslin {

/// What is wrong with a document: where ("parts[0].lines[2].grams"), what, the mend.
struct Problem {
  std::string where;
  std::string what;
  std::string mend;
  bool operator==(const Problem&) const = default;
};
/// "where: what; mend" as one sentence.
std::string sentence(const Problem& problem);

std::string recipe_to_json(const Recipe& recipe);

struct RecipeDocument {
  Recipe recipe;
  std::vector<Problem> problems;  // empty when the document was whole
};
/// The recipe of a `read` document. Limits: 4 MB, 64 parts, 400 lines a part.
RecipeDocument recipe_from_json(std::string_view text);

std::string kitchen_to_json(const Kitchen& kitchen);
/// {"trials", "unknowns": [{"name", "described", "mean"}], "covariance"}; exact both ways. What
/// is no such document is nothing learnt.
std::string lessons_to_json(const KitchenLessons& lessons);
KitchenLessons lessons_from_json(std::string_view text);
struct KitchenDocument {
  Kitchen kitchen;
  std::vector<Problem> problems;
};
KitchenDocument kitchen_from_json(std::string_view text);
/// What a person's kitchen file has that is read by nobody: a field that no kitchen has, or one
/// with another kind of value. Reading a kept kitchen passes over these, so that a newer
/// program's can be read.
std::vector<Problem> strangers_in_kitchen(std::string_view text);

}  // namespace maslin
