#include "server/handon_routes.h"

#include "server/asked.h"
#include "server/http_guard.h"

namespace maslin {
namespace {

HttpResponse answer_hand_on(const HandOnHandler& hand_on, const HttpRequest& request) {
  Asked asked = asked_with(request, {"recipe", "text", "to", "kitchen", "as", "language",
                                     "captions", "ready_at", "seed", "draws"});
  if (asked.refused) {
    return *asked.refused;
  }
  HandOnQuestion question;
  question.recipe_json = object_of(asked, "recipe");
  question.text = text_of(asked, "text");
  question.to_json = object_of(asked, "to");
  question.from_json = object_of(asked, "kitchen");
  question.as = text_of(asked, "as");
  question.language = text_of(asked, "language");
  question.captions = text_of(asked, "captions");
  question.ready_at = text_of(asked, "ready_at");
  take_draws(asked, question);
  if (const auto refused = refusal_of(asked, question)) {
    return *refused;
  }
  if (question.to_json.empty()) {
    return problem_response(400,
                            "Give 'to': the kitchen the recipe goes to; {} if nothing is known.");
  }
  return hand_on ? said(hand_on(question)) : not_here();
}

}  // namespace

std::vector<Route> handon_routes(const HandOnHandler& hand_on) {
  return {{"POST", "hand-on", [hand_on](const HttpRequest& request, const std::string&) {
             return answer_hand_on(hand_on, request);
           }}};
}

}  // namespace maslin
