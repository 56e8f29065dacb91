#include "server/label_routes.h"

#include "server/asked.h"
#include "server/http_guard.h"

namespace maslin {
namespace {

constexpr std::uint64_t k_most_loads = 100;

using Answer = std::function<ApiAnswer(const LabelAsked&)>;

/// What both are asked with.
LabelAsked question_of(Asked& asked, const HttpRequest& request) {
  LabelAsked out;
  out.recipe_json = object_of(asked, "recipe");
  out.text = text_of(asked, "text");
  out.kitchen_json = object_of(asked, "kitchen");
  take_draws(asked, out);
  out.gone = request.gone;
  return out;
}

HttpResponse answered(const Answer& answer, Asked& asked, const LabelAsked& question) {
  if (const auto refused = refusal_of(asked, question)) {
    return *refused;
  }
  return answer ? said(answer(question)) : not_here();
}

HttpResponse answer_label(const Answer& answer, const HttpRequest& request) {
  Asked asked = asked_with(request, {"recipe", "text", "kitchen", "rules", "seed", "draws"});
  if (asked.refused) {
    return *asked.refused;
  }
  LabelAsked question = question_of(asked, request);
  question.rules = text_of(asked, "rules");
  return answered(answer, asked, question);
}

HttpResponse answer_cost(const Answer& answer, const HttpRequest& request) {
  Asked asked =
      asked_with(request, {"recipe", "text", "kitchen", "prices", "loads", "seed", "draws"});
  if (asked.refused) {
    return *asked.refused;
  }
  LabelAsked question = question_of(asked, request);
  question.prices_json = object_of(asked, "prices");
  question.loads = whole_number_of(asked, "loads", 1, k_most_loads);
  return answered(answer, asked, question);
}

}  // namespace

std::vector<Route> label_routes(const LabelHandlers& handlers) {
  return {{"POST", "label",
           [label = handlers.label](const HttpRequest& request, const std::string&) {
             return answer_label(label, request);
           }},
          {"POST", "cost", [cost = handlers.cost](const HttpRequest& request, const std::string&) {
             return answer_cost(cost, request);
           }}};
}

}  // namespace maslin
