#include "reading/step_text.h"

#include "reading/step_reader.h"

namespace maslin::reading {

std::vector<Step> read_steps(const Text& text, std::size_t from, std::size_t to,
                             StepContext& context) {
  return StepReader(text, from, to, context).run();
}

std::optional<StepKind> first_verb(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to && i < from + 4; ++i) {
    if (const Match verb = match(text, i, WordClass::verb)) {
      return step_kind_from(verb.phrase->means);
    }
    if (text[i].is_number()) {
      return std::nullopt;
    }
  }
  return std::nullopt;
}

}  // namespace maslin::reading
