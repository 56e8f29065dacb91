#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "adjust/want.h"
#include "adjust/want_words.h"

/// What is asked of a recipe, in words or short: it is either understood or answered with a
/// sentence.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const maslin::SaidWants said = maslin::wants_from_words(text);
  if (said.wants.empty() && said.problem.empty()) {
    std::abort();
  }
  static_cast<void>(maslin::parse_want(text));
  return 0;
}
