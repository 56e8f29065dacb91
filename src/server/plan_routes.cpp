#include "server/plan_routes.h"

#include "server/asked.h"
#include "server/http_guard.h"

namespace maslin {
namespace {

constexpr std::size_t k_most_done = 100;

HttpResponse answer_plan(const PlanHandler& plan, const HttpRequest& request) {
  Asked asked = asked_with(request, {"recipe", "text", "kitchen", "ready_at", "now", "done",
                                     "chance", "awake", "seed", "draws"});
  if (asked.refused) {
    return *asked.refused;
  }
  PlanQuestion question;
  question.recipe_json = object_of(asked, "recipe");
  question.text = text_of(asked, "text");
  question.kitchen_json = object_of(asked, "kitchen");
  question.ready_at = text_of(asked, "ready_at");
  question.now = text_of(asked, "now");
  question.awake = text_of(asked, "awake");
  question.done = texts_of(asked, "done", k_most_done);
  question.chance = number_of(asked, "chance", 0.5, 0.99);
  take_draws(asked, question);
  question.gone = request.gone;
  if (const auto refused = refusal_of(asked, question)) {
    return *refused;
  }
  if (question.ready_at.empty() && question.now.empty()) {
    return problem_response(400, "Give 'ready_at', or 'now' for as soon as can be.");
  }
  return plan ? said(plan(question)) : not_here();
}

}  // namespace

std::vector<Route> plan_routes(const PlanHandler& plan) {
  return {{"POST", "plan", [plan](const HttpRequest& request, const std::string&) {
             return answer_plan(plan, request);
           }}};
}

}  // namespace maslin
