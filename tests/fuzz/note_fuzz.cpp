#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "recipe/note_words.h"
#include "recipe/observation.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const maslin::NoteWords words;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const maslin::NoteReading reading = maslin::read_note(text, words);
  const std::string json = maslin::observations_to_json(reading.observations);
  // What is kept of a note comes back as it was, unless its words are no UTF-8.
  const std::vector<maslin::Observation> back = maslin::observations_from_json(json);
  if (back.size() != reading.observations.size() || maslin::observations_to_json(back) != json) {
    std::abort();
  }
  maslin::observations_from_json(text);
  return 0;
}
