#include "reading_fuzz.h"
#include "recipe/recipe_json.h"
#include "recipe/recipe_text.h"

/// Documents of recipes: what was taken comes back as it was, and can be written as text that
/// can be read.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const FuzzTables& tables = fuzz_tables();
  const maslin::RecipeDocument read = maslin::recipe_from_json(text_of(data, size));
  if (!read.problems.empty()) {
    return 0;
  }
  const std::string written = maslin::recipe_to_json(read.recipe);
  const maslin::RecipeDocument again = maslin::recipe_from_json(written);
  if (!again.problems.empty() || maslin::recipe_to_json(again.recipe) != written) {
    std::abort();
  }
  check_reading(maslin::read_text(maslin::write_text(read.recipe, tables.pantry), tables.pantry,
                                  tables.words, {}));
  return 0;
}
