#include "app/diagnosing.h"

#include <algorithm>
#include <array>

#include "quantity/number_text.h"
#include "recipe/json.h"

namespace maslin {
namespace {

/// Taken out, done, before the least the recipe says.
bool done_early(const Recipe& recipe, const std::vector<Observation>& seen) {
  double least = 0.0;
  for (const Part& part : recipe.parts) {
    for (const Step& step : part.steps) {
      least += step.kind == StepKind::bake && step.minutes ? step.minutes->low : 0.0;
    }
  }
  return std::any_of(seen.begin(), seen.end(), [&](const Observation& one) {
    return one.kind == ObservationKind::minutes_done && one.bound == Bound::is &&
           one.question.empty() && one.value < 0.95 * least;
  });
}

std::vector<std::string> faults_of(const TrialView& view, const Recipe& recipe,
                                   const std::vector<Observation>& seen) {
  std::vector<std::string> out;
  for (const Note& note : view.notes) {
    for (std::string& fault : note.corrected ? std::vector<std::string>() : faults_in(note.text)) {
      if (std::find(out.begin(), out.end(), fault) == out.end()) {
        out.push_back(std::move(fault));
      }
    }
  }
  if (done_early(recipe, seen)) {
    out.emplace_back("done early");
  }
  return out;
}

std::string unknown_fault(const std::string& fault) {
  std::string known;
  for (const std::string& one : fault_names()) {
    known += (known.empty() ? "" : ", ") + one;
  }
  return "\"" + fault + "\" is no fault that is known here; say one of " + known + ".";
}

/// How a figure's unit is said, by how much it is multiplied first, and to how many places.
struct SaidUnit {
  std::string_view unit;
  std::string_view words;
  double times;
  int places;
};
constexpr std::array<SaidUnit, 6> k_said_units{{{"kelvin", " degrees", 1.0, 1},
                                                {"celsius", " degrees", 1.0, 1},
                                                {"pct_flour", " % of the flour", 1.0, 1},
                                                {"chance", " %", 100.0, 0},
                                                {"ratio", " times", 1.0, 2},
                                                {"", "", 1.0, 2}}};

std::string range_text(const Band& band, const std::string& unit) {
  SaidUnit said{unit, unit, 1.0, 1};
  for (const SaidUnit& one : k_said_units) {
    said = one.unit == unit ? one : said;
  }
  const auto number = [&](double value) { return number_text(said.times * value, said.places); };
  const std::string gap = said.words == unit && !unit.empty() ? " " : "";
  return number(band.p50) + " (" + number(band.p10) + " to " + number(band.p90) + ")" + gap +
         std::string(said.words);
}

/// Whether a mend changes what is shown.
bool tells(const MendEffect& effect) {
  return range_text(effect.as_it_is, effect.unit) != range_text(effect.mended, effect.unit);
}

}  // namespace

Result<DiagnosedTrial> diagnose_trial(const Tools& tools, Store& store, std::int64_t number,
                                      const std::vector<std::string>& faults,
                                      const LiveOptions& options) {
  const Result<TrialView> view = view_trial(store, number);
  if (!view.value) {
    return {std::nullopt, view.problem};
  }
  const Result<TrialSetting> setting = setting_of(store, view.value->trial);
  if (!setting.value) {
    return {std::nullopt, setting.problem};
  }
  const std::vector<Observation> seen = observations_of(*view.value);
  DiagnosedTrial out{view.value->trial, {}};
  const std::vector<std::string> asked =
      faults.empty() ? faults_of(*view.value, setting.value->recipe, seen) : faults;
  if (asked.empty()) {
    return {std::move(out), ""};
  }
  ForecastRequest request;
  request.threads = options.threads;
  request.stop = options.stop;
  const auto runs = [&](const ForecastSetup& setup) {
    return run_in_threads(setup, request).value.value_or(ForecastRun{});
  };
  ForecastOptions followed_by = followed(options.forecast, seen);
  followed_by.begins_at = setting.value->begins_at;
  ForecastSetup setup =
      set_up_forecast(setting.value->recipe, setting.value->kitchen, tools.pantry, followed_by);
  ForecastRun run = runs(setup);
  if (!setup.problem.empty() || run.ensemble.draws() == 0) {
    return {std::nullopt, setup.problem};
  }
  const Weighing weighing = observe(setup, run, seen, runs);
  const Case bake{setup, run, weighing, seen};
  for (const std::string& fault : asked) {
    auto diagnosis = diagnose(bake, fault);
    if (!diagnosis) {
      return {std::nullopt, unknown_fault(fault)};
    }
    constexpr std::size_t k_most_mends = 3;
    foresee_mends(*diagnosis, bake, tools.pantry, k_most_mends, runs);
    out.diagnoses.push_back(std::move(*diagnosis));
  }
  return {std::move(out), ""};
}

std::string diagnosed_to_json(const DiagnosedTrial& diagnosed) {
  return json_text(
      {{"trial", diagnosed.trial.number},
       {"diagnoses", parse_json(diagnoses_to_json(diagnosed.diagnoses)).value_or(Json::array())}});
}

namespace {

/// Whether this bake speaks for the cause: its chance is more than before, and not a trifle.
bool is_likelier(const Cause& cause) {
  constexpr double k_least = 0.02;
  constexpr double k_more = 1.08;
  return cause.chance >= k_least && cause.chance >= k_more * cause.chance_before;
}

std::string cause_text(const Cause& cause) {
  if (cause.unit == "chance") {
    return "  " + number_text(100.0 * cause.chance, 0) + " %  " + cause.cause + ", where " +
           number_text(100.0 * cause.chance_before, 1) + " % was expected\n        " + cause.mend +
           "\n";
  }
  std::string out = "  " + number_text(100.0 * cause.chance, 0) + " %  " + cause.cause + ": " +
                    range_text(cause.now, cause.unit) + ", where " +
                    range_text(cause.expected, cause.unit) + " was expected\n";
  out += "        " + cause.mend + "\n";
  if (cause.effect && tells(*cause.effect)) {
    out += "        then " + cause.effect->words + ": " +
           range_text(cause.effect->as_it_is, cause.effect->unit) + " becomes " +
           range_text(cause.effect->mended, cause.effect->unit) + "\n";
  }
  return out;
}

}  // namespace

std::string diagnosed_report(const DiagnosedTrial& diagnosed) {
  std::string out;
  for (const Diagnosis& one : diagnosed.diagnoses) {
    out += one.fault + "\n";
    std::string others;
    for (const Cause& cause : one.causes) {
      if (is_likelier(cause)) {
        out += cause_text(cause);
      } else {
        others += (others.empty() ? "" : "; ") + cause.cause;
      }
    }
    if (!others.empty()) {
      out += "     no likelier than before: " + others + "\n";
    }
    for (const std::string& look : one.look_at) {
      out += "     ?  " + look + "\n";
    }
  }
  return out.empty() ? "No note names a fault; say which with --fault, 'too dark' or 'dense'.\n"
                     : out + "  (25 % is what each was before anything was seen)\n";
}

}  // namespace maslin
