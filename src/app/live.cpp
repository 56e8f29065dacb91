#include "app/live.h"

#include <array>
#include <cmath>

#include "app/learning.h"
#include "quantity/number_text.h"
#include "recipe/json.h"

namespace maslin {
namespace {

/// Which rise of the dough a step of the checklist is, or that of a preferment; empty when it
/// is none.
std::string rise_of(const std::vector<ChecklistStep>& checklist, int step) {
  constexpr std::array<std::string_view, 3> k_names{"first", "second", "third"};
  std::size_t rises = 0;
  for (const ChecklistStep& one : checklist) {
    const bool is_rise = one.what.kind == StepKind::prove && frost_of(one.what) == Frost::none;
    if (one.of == PartKind::preferment) {
      if (one.step == step) {
        return is_rise || one.what.kind == StepKind::rest ? "preferment" : "";
      }
      continue;
    }
    if (one.step == step) {
      return is_rise && rises < k_names.size() ? std::string(k_names[rises]) : "";
    }
    rises += is_rise ? 1 : 0;
  }
  return "";
}

std::string range_text(const Band& band) {
  return number_text(band.p50, 0) + " min  (" + number_text(band.p10, 0) + " to " +
         number_text(band.p90, 0) + ")";
}

std::string fit_text(const SeenFit& fit) {
  if (!fit.used) {
    return "  " + fit.observation.text + ": not used. " + fit.why_not + "\n";
  }
  constexpr double k_hardly_believed = 0.5;
  if (fit.misread > k_hardly_believed) {
    return "  " + fit.observation.text + ": hardly believed, " +
           number_text(100.0 * fit.misread, 0) +
           " % that it was misread; it changes little until it is confirmed or corrected\n";
  }
  return "";
}

}  // namespace

std::vector<Observation> observations_of(const TrialView& view) {
  std::vector<Observation> out;
  for (const Note& note : view.notes) {
    if (note.corrected) {
      continue;
    }
    for (Observation& one : observations_from_json(note.observations)) {
      if (one.prove.empty() && one.step) {
        one.prove = rise_of(view.checklist, *one.step);
      }
      out.push_back(std::move(one));
    }
  }
  return out;
}

Result<LiveTrial> live_trial(const Tools& tools, Store& store, std::int64_t trial,
                             const LiveOptions& options) {
  Result<TrialView> view = past_trial(store, trial);
  if (!view.value) {
    return {std::nullopt, view.problem};
  }
  LiveTrial out;
  out.view = std::move(*view.value);
  Result<TrialSetting> setting = setting_of(store, out.view.trial);
  if (!setting.value) {
    out.problem = setting.problem;
    return {std::move(out), ""};
  }
  ForecastRequest request;
  request.kitchen = setting.value->kitchen;
  request.options = options.forecast;
  request.options.begins_at = setting.value->begins_at;
  request.seen = observations_of(out.view);
  request.threads = options.threads;
  request.stop = options.stop;
  Result<ForecastSummary> forecast = forecast_recipe(tools, setting.value->recipe, request);
  out.problem = forecast.problem;
  if (forecast.value) {
    out.forecast = std::move(*forecast.value);
  }
  return {std::move(out), ""};
}

namespace {

void add_forecast(const LiveTrial& live, Json& out) {
  if (live.problem.empty()) {
    out["forecast"] = parse_json(summary_to_json(live.forecast)).value_or(Json(nullptr));
  } else {
    out["forecast"] = nullptr;
    out["no_forecast"] = live.problem;
  }
}

}  // namespace

std::string live_trial_to_json(const LiveTrial& live) {
  Json out = parse_json(trial_to_json(live.view)).value_or(Json::object());
  add_forecast(live, out);
  return json_text(out);
}

std::string live_note_to_json(const LiveNote& live) {
  Json out = parse_json(note_to_json(live.note)).value_or(Json::object());
  add_forecast(live.trial, out);
  return json_text(out);
}

std::string live_report(const LiveTrial& live) {
  if (!live.problem.empty()) {
    return "No forecast: " + live.problem + "\n";
  }
  std::string out = "With all that was noted\n";
  for (const ProveSummary& prove : live.forecast.proves) {
    out += "  " + prove.name + " until " + prove.target + ": " + range_text(prove.minutes) + "\n";
  }
  if (live.forecast.bake) {
    const BakeSummary& bake = *live.forecast.bake;
    out += "  in the oven until done: " + range_text(bake.minutes);
    out += bake.done.crust.empty() ? "" : ", crust then " + bake.done.crust.front().first;
    out += "\n";
  }
  for (const SeenFit& fit : live.forecast.seen) {
    out += fit_text(fit);
  }
  return out;
}

}  // namespace maslin
