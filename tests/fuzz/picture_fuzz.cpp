#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "store/picture_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const maslin::CleanPicture clean =
      maslin::clean_picture(std::string_view(reinterpret_cast<const char*>(data), size));
  // A picture that was cleaned stays as it is when it is cleaned again.
  if (clean.problem.empty() && maslin::clean_picture(clean.bytes).bytes != clean.bytes) {
    std::abort();
  }
  return 0;
}
