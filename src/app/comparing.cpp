#include "app/comparing.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "app/library.h"
#include "quantity/number_text.h"
#include "recipe/recipe_json.h"

namespace maslin {
namespace {

/// A side with all that is needed to compare it.
struct Side {
  ComparedSide said;
  Recipe recipe;
  std::optional<Kitchen> kitchen;
  std::vector<Observation> seen;
};

std::optional<std::int64_t> trial_number(const std::string& words) {
  constexpr std::size_t k_longest = 5;  // six digits may begin an id
  const bool digits = !words.empty() && words.size() <= k_longest &&
                      words.find_first_not_of("0123456789") == std::string::npos;
  return digits ? std::optional<std::int64_t>(std::stoll(words)) : std::nullopt;
}

Result<Side> trial_side(Store& store, std::int64_t number) {
  Result<TrialView> view = view_trial(store, number);
  if (!view.value) {
    return {std::nullopt, view.problem};
  }
  Result<TrialSetting> setting = setting_of(store, view.value->trial);
  if (!setting.value) {
    return {std::nullopt, setting.problem};
  }
  Side out;
  out.said = {"trial " + std::to_string(number), view.value->trial.title, number,
              view.value->trial.kitchen};
  out.recipe = std::move(setting.value->recipe);
  out.kitchen = std::move(setting.value->kitchen);
  out.seen = observations_of(*view.value);
  return {std::move(out), ""};
}

Result<Side> side_of(Store* store, const CompareSide& asked) {
  Side out;
  out.said.called = asked.called;
  if (asked.recipe) {
    out.recipe = *asked.recipe;
  } else if (store == nullptr) {
    return {std::nullopt, "\"" + asked.called + "\" is no recipe that can be read."};
  } else if (const auto number = trial_number(asked.called)) {
    return trial_side(*store, *number);
  } else {
    Result<Recipe> kept = recipe_in_library(*store, asked.called);
    if (!kept.value) {
      return {std::nullopt, kept.problem};
    }
    out.recipe = std::move(*kept.value);
  }
  out.said.title = out.recipe.title;
  return {std::move(out), ""};
}

/// What of the observations a figure may be set beside.
std::string noted(const std::vector<Observation>& seen, ObservationKind kind,
                  const std::string& prove = "") {
  std::string out;
  for (const Observation& one : seen) {
    const bool of_prove = prove.empty() || one.prove == prove ||
                          (one.prove.empty() && prove == "first") ||
                          (one.prove == "last" && prove == "second");
    const bool colour =
        kind == ObservationKind::crust && one.kind == ObservationKind::crust_lightness;
    if ((one.kind == kind || colour) && of_prove) {
      out += (out.empty() ? "" : "; ") + one.text;
      if (one.at_minutes && one.step) {
        out += " at " + number_text(*one.at_minutes, 0) + " min";
      }
    }
  }
  return out;
}

class Outcome {
 public:
  Outcome(const Side& before, const Side& after) : before_(before), after_(after) {}

  void add(std::string figure, std::string words, std::string unit, std::optional<Band> before,
           std::optional<Band> after, ObservationKind kind, const std::string& prove = "") {
    ComparedFigure row{std::move(figure),
                       std::move(words),
                       std::move(unit),
                       before,
                       after,
                       noted(before_.seen, kind, prove),
                       noted(after_.seen, kind, prove)};
    if (row.before || row.after || !row.noted_before.empty() || !row.noted_after.empty()) {
      out.push_back(std::move(row));
    }
  }
  /// The senses that were scored on either side.
  void add_scores() {
    std::vector<std::string> senses;
    for (const Side* side : {&before_, &after_}) {
      for (const Observation& one : side->seen) {
        if (one.kind == ObservationKind::score &&
            std::find(senses.begin(), senses.end(), one.word) == senses.end()) {
          senses.push_back(one.word);
        }
      }
    }
    for (const std::string& sense : senses) {
      out.push_back({"score", sense, "", {}, {}, score(before_, sense), score(after_, sense)});
    }
  }

  std::vector<ComparedFigure> out;

 private:
  static std::string score(const Side& side, const std::string& sense) {
    std::string last;
    for (const Observation& one : side.seen) {
      if (one.kind == ObservationKind::score && one.word == sense) {
        last = number_text(one.value, 1) + "/" + number_text(one.out_of, 0);
      }
    }
    return last;
  }

