// living_routes: the address that gives a living card, and the one a bake is sent to while it
// is noted: whole each time, so that what was lost on the way comes with the next.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "server/answer.h"

namespace maslin {

struct Route;

struct LivingCardQuestion {
  std::string recipe_json;
  std::string kitchen_json;  // where the recipe works; may be empty
};

/// The functions behind the addresses. One that is empty answers 501.
struct LivingHandlers {
  /// Answers {"html", "sha256", "recipe"}.
  std::function<ApiAnswer(const LivingCardQuestion&)> card;
  /// Given the document of docs/schema/baked.schema.json; answers the trial.
  std::function<ApiAnswer(const std::string& json)> baked;
};

std::vector<Route> living_routes(const LivingHandlers& living);

}  // namespace maslin
