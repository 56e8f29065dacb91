// routes: which address of the page and of the interface answers what. Knows JSON
// and the page's files; what the answers say comes from the functions handed in.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

#include "server/adjust_routes.h"
#include "server/answer.h"
#include "server/compare_routes.h"
#include "server/device_routes.h"
#include "server/handon_routes.h"
#include "server/http.h"
#include "server/label_routes.h"
#include "server/library_routes.h"
#include "server/living_routes.h"
#include "server/picture_routes.h"
#include "server/plan_routes.h"
#include "server/trial_routes.h"

namespace maslin {

struct ReadQuestion {
  std::string text;    // found text
  std::string name;    // where it was found: a file's name, an address; may be empty
  std::string locale;  // whose measures, when the person knows; may be empty
};

/// Either `recipe_json` (a document that read gave, amounts changed or not) or `text`.
struct ForecastQuestion {
  std::string recipe_json;
  std::string text;
  std::string kitchen_json;       // a kitchen document; may be empty
  std::string observations_json;  // a list of what was seen so far; may be empty
  std::optional<std::uint64_t> seed;
  std::optional<std::uint32_t> draws;  // 1..16384
  std::optional<double> begins_at;     // when the dough is mixed, minutes since midnight
  bool worth_measuring = true;         // say which measurements would narrow it
  bool what_if = false;                // and what other kitchens and pieces would do
  std::stop_token gone;                // the person has gone on to something newer
};

/// The functions behind the interface. One that is empty answers 501.
struct ApiHandlers {
  std::function<ApiAnswer(const ReadQuestion&)> read;
  std::function<ApiAnswer(const ForecastQuestion&)> forecast;
  std::function<ApiAnswer(const std::string& word)> pantry;
  std::function<ApiAnswer()> kitchen;
  std::function<ApiAnswer()> about;
  std::function<ApiAnswer()> demo;  // {"name", "text"}
  AdjustHandler adjust;
  CompareHandler compare;
  LivingHandlers living;
  PlanHandler plan;
  HandOnHandler hand_on;
  LabelHandlers labels;
  LibraryHandlers library;
  TrialHandlers trials;
  DeviceHandlers devices;
  PictureHandler picture;
};

/// The handler for start_http: the page under /, the interface under /api/v1/.
HttpHandler routes(const ApiHandlers& handlers);

/// "GET /api/v1/about" and so on: all that the interface answers.
std::vector<std::string> api_routes();

}  // namespace maslin
