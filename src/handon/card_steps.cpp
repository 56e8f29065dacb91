#include "handon/card_steps.h"

#include <cmath>
#include <vector>

#include "handon/differences.h"
#include "handon/step_words.h"

namespace maslin::handon {
namespace {

bool differs(const std::optional<Range>& said, const Band& band) {
  constexpr double k_seventh = 1.0 / 7.0;
  return !said || std::fabs(said->middle() - band.p50) > k_seventh * band.p50;
}

/// The method: steps of every part but those made beforehand, in the forecast's order.
std::vector<Step*> method_of(Recipe& recipe) {
  std::vector<Step*> out;
  for (Part& part : recipe.parts) {
    if (part.kind == PartKind::preferment || part.kind == PartKind::soaker ||
        part.kind == PartKind::extract) {
      continue;
    }
    for (Step& step : part.steps) {
      out.push_back(&step);
    }
  }
  return out;
}

bool heats(const Step& step) {
  return step.kind == StepKind::bake || step.kind == StepKind::steam || step.kind == StepKind::fry;
}

void settle_rises(const std::vector<Step*>& method, const ForecastSummary& there) {
  std::size_t at = 0;
  for (Step* step : method) {
    if (heats(*step) && step->minutes) {
      return;
    }
    if (step->kind == StepKind::prove && at < there.proves.size()) {
      const ProveSummary& prove = there.proves[at++];
      // Cold proves are timed by the day, not by the rise.
      if (step->place != "cold" && step->place != "frozen" && prove.chance_reached > 0.5 &&
          differs(step->minutes, prove.minutes)) {
        step->minutes = clock_range(prove.minutes, Watched::dough);
      }
    }
  }
}

void settle_bake(const std::vector<Step*>& method, const BakeSummary& there) {
  std::vector<Step*> stages;
  double said = 0.0;
  for (Step* step : method) {
    if (heats(*step) && (step->minutes || step->celsius)) {
      stages.push_back(step);
      said += step->minutes ? step->minutes->middle() : 0.0;
    }
  }
  const Band& minutes = there.minutes;
  // A bake that never ends in half of the draws has no time to put down.
  if (stages.empty() || minutes.p90 > 200.0) {
    return;
  }
  if (stages.size() == 1) {
    if (differs(stages.front()->minutes, minutes)) {
      stages.front()->minutes = clock_range(minutes, Watched::oven);
    }
    return;
  }
  if (said > 0.0 && std::fabs(said - minutes.p50) > minutes.p50 / 7.0) {
    for (Step* step : stages) {
      if (step->minutes) {
        const double by = minutes.p50 / said;
        step->minutes = Range{clock_minutes(step->minutes->low * by, Watched::oven),
                              clock_minutes(step->minutes->high * by, Watched::oven)};
      }
    }
  }
}

std::string heat_words(const Range& celsius, const CardWords& words) {
  if (words.language() == "en-US") {
    return words.range(celsius.low * 1.8 + 32.0, celsius.high * 1.8 + 32.0, 1) + " °F";
  }
  return words.range(celsius.low, celsius.high, 1) + " °C";
}

/// The words of a changed step: its own with the new figures, else a sentence.
std::string words_of(const Step& step, const Step& original, const CardWords& words) {
  const bool same_rest = step.kind == original.kind && step.place == original.place &&
                         step.pieces == original.pieces && step.until == original.until;
  if (words.english() && same_rest) {
    const auto minutes = step.minutes == original.minutes ? std::nullopt : step.minutes;
    const auto heat = step.celsius == original.celsius || !step.celsius
                          ? std::nullopt
                          : std::optional(heat_words(*step.celsius, words));
    if (const auto said = restated(original.text, minutes, heat)) {
      return *said;
    }
  }
  return sentence_of(step, words);
}

/// Whether what is said next begins within the sentence before it.
bool goes_on(const std::string& before, const std::string& next) {
  const bool lower = !next.empty() && next.front() >= 'a' && next.front() <= 'z';
  return lower && !before.empty() && before.back() != '.' && before.back() != ':';
}

std::string joined(const std::string& before, const std::string& next) {
  const bool bare = next.rfind("and ", 0) == 0 || next.rfind("then ", 0) == 0 ||
                    next.rfind("or ", 0) == 0 || before.empty();
  return before + (before.empty() ? "" : bare ? " " : ", ") + next;
}

bool same_settings(const Step& a, const Step& b) {
  return a.kind == b.kind && a.minutes == b.minutes && a.celsius == b.celsius &&
         a.place == b.place && a.pieces == b.pieces && a.until == b.until;
}

}  // namespace

void settle_steps(Recipe& recipe, const Recipe& original, const ForecastSummary& there,
                  const CardWords& words) {
  const std::vector<Step*> method = method_of(recipe);
  settle_rises(method, there);
  if (there.bake) {
    settle_bake(method, *there.bake);
  }
  for (std::size_t p = 0; p < recipe.parts.size() && p < original.parts.size(); ++p) {
    const std::vector<Step>& was = original.parts[p].steps;
    for (std::size_t i = 0; i < recipe.parts[p].steps.size() && i < was.size(); ++i) {
      Step& step = recipe.parts[p].steps[i];
      if (words.english() && !same_settings(step, was[i])) {
        step.text = words_of(step, was[i], words);
        step.fan = false;
      }
    }
  }
}

std::vector<CardStep> card_steps(const Part& part, const Part* original, int number,
                                 const CardWords& words) {
  std::vector<CardStep> out;
  for (std::size_t i = 0; i < part.steps.size(); ++i) {
    const Step& step = part.steps[i];
    const std::string said =
        words.english() && !step.text.empty() ? step.text : sentence_of(step, words);
    const std::string& found =
        original != nullptr && i < original->steps.size() ? original->steps[i].text : step.text;
    if (!out.empty() && words.english() && goes_on(out.back().words, said)) {
      CardStep& whole = out.back();
      whole.words = joined(whole.words, said);
      whole.as_found = joined(whole.as_found, found);
      ++whole.steps;
    } else {
      out.push_back({i, 1, ++number, said, found});
    }
  }
  for (CardStep& step : out) {
    if (step.as_found == step.words) {
      step.as_found.clear();
    }
  }
  return out;
}

}  // namespace maslin::handon
