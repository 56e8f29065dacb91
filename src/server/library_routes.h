// library_routes: the addresses under which recipes are kept, with their versions.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "server/answer.h"

namespace maslin {

struct Route;

struct KeepQuestion {
  std::string recipe_json;
  std::string name;  // empty: the recipe's title
  std::string why;   // in the baker's words; may be empty
  std::string from;  // the version it was made from; empty: what the name stood for
};

/// Words to find a recipe by, put on or taken off.
struct TagQuestion {
  std::string name;
  std::vector<std::string> words;
  bool remove = false;
};

/// The functions behind the addresses. One that is empty answers 501.
struct LibraryHandlers {
  std::function<ApiAnswer()> list;
  std::function<ApiAnswer(const std::string& name)> history;
  std::function<ApiAnswer(const std::string& version)> version;  // "knots", "knots@2", an id
  std::function<ApiAnswer(const KeepQuestion&)> keep;
  std::function<ApiAnswer(const std::string& words)> search;
  std::function<ApiAnswer(const TagQuestion&)> tag;
};

std::vector<Route> library_routes(const LibraryHandlers& library);

}  // namespace maslin
