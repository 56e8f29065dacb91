#include "app/proposing.h"

#include <algorithm>
#include <utility>

#include "app/library.h"
#include "forecast/mend.h"

namespace maslin {
namespace {

/// The mean of a bake's scores of one sense, or of all, 0 to 1.
std::optional<double> score_of(const TrialView& view, const std::string& sense) {
  double sum = 0.0;
  int count = 0;
  for (const Observation& one : observations_of(view)) {
    if (one.kind == ObservationKind::score && one.out_of > 0.0 &&
        (sense.empty() || one.word == sense)) {
      sum += std::clamp(one.value / one.out_of, 0.0, 1.0);
      ++count;
    }
  }
  return count > 0 ? std::optional(sum / count) : std::nullopt;
}

/// All bakes of the recipe, the oldest first.
Result<std::vector<TrialView>> bakes_of(Store& store, const std::string& name) {
  constexpr int k_most_versions = 1000;
  const Result<History> history = history_of(store, DocumentKind::recipe, name, k_most_versions);
  if (!history.value) {
    return {std::nullopt, history.problem};
  }
  std::vector<std::int64_t> numbers;
  for (const CourseEntry& entry : history.value->course) {
    numbers.insert(numbers.end(), entry.trials.begin(), entry.trials.end());
  }
  std::sort(numbers.begin(), numbers.end());
  std::vector<TrialView> out;
  for (const std::int64_t number : numbers) {
    Result<TrialView> view = view_trial(store, number);
    if (!view.value) {
      return {std::nullopt, view.problem};
    }
    out.push_back(std::move(*view.value));
  }
  return {std::move(out), ""};
}

/// For each fault of the last bake, the likeliest cause that has a mend in the recipe.
std::vector<ProposedMend> mends_of(const Tools& tools, Store& store, const Trial& trial,
                                   const LiveOptions& options) {
  std::vector<ProposedMend> out;
  const Result<DiagnosedTrial> diagnosed = diagnose_trial(tools, store, trial.number, {}, options);
  const Result<TrialSetting> setting = setting_of(store, trial);
  if (!diagnosed.value || !setting.value) {
    return out;
  }
  for (const Diagnosis& diagnosis : diagnosed.value->diagnoses) {
    for (const Cause& cause : diagnosis.causes) {
      if (!cause.effect) {
        continue;
      }
      ProposedMend one{
          diagnosis.fault,
          cause,
          mended(setting.value->recipe, tools.pantry, change_of(diagnosis.fault, cause.cause)),
          {}};
      one.difference = difference_of(setting.value->recipe, one.recipe, tools.pantry);
      if (!one.difference.lines.empty() || !one.difference.steps.empty()) {
        out.push_back(std::move(one));
        break;
      }
    }
  }
  return out;
}

}  // namespace

Result<ProposedNext> propose_next(const Tools& tools, Store& store, const NextRequest& request) {
  const Result<std::vector<TrialView>> bakes = bakes_of(store, request.recipe);
  if (!bakes.value) {
    return {std::nullopt, bakes.problem};
  }
  ProposedNext out;
  out.recipe = request.recipe;
  out.sense = request.sense;
  NextTrialRequest asked;
  asked.limits = request.limits;
  for (const TrialView& view : *bakes.value) {
    const auto score = score_of(view, request.sense);
    Result<TrialSetting> setting = score ? setting_of(store, view.trial) : Result<TrialSetting>{};
    if (setting.value) {
      asked.kitchen = std::move(setting.value->kitchen);
      asked.bakes.push_back({std::move(setting.value->recipe), *score});
    }
  }
  out.scored = static_cast<int>(asked.bakes.size());
  NextTrial next = next_trial(asked, tools.pantry);
  if (!next.problem.empty()) {
    out.why_not = next.problem;
  } else {
    CompareRequest compared;
    compared.before = {"the best so far", asked.bakes[next.best_bake].recipe};
    compared.after = {"the proposal", next.adjustment.recipe};
    compared.kitchen = asked.kitchen;
    compared.options = request.options;
    const Result<Comparison> effect = compare(tools, nullptr, compared);
    out.effect = effect.value ? effect.value->outcome : std::vector<ComparedFigure>();
    out.next = std::move(next);
  }
  if (!bakes.value->empty()) {
    out.last = bakes.value->back().trial.number;
    out.mends = mends_of(tools, store, bakes.value->back().trial, request.options);
  }
  return {std::move(out), ""};
}

}  // namespace maslin
