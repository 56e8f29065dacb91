#include "app/pdf_text.h"
#include "reading_fuzz.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes = text_of(data, size);
  static_cast<void>(maslin::is_pdf(bytes));
  const auto texts = maslin::pdf_texts_here(bytes);
  if (!texts.value) {
    if (texts.problem.empty()) {
      std::abort();
    }
    return 0;
  }
  const FuzzTables& tables = fuzz_tables();
  for (const std::string& text : *texts.value) {
    check_reading(maslin::read_text(text, tables.pantry, tables.words, {}));
  }
  return 0;
}
