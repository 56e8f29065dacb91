// What a function behind the interface says.
#pragma once

#include <string>

namespace maslin {

/// A JSON document, or a sentence for the person: what is wrong, where, and the mend.
struct ApiAnswer {
  bool ok = false;
  std::string json;
  std::string problem;
};

}  // namespace maslin
