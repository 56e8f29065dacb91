#include "reading/found.h"

namespace maslin {

Reading read_found(std::string_view found, const Pantry& pantry, const Words& words,
                   const ReadOptions& options) {
  return read_text(found, pantry, words, options);
}

}  // namespace maslin
