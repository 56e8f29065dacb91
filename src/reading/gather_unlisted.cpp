// Amounts that only the method names: "dissolve the yeast in 1/4 cup of warm water".
#include <algorithm>

#include "reading/gatherer.h"
#include "reading/prose.h"

namespace maslin::reading {
namespace {

bool has_unit(const Text& text, const Span& span) {
  for (std::size_t i = span.from; i < span.to; ++i) {
    if (is_class(text, i, WordClass::unit)) {
      return true;
    }
  }
  return false;
}

/// What the sentence does with what it names; nothing when that is not eaten as dough or on
/// it: water thrown into the oven, boiled off, or for the lye bath.
std::optional<StepKind> does_with(const Text& text, const Span& span) {
  StepKind kind = StepKind::mix;
  for (std::size_t i = span.from; i < span.to; ++i) {
    if (is_class(text, i, WordClass::oven) || is_class(text, i, WordClass::or_)) {
      return std::nullopt;
    }
    const Match verb = match(text, i, WordClass::verb);
    const auto found = verb ? step_kind_from(verb.phrase->means) : std::nullopt;
    if (!found || match_name(text, i)) {
      continue;
    }
    if (*found == StepKind::bake || *found == StepKind::steam || *found == StepKind::boil ||
        *found == StepKind::fry || *found == StepKind::soak) {
      return std::nullopt;
    }
    kind = *found == StepKind::finish || *found == StepKind::fill ? *found : kind;
  }
  return kind;
}

bool is_same_kind(const Ingredient& a, const Ingredient& b) {
  return &a == &b || (a.kind == b.kind && a.kind != IngredientKind::spice);
}

}  // namespace

bool Gatherer::is_listed(const DraftLine& line) const {
  double listed = 0.0;
  bool any = false;
  for (const DraftPart& part : draft_.parts) {
    for (const DraftLine& other : part.lines) {
      if (other.ingredient == nullptr || !is_same_kind(*other.ingredient, *line.ingredient)) {
        continue;
      }
      any = true;
      const bool same =
          other.ingredient == line.ingredient && other.measure && other.measure->number.has_value();
      const double ratio = same ? unit_ratio(line.measure->unit, other.measure->unit) : 0.0;
      if (ratio <= 0.0) {
        return true;
      }
      listed += other.measure->number->high * ratio;
    }
  }
  // Nobody can add seven cups of the one that was listed; a thousandth for rounded fractions.
  return any && 1.001 * listed >= line.measure->number->low;
}

void Gatherer::take_unlisted() {
  if (prose_ || draft_.parts.empty()) {
    return;
  }
  std::vector<std::pair<std::size_t, DraftLine>> found;
  for (std::size_t at = 0; at < draft_.parts.size(); ++at) {
    for (const DraftStep& step : draft_.parts[at].steps) {
      for (const Span& span : sentences(*step.text, step.from, step.to)) {
        const auto does = has_unit(*step.text, span) ? does_with(*step.text, span) : std::nullopt;
        if (!does || *does == StepKind::fill) {
          continue;
        }
        Text text = *step.text;
        for (Mention& mention : read_mentions(text, span.from, span.to)) {
          const DraftLine& line = mention.line;
          const UnitKind unit = line.measure ? unit_kind(line.measure->unit) : UnitKind::none;
          const bool real = unit == UnitKind::mass || unit == UnitKind::volume ||
                            (line.measure && line.measure->unit == "pinch");
          const bool amount = mention.amount && line.measure->number && real;
          if (!amount || line.ingredient == nullptr || is_listed(line)) {
            continue;
          }
          mention.line.purpose = *does == StepKind::finish ? "wash" : line.purpose;
          found.emplace_back(at, std::move(mention.line));
        }
      }
    }
  }
  const std::size_t back = part_;
  for (auto& [at, line] : found) {
    part_ = at;
    add_line(std::move(line));
  }
  part_ = back;
}

bool Gatherer::has_flour() const {
  for (const DraftPart& part : draft_.parts) {
    for (const DraftLine& line : part.lines) {
      if (line.ingredient != nullptr && line.ingredient->kind == IngredientKind::flour) {
        return true;
      }
    }
  }
  return false;
}

void Gatherer::take_left_over() {
  if (prose_ || has_flour()) {
    return;
  }
  const std::size_t back = part_;
  // The remarks stay, and may grow: what more they say is not lost.
  std::vector<std::string> left_over = draft_.remarks;
  left_over.insert(left_over.begin(), draft_.title);  // a message's first line may be no title
  for (const std::string& remark : left_over) {
    draft_.texts.push_back(tokenise(remark, lexicons_, lexicon_));
    Text& text = draft_.texts.back();
    for (Mention& mention : read_mentions(text, 0, text.size())) {
      if (mention.amount && mention.line.ingredient != nullptr && !is_listed(mention.line)) {
        part_ = 0;
        add_line(std::move(mention.line));
      }
    }
  }
  part_ = back;
}

}  // namespace maslin::reading
