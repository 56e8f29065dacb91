// adjust_routes: the addresses under which a recipe is changed to what is wanted.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "server/answer.h"

namespace maslin {

struct Route;

/// Wants and holds in the short words of adjust/want.h.
struct AdjustQuestion {
  std::string recipe_json;
  std::string text;
  std::string kitchen_json;  // may be empty
  std::vector<std::string> wants;
  std::vector<std::string> holds;
};
using AdjustHandler = std::function<ApiAnswer(const AdjustQuestion&)>;

std::vector<Route> adjust_routes(const AdjustHandler& adjust);

}  // namespace maslin
