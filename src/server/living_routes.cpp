#include "server/living_routes.h"

#include "server/asked.h"
#include "server/http_guard.h"

namespace maslin {
namespace {

HttpResponse answer_card(const LivingHandlers& living, const HttpRequest& request) {
  Asked asked = asked_with(request, {"recipe", "kitchen"});
  if (asked.refused) {
    return *asked.refused;
  }
  const LivingCardQuestion question{object_of(asked, "recipe"), object_of(asked, "kitchen")};
  if (asked.refused) {
    return *asked.refused;
  }
  if (question.recipe_json.empty()) {
    return problem_response(400, "Give 'recipe', what read gave.");
  }
  return living.card ? said(living.card(question)) : not_here();
}

HttpResponse answer_baked(const LivingHandlers& living, const HttpRequest& request) {
  const Asked asked = asked_with(request, {"maslin_baked", "key", "title", "from", "recipe_id",
                                           "recipe", "kitchen", "started_at_ms", "entries"});
  if (asked.refused) {
    return *asked.refused;
  }
  return living.baked ? said(living.baked(request.body)) : not_here();
}

}  // namespace

std::vector<Route> living_routes(const LivingHandlers& living) {
  return {{"POST", "living-card",
           [living](const HttpRequest& request, const std::string&) {
             return answer_card(living, request);
           }},
          {"POST", "baked", [living](const HttpRequest& request, const std::string&) {
             return answer_baked(living, request);
           }}};
}

}  // namespace maslin
