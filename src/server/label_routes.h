// label_routes: the addresses of a recipe's label and of what it costs.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "server/answer.h"

namespace maslin {

struct Route;

struct LabelAsked {
  std::string recipe_json;  // or text
  std::string text;
  std::string kitchen_json;            // may be empty
  std::string rules;                   // eu, uk, us, codex; of a label
  std::string prices_json;             // of a cost; may be empty
  std::optional<std::uint64_t> loads;  // of the oven, of a cost
  std::optional<std::uint64_t> seed;
  std::optional<std::uint32_t> draws;
  std::stop_token gone;
};
struct LabelHandlers {
  std::function<ApiAnswer(const LabelAsked&)> label;
  std::function<ApiAnswer(const LabelAsked&)> cost;
};

std::vector<Route> label_routes(const LabelHandlers& handlers);

}  // namespace maslin
