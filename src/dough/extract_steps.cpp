// What a recipe's part says of straining, by its steps.
#include "dough/extract.h"
#include "pantry/pantry.h"

namespace maslin {
namespace {

constexpr double k_kills_protease_celsius = 85.0;

bool says(const std::string& folded, std::string_view words) {
  return folded.find(folded_name(words)) != std::string::npos;
}

/// "boil down to half": the share left, 1 when nothing is said.
double reduced_share_of(const std::string& folded) {
  if (!says(folded, "reduce") && !says(folded, "boil down") && !says(folded, "simmer down")) {
    return 1.0;
  }
  if (says(folded, "third")) {
    return says(folded, "by a third") || says(folded, "two thirds") ? 2.0 / 3.0 : 1.0 / 3.0;
  }
  if (says(folded, "quarter")) {
    return says(folded, "by a quarter") ? 0.75 : 0.25;
  }
  return 0.5;
}

}  // namespace

ExtractSetting extract_setting_of(const Part& part, const ExtractTables& tables) {
  ExtractSetting out;
  out.pressing = tables.pressing("none");
  for (const Step& step : part.steps) {
    const std::string folded = folded_name(step.text + " " + step.until);
    if (step.kind == StepKind::strain) {
      out.pressing = tables.pressing("sieve");
      for (const Pressing& way : tables.pressings) {
        for (const std::string& word : way.words) {
          if (way.name != "none" && way.name != "sieve" && says(folded, word)) {
            out.pressing = way;
          }
        }
      }
    }
    if (step.kind == StepKind::boil) {
      out.reduced_share *= reduced_share_of(folded);
    }
  }
  for (const Line& line : part.lines) {
    const std::string folded = folded_name(line.text + " " + line.note);
    if (line.ingredient_id == "water" && line.weighed &&
        (says(folded, "over the pulp") || says(folded, "wash the pulp") ||
         says(folded, "second washing"))) {
      out.washes_g.push_back(line.grams.p50());
    }
  }
  return out;
}

Heating heating_of(const Part& part) {
  for (const Step& step : part.steps) {
    const bool hot = step.celsius && step.celsius->high >= k_kills_protease_celsius;
    if (step.kind == StepKind::boil || step.kind == StepKind::steam || hot) {
      return Heating::heated;
    }
  }
  return Heating::raw;
}

}  // namespace maslin
