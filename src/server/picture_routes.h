// picture_routes: the address under which the inside of a bake is drawn.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "server/answer.h"

namespace maslin {

struct Route;

struct PictureQuestion {
  std::string recipe_json;
  std::string text;
  std::string kitchen_json;  // may be empty
};
/// Answers {"title", "description", "svg"}.
using PictureHandler = std::function<ApiAnswer(const PictureQuestion&)>;

std::vector<Route> picture_routes(const PictureHandler& picture);

}  // namespace maslin
