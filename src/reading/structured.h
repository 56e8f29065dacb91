#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace maslin::reading {

/// A recipe in the open schema.org/Recipe vocabulary, as the words it holds.
struct StructuredRecipe {
  std::string name;
  std::vector<std::string> yields;
  std::string measures;  // whose, where it was made: a country's short name
  std::string tool;      // the tin or tray
  std::string language;  // of languages.tsv as the document says; empty: none or another
  std::vector<std::string> ingredients;
  std::vector<std::string> instructions;  // a heading of a section ends with a colon
  bool empty() const { return ingredients.empty() && instructions.empty(); }
};

/// The first recipe in a JSON-LD document, however deep it lies in graphs and lists; at
/// most 100 000 values are looked at. Nothing when there is none or it is no JSON.
std::optional<StructuredRecipe> recipe_in_json(std::string_view json);

/// The same words as recipe text, one ingredient or step a line.
std::string as_recipe_text(const StructuredRecipe& recipe);

}  // namespace maslin::reading
