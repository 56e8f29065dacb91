#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "app/baked.h"
#include "recipe/note_words.h"
#include "recipe/observation.h"

/// Bakes sent home from a card, and lists of what was seen.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const maslin::NoteWords words;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto baked = maslin::baked_from_json(text);
  if (!baked.value && baked.problem.empty()) {
    std::abort();
  }
  static_cast<void>(maslin::seen_from_json(text, words));
  return 0;
}
