// compare_routes: the address under which two versions or bakes are set side by side.
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

/// Words for what is kept: "3" (trial 3), "knots", "knots@2", the start of an id.
struct CompareQuestion {
  std::string before;
  std::string after;
  std::string kitchen_json;  // where versions are forecast; may be empty
  std::optional<std::uint64_t> seed;
  std::optional<std::uint32_t> draws;
  std::stop_token gone;
};
using CompareHandler = std::function<ApiAnswer(const CompareQuestion&)>;

std::vector<Route> compare_routes(const CompareHandler& compare);

}  // namespace maslin
