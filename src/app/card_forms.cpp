#include "app/card_forms.h"

#include <cmath>
#include <utility>

#include "app/labelling.h"
#include "app/planning.h"
#include "handon/captions.h"
#include "handon/jsonld.h"
#include "plan/calendar.h"

namespace maslin {
namespace {

handon::LabelRules rules_of(const std::string& country) {
  return country == "us"   ? handon::LabelRules::us
         : country == "uk" ? handon::LabelRules::uk
                           : handon::LabelRules::eu;
}

/// By the rules of that country, baked there draw by draw.
Result<handon::Label> label_of_card(const Tools& tools, const handon::Card& card,
                                    const HandOnRequest& request) {
  LabelQuestion question;
  question.rules = rules_of(card.kitchen.country);
  question.forecast.kitchen = card.kitchen;
  question.forecast.options = request.options;
  return label_recipe(tools, card.recipe, question);
}

handon::JsonLdExtras extras_of(const Tools& tools, const handon::Card& card,
                               const HandOnRequest& request) {
  handon::JsonLdExtras out;
  out.language = card.language;
  double total = 0.0;
  for (const handon::CardTime& time : card.times) {
    total += time.minutes.p50;
  }
  // A fire that dies first has no time to tell.
  if (const auto& bake = card.there.bake; bake && std::isfinite(bake->minutes.p50)) {
    out.cook_minutes = bake->minutes.p50;
  }
  if (total > 0.0 && std::isfinite(total)) {
    out.total_minutes = total;
  }
  if (const auto label = label_of_card(tools, card, request); label.value) {
    out.serving = label.value->serving;
    out.nutrition = label.value->nutrients;
  }
  return out;
}

/// The track, or the sentence why the clip shows nothing.
Result<handon::ScreenTrack> track_of(const Tools& tools, const handon::Card& card,
                                     const HandOnRequest& request) {
  if (request.captions.empty()) {
    return {std::nullopt,
            "On-screen conversions need the clip: give its captions, or a list of times, with "
            "--captions."};
  }
  const auto cues = handon::spoken_cues(request.captions);
  if (cues.empty()) {
    return {std::nullopt,
            "There are no times in the captions; give WebVTT, SRT, or a time before each line: "
            "0:12 three cups of flour."};
  }
  handon::ScreenTrack track =
      handon::screen_track(cues, card.original, tools.pantry, handon::CardWords(card.language));
  if (track.cues.empty()) {
    return {std::nullopt,
            "The captions speak of none of the recipe's amounts; check that they belong to it."};
  }
  return {std::move(track), ""};
}

}  // namespace

Result<std::string> card_as_jsonld(const Tools& tools, const handon::Card& card,
                                   const HandOnRequest& request) {
  return {
      handon::recipe_to_jsonld(card.recipe, tools.pantry, extras_of(tools, card, request)) + "\n",
      ""};
}

Result<std::string> card_as_label(const Tools& tools, const handon::Card& card,
                                  const HandOnRequest& request) {
  const Result<handon::Label> label = label_of_card(tools, card, request);
  return label.value ? Result<std::string>{handon::label_text(*label.value), ""}
                     : Result<std::string>{std::nullopt, label.problem};
}

Result<std::string> card_as_vtt(const Tools& tools, const handon::Card& card,
                                const HandOnRequest& request) {
  const auto track = track_of(tools, card, request);
  return track.value ? Result<std::string>{handon::track_to_vtt(*track.value), ""}
                     : Result<std::string>{std::nullopt, track.problem};
}

Result<std::string> card_as_srt(const Tools& tools, const handon::Card& card,
                                const HandOnRequest& request) {
  const auto track = track_of(tools, card, request);
  return track.value ? Result<std::string>{handon::track_to_srt(*track.value), ""}
                     : Result<std::string>{std::nullopt, track.problem};
}

Result<std::string> card_as_calendar(const Tools& tools, const handon::Card& card,
                                     const HandOnRequest& request) {
  if (request.ready_at.empty()) {
    return {std::nullopt,
            "A calendar needs the hour it is wanted: give --ready-at 2026-05-01T16:00."};
  }
  const Result<PlanRequest> asked = plan_request_from({request.ready_at, "", std::nullopt, "", {}});
  if (!asked.value) {
    return {std::nullopt, asked.problem};
  }
  DayQuestion question;
  question.forecast.kitchen = card.kitchen;
  question.forecast.options = request.options;
  question.plan = *asked.value;
  const Result<DayPlan> plan = plan_recipe(tools, card.recipe, question);
  return plan.value ? Result<std::string>{plan_to_calendar(*plan.value), ""}
                    : Result<std::string>{std::nullopt, plan.problem};
}

}  // namespace maslin
