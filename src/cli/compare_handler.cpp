#include "cli/compare_handler.h"

#include <utility>

#include "app/comparing.h"
#include "cli/api_answers.h"

namespace maslin {

CompareHandler compare_handler(const Tools& tools, const std::string& file) {
  return [&tools, file](const CompareQuestion& question) {
    CompareRequest request;
    request.before.called = question.before;
    request.after.called = question.after;
    if (!question.kitchen_json.empty()) {
      Result<Kitchen> kitchen = read_kitchen(question.kitchen_json);
      if (!kitchen.value) {
        return problem_of(kitchen.problem);
      }
      request.kitchen = std::move(kitchen.value);
    }
    constexpr std::uint32_t k_draws = 256;
    request.options.forecast.seed = question.seed.value_or(1);
    request.options.forecast.draws = question.draws.value_or(k_draws);
    request.options.stop = question.gone;
    return of_store(
        file, [&](Store& store) { return compare(tools, &store, request); }, comparison_to_json);
  };
}

}  // namespace maslin
