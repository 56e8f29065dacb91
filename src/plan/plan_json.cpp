#include <cmath>

#include "plan/clock_text.h"
#include "plan/plan.h"
#include "recipe/json.h"
#include "recipe/recipe_json.h"

namespace maslin {
namespace {

Json band_json(const Band& band) {
  return {{"p10", rounded(band.p10)}, {"p50", rounded(band.p50)}, {"p90", rounded(band.p90)}};
}

/// A time that may never come is null.
Json clock_json(double minutes) {
  return std::isfinite(minutes) ? Json(clock_text(minutes)) : Json(nullptr);
}

Json clocks_json(const Band& band) {
  return {
      {"p10", clock_json(band.p10)}, {"p50", clock_json(band.p50)}, {"p90", clock_json(band.p90)}};
}

std::string state_name(StepState state) {
  return state == StepState::done ? "done" : state == StepState::under_way ? "under_way" : "to_do";
}

Json step_json(const PlannedStep& step) {
  Json out{{"name", step.name},
           {"kind", std::string(task_kind_name(step.kind))},
           {"start", clock_json(step.start)},
           {"end", clock_json(step.end)},
           {"hands", step.hands},
           {"oven", step.oven},
           {"minutes", band_json(step.minutes)},
           {"slack_minutes", rounded(step.slack_minutes)},
           {"starts_at", clocks_json(step.starts_at)},
           {"ends_at", clocks_json(step.ends_at)},
           {"after", step.after},
           {"state", state_name(step.state)}};
  if (!step.part.empty()) {
    out["part"] = step.part;
  }
  if (step.grown) {
    out["grown"] = band_json(*step.grown);
  }
  if (!step.note.empty()) {
    out["note"] = step.note;
  }
  return out;
}

Json alternative_json(const PlanAlternative& one) {
  Json out{{"name", one.name},
           {"does", one.does},
           {"met", one.met},
           {"begin", clock_json(one.begin)},
           {"ready", clock_json(one.ready)},
           {"ready_at", clocks_json(one.ready_at)},
           {"chance_in_time", rounded(one.chance_in_time)}};
  if (one.recipe) {
    out["recipe"] = parse_json(recipe_to_json(*one.recipe)).value_or(Json::object());
  }
  return out;
}

}  // namespace

std::string plan_to_json(const DayPlan& plan) {
  Json out{{"title", plan.title},
           {"met", plan.met},
           {"wanted_at", plan.wanted_at ? clock_json(*plan.wanted_at) : Json(nullptr)},
           {"chance_wanted", rounded(plan.chance_wanted)},
           {"chance_in_time", rounded(plan.chance_in_time)},
           {"begin", clock_json(plan.begin)},
           {"ready", clock_json(plan.ready)},
           {"ready_at", clocks_json(plan.ready_at)},
           {"nearest", plan.nearest ? clock_json(*plan.nearest) : Json(nullptr)}};
  if (!plan.why_not.empty()) {
    out["why_not"] = plan.why_not;
  }
  out["steps"] = Json::array();
  for (const PlannedStep& step : plan.steps) {
    out["steps"].push_back(step_json(step));
  }
  out["alternatives"] = Json::array();
  for (const PlanAlternative& one : plan.alternatives) {
    out["alternatives"].push_back(alternative_json(one));
  }
  out["assumed"] = Json::array();
  for (const Doubt& one : plan.assumed) {
    out["assumed"].push_back({{"text", one.text}, {"why", one.why}});
  }
  out["draws"] = plan.draws;
  out["seed"] = plan.seed;
  return json_text(out);
}

}  // namespace maslin
