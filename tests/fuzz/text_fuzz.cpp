#include "reading_fuzz.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const FuzzTables& tables = fuzz_tables();
  for (const char* language : {"", "es", "fr", "de", "tr"}) {
    maslin::ReadOptions options;
    options.language = language;
    check_reading(maslin::read_text(text_of(data, size), tables.pantry, tables.words, options));
  }
  return 0;
}
