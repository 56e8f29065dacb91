// plan_routes: the address under which a recipe's day is planned.
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

/// Times on the kitchen's clock, "2026-05-01T16:00"; at least one of `ready_at` and `now`.
struct PlanQuestion {
  std::string recipe_json;
  std::string text;
  std::string kitchen_json;       // may be empty
  std::string ready_at;           // empty: as soon as can be
  std::string now;                // nothing begins before; empty: any time will do
  std::string awake;              // "06:00-23:00"; empty: the kitchen's
  std::vector<std::string> done;  // "knead=13:00/13:12", "first prove=13:15/"
  std::optional<double> chance;   // wanted, of being ready in time: 0.5 to 0.99
  std::optional<std::uint64_t> seed;
  std::optional<std::uint32_t> draws;
  std::stop_token gone;
};
using PlanHandler = std::function<ApiAnswer(const PlanQuestion&)>;

std::vector<Route> plan_routes(const PlanHandler& plan);

}  // namespace maslin
