#include "server/adjust_routes.h"

#include "server/asked.h"
#include "server/http_guard.h"

namespace maslin {
namespace {

constexpr std::size_t k_most_wants = 40;

HttpResponse answer_adjust(const AdjustHandler& adjust, const HttpRequest& request) {
  Asked asked = asked_with(request, {"recipe", "text", "kitchen", "wants", "holds"});
  if (asked.refused) {
    return *asked.refused;
  }
  AdjustQuestion question;
  question.recipe_json = object_of(asked, "recipe");
  question.text = text_of(asked, "text");
  question.kitchen_json = object_of(asked, "kitchen");
  question.wants = texts_of(asked, "wants", k_most_wants);
  question.holds = texts_of(asked, "holds", k_most_wants);
  if (const auto refused = refusal_of(asked, question)) {
    return *refused;
  }
  return adjust ? said(adjust(question)) : not_here();
}

}  // namespace

std::vector<Route> adjust_routes(const AdjustHandler& adjust) {
  return {{"POST", "adjust", [adjust](const HttpRequest& request, const std::string&) {
             return answer_adjust(adjust, request);
           }}};
}

}  // namespace maslin
