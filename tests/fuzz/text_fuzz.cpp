#include "reading_fuzz.h"

#include <string_view>
#include <vector>

#include "reading/words.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const FuzzTables& tables = fuzz_tables();
  std::vector<std::string_view> languages = maslin::reading::language_names();
  languages.front() = "";  // to be told by the text, in place of English
  for (const std::string_view language : languages) {
    maslin::ReadOptions options;
    options.language = language;
    check_reading(maslin::read_text(text_of(data, size), tables.pantry, tables.words, options));
  }
  return 0;
}
