#include "server/compare_routes.h"

#include "server/asked.h"
#include "server/http_guard.h"

namespace maslin {
namespace {

HttpResponse answer_compare(const CompareHandler& compare, const HttpRequest& request) {
  constexpr std::size_t k_longest = 200;
  Asked asked = asked_with(request, {"before", "after", "kitchen", "seed", "draws"});
  if (asked.refused) {
    return *asked.refused;
  }
  CompareQuestion question;
  question.before = text_of(asked, "before");
  question.after = text_of(asked, "after");
  question.kitchen_json = object_of(asked, "kitchen");
  take_draws(asked, question);
  question.gone = request.gone;
  if (asked.refused) {
    return *asked.refused;
  }
  for (const std::string* side : {&question.before, &question.after}) {
    if (side->empty() || side->size() > k_longest) {
      return problem_response(
          400, "Give 'before' and 'after': a kept version (knots@2) or a trial's number (\"3\").");
    }
  }
  return compare ? said(compare(question)) : not_here();
}

}  // namespace

std::vector<Route> compare_routes(const CompareHandler& compare) {
  return {{"POST", "compare", [compare](const HttpRequest& request, const std::string&) {
             return answer_compare(compare, request);
           }}};
}

}  // namespace maslin
