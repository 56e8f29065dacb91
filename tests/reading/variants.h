// The same recipe written in another style: each function rewrites a found text so that a baker
// would read the same lines out of it.
#pragma once

#include <functional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace maslin {

/// A found text, line by line, with those marked that are one ingredient each.
struct Sheet {
  std::vector<std::string> lines;
  std::vector<bool> listed;

  std::string text() const {
    std::string out;
    for (const std::string& line : lines) {
      out += line + "\n";
    }
    return out;
  }
};

/// "500 g flour" cut in its amount ("500 g") and its name; no amount where it begins otherwise.
struct Cut {
  std::string amount;
  std::string name;
};

struct Variant {
  const char* name;
  bool english;  // says its words in English
  std::function<Sheet(const Sheet&)> rewrite;
};

std::vector<Variant> variants();

}  // namespace maslin
