// handon_routes: the address under which a recipe is carried to another kitchen.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "server/answer.h"

namespace maslin {

struct Route;

struct HandOnQuestion {
  std::string recipe_json;
  std::string text;
  std::string to_json;    // the kitchen it goes to
  std::string from_json;  // where it works; may be empty
  std::string as;         // a form of the card; empty: the card's document alone
  std::string language;   // empty: by the country of the kitchen
  std::string captions;   // of a clip; may be empty
  std::string ready_at;   // may be empty
  std::optional<std::uint64_t> seed;
  std::optional<std::uint32_t> draws;
};
using HandOnHandler = std::function<ApiAnswer(const HandOnQuestion&)>;

std::vector<Route> handon_routes(const HandOnHandler& hand_on);

}  // namespace maslin
