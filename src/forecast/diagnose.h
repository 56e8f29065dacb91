// Why a bake went wrong: each cause a baker would name stands for an unknown or a figure of
// the forecast, and what was seen of this very bake says how likely it was out of line.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "forecast/observe.h"
#include "pantry/pantry.h"

namespace maslin {

/// The fault's figure on the next bake in this kitchen, as it is and with the mend.
struct MendEffect {
  std::string words;  // "lightness of the crust when it came out"
  std::string unit;
  Band as_it_is;
  Band mended;
};

struct Cause {
  std::string cause;
  std::string figure;  // the unknown or outcome that stands for it
  std::string unit;
  /// Chance that it lay in the quarter of its range where it makes the fault; a quarter
  /// before anything was seen. Of what is so or not, a dead yeast, the chance that it is so.
  double chance = 0.25;
  double chance_before = 0.25;
  Band expected;  // before
  Band now;
  std::string mend;
  std::optional<MendEffect> effect;
  std::string source;
};

struct Diagnosis {
  std::string fault;
  std::vector<Cause> causes;         // likeliest first
  std::vector<std::string> look_at;  // causes that nothing computed stands for, with the mend
};

/// The faults that a note names, by the phrases of data/faults.tsv.
std::vector<std::string> faults_in(std::string_view note);
/// All that are known.
std::vector<std::string> fault_names();

/// What is asked: the bake as it was foretold and weighed, and what was seen of it.
struct Case {
  const ForecastSetup& setup;
  const ForecastRun& run;
  const Weighing& weighing;
  std::span<const Observation> seen;
};
/// Ranks the causes of a fault; nothing for an unknown word.
std::optional<Diagnosis> diagnose(const Case& bake, const std::string& fault);

/// Forecasts the next bake with the mend of each of the first `most` causes that has one;
/// the kitchen is taken as it is after this bake.
void foresee_mends(Diagnosis& diagnosis, const Case& bake, const Pantry& pantry, std::size_t most,
                   const RunForecast& runs);

/// What a cause's mend is in a recipe, for mended(); empty when it is nothing of the recipe.
std::string change_of(const std::string& fault, const std::string& cause);

/// {"fault", "causes": [{"cause", "chance", ...}], "look_at"} as a JSON list.
std::string diagnoses_to_json(const std::vector<Diagnosis>& diagnoses);

}  // namespace maslin
