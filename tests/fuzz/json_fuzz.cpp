#include "reading/structured.h"
#include "reading_fuzz.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto recipe = maslin::reading::recipe_in_json(text_of(data, size));
  if (recipe) {
    const FuzzTables& tables = fuzz_tables();
    check_reading(maslin::read_text(maslin::reading::as_recipe_text(*recipe), tables.pantry,
                                    tables.words, {}));
  }
  return 0;
}
