// The next bake as proposed, as a document and in words.
#include <cmath>

#include "app/proposing.h"
#include "quantity/number_text.h"
#include "recipe/json.h"
#include "recipe/recipe_json.h"

namespace maslin {
namespace {

Json change_json(const ChangedAmount& change) {
  return {{"figure", change.figure},  {"words", change.words},      {"from", rounded(change.from)},
          {"to", rounded(change.to)}, {"low", rounded(change.low)}, {"high", rounded(change.high)}};
}

Json band_json(const std::optional<Band>& band) {
  return band ? Json{{"p10", rounded(band->p10)},
                     {"p50", rounded(band->p50)},
                     {"p90", rounded(band->p90)}}
              : Json(nullptr);
}

Json next_json(const NextTrial& next) {
  Json out{
      {"why", next.why == NextWhy::better ? "better" : "learn"},
      {"reason", next.reason},
      {"score", rounded(next.score)},
      {"score_sd", rounded(next.score_sd)},
      {"best_score", rounded(next.best_score)},
      {"chance_better", rounded(next.chance_better)},
      {"changes", Json::array()},
      {"adjustment", parse_json(adjustment_to_json(next.adjustment)).value_or(Json::object())}};
  for (const ChangedAmount& change : next.changes) {
    out["changes"].push_back(change_json(change));
  }
  return out;
}

Json mend_json(const ProposedMend& mend) {
  return {{"fault", mend.fault},
          {"cause", mend.cause.cause},
          {"chance", rounded(mend.cause.chance)},
          {"mend", mend.cause.mend},
          {"of", mend.cause.effect->words},
          {"unit", mend.cause.effect->unit},
          {"as_it_is", band_json(mend.cause.effect->as_it_is)},
          {"mended", band_json(mend.cause.effect->mended)},
          {"recipe", parse_json(recipe_to_json(mend.recipe)).value_or(Json::object())}};
}

std::string figure_text(double value, const std::string& unit) {
  return number_text(value, std::fabs(value) < 20.0 ? 1 : 0) + (unit.empty() ? "" : " " + unit);
}

std::string next_report(const ProposedNext& proposed) {
  const NextTrial& next = *proposed.next;
  std::string out = next.reason + "\n";
  for (const ChangedAmount& change : next.changes) {
    out += "  " + change.words + ": " + figure_text(change.from, "") + " to " +
           figure_text(change.to, "") + "  (within " + figure_text(change.low, "") + " to " +
           figure_text(change.high, "") + ")\n";
  }
  out += adjustment_text(next.adjustment);
  for (const ComparedFigure& one : proposed.effect) {
    if (one.before && one.after &&
        figure_text(one.before->p50, one.unit) != figure_text(one.after->p50, one.unit)) {
      out += "  " + one.words + ": " + figure_text(one.before->p50, one.unit) + " becomes " +
             figure_text(one.after->p50, one.unit) + "\n";
    }
  }
  return out;
}

}  // namespace

std::string proposed_to_json(const ProposedNext& proposed) {
  Json out{{"recipe", proposed.recipe},
           {"sense", proposed.sense},
           {"scored", proposed.scored},
           {"next", proposed.next ? next_json(*proposed.next) : Json(nullptr)},
           {"why_not", proposed.why_not},
           {"effect", Json::array()},
           {"last_trial", proposed.last ? Json(*proposed.last) : Json(nullptr)},
           {"mends", Json::array()}};
  for (const ComparedFigure& one : proposed.effect) {
    out["effect"].push_back({{"figure", one.figure},
                             {"words", one.words},
                             {"unit", one.unit},
                             {"before", band_json(one.before)},
                             {"after", band_json(one.after)}});
  }
  for (const ProposedMend& mend : proposed.mends) {
    out["mends"].push_back(mend_json(mend));
  }
  return json_text(out);
}

std::string proposed_report(const ProposedNext& proposed) {
  std::string out = proposed.next ? next_report(proposed) : proposed.why_not + "\n";
  for (const ProposedMend& mend : proposed.mends) {
    const MendEffect& effect = *mend.cause.effect;
    out += mend.fault + ", likeliest because " + mend.cause.cause + ": " + mend.cause.mend +
           "\n  " + effect.words + ": " + figure_text(effect.as_it_is.p50, effect.unit) +
           " becomes " + figure_text(effect.mended.p50, effect.unit) + "\n";
  }
  return out;
}

}  // namespace maslin