  const Side& before_;
  const Side& after_;
};

template <typename Get>
std::optional<Band> band_in(const std::optional<ForecastSummary>& forecast, const Get& get) {
  return forecast ? get(*forecast) : std::nullopt;
}

std::optional<Band> dough_band(const ForecastSummary& of, Band DoughSummary::* figure) {
  return of.dough ? std::optional((*of.dough).*figure) : std::nullopt;
}

std::optional<Band> bake_band(const ForecastSummary& of, Band BakeMomentSummary::* figure) {
  return of.bake ? std::optional(of.bake->done.*figure) : std::nullopt;
}

std::vector<ComparedFigure> outcome_of(const Side& before, const Side& after,
                                       const std::optional<ForecastSummary>& was,
                                       const std::optional<ForecastSummary>& is) {
  Outcome rows(before, after);
  const auto add = [&](const char* figure, const char* words, const char* unit, const auto& get,
                       ObservationKind kind) {
    rows.add(figure, words, unit, band_in(was, get), band_in(is, get), kind);
  };
  using Summary = ForecastSummary;
  const auto dough = [](Band DoughSummary::* figure) {
    return [figure](const Summary& of) { return dough_band(of, figure); };
  };
  const auto done = [](Band BakeMomentSummary::* figure) {
    return [figure](const Summary& of) { return bake_band(of, figure); };
  };
  add("total_grams", "weight of the dough", "g", dough(&DoughSummary::total_grams),
      ObservationKind::mass_before_grams);
  add("effective_hydration", "water the dough feels", "% of flour",
      dough(&DoughSummary::effective_hydration), ObservationKind::flour_left_grams);
  add("feel_score", "softness", "points", dough(&DoughSummary::feel_score), ObservationKind::feel);
  add("dough_celsius", "dough after mixing", "°C", dough(&DoughSummary::celsius),
      ObservationKind::dough_celsius);
  const std::size_t proves =
      std::max(was ? was->proves.size() : 0, is ? is->proves.size() : std::size_t{0});
  for (std::size_t i = 0; i < proves; ++i) {
    const auto minutes = [i](const Summary& of) {
      return i < of.proves.size() ? std::optional(of.proves[i].minutes) : std::nullopt;
    };
    const Summary& named = was && i < was->proves.size() ? *was : *is;
    rows.add("prove_" + std::to_string(i) + "_minutes", named.proves[i].name, "min",
             band_in(was, minutes), band_in(is, minutes), ObservationKind::volume_ratio,
             i == 0   ? "first"
             : i == 1 ? "second"
                      : "third");
  }
  add(
      "bake_minutes", "in the oven", "min",
      [](const Summary& of) { return of.bake ? std::optional(of.bake->minutes) : std::nullopt; },
      ObservationKind::minutes_done);
  add("core_celsius", "core when done", "°C", done(&BakeMomentSummary::core_celsius),
      ObservationKind::core_celsius);
  add("weight_loss_pct", "weight lost in the oven", "%", done(&BakeMomentSummary::weight_loss_pct),
      ObservationKind::mass_after_grams);
  add("lightness", "lightness of the crust", "L*", done(&BakeMomentSummary::lightness),
      ObservationKind::crust);
  rows.add_scores();
  return std::move(rows.out);
}

}  // namespace

Result<Comparison> compare(const Tools& tools, Store* store, const CompareRequest& request) {
  Result<Side> before = side_of(store, request.before);
  Result<Side> after = before.value ? side_of(store, request.after) : Result<Side>{};
  if (!before.value || !after.value) {
    return {std::nullopt, before.value ? after.problem : before.problem};
  }
  Comparison out;
  const auto forecast = [&](const Side& side, const Side& other) -> std::optional<ForecastSummary> {
    ForecastRequest asked;
    asked.kitchen = side.kitchen      ? *side.kitchen
                    : request.kitchen ? *request.kitchen
                    : other.kitchen   ? *other.kitchen
                                      : Kitchen();
    asked.options = request.options.forecast;
    asked.threads = request.options.threads;
    asked.stop = request.options.stop;
    Result<ForecastSummary> done = forecast_recipe(tools, side.recipe, asked);
    if (!done.value) {
      out.problems.push_back(side.said.called + ": " + done.problem);
    }
    return std::move(done.value);
  };
  const auto was = forecast(*before.value, *after.value);
  const auto is = forecast(*after.value, *before.value);
  out.difference = difference_of(before.value->recipe, after.value->recipe, tools.pantry);
  out.outcome = outcome_of(*before.value, *after.value, was, is);
  out.before = std::move(before.value->said);
  out.after = std::move(after.value->said);
  return {std::move(out), ""};
}

}  // namespace maslin
