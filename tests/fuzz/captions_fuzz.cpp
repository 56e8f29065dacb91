#include <string>

#include "reading_fuzz.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const FuzzTables& tables = fuzz_tables();
  // Two cues at least, so that the input is always taken for captions.
  const std::string text =
      "WEBVTT\n\n00:00:01.000 --> 00:00:02.000\ntwo cups of flour\n\n"
      "00:00:02.000 --> 00:00:03.000\n" +
      std::string(text_of(data, size));
  check_reading(maslin::read_text(text, tables.pantry, tables.words, {}));
  return 0;
}
