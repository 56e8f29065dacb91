#include "reading/found.h"
#include "reading/page.h"
#include "reading_fuzz.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const FuzzTables& tables = fuzz_tables();
  const std::string_view page = text_of(data, size);
  static_cast<void>(maslin::reading::page_text(page));
  check_reading(maslin::read_found(page, tables.pantry, tables.words, {}));
  return 0;
}
