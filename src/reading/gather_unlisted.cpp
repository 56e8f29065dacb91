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
    if (is_class(text, i, WordClass::oven)) {
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

/// A liquid that can make a dough; eggs alone seldom do.
bool pours(const Ingredient& ingredient) {
  switch (ingredient.kind) {
    case IngredientKind::water:
    case IngredientKind::juice:
    case IngredientKind::plant_milk:
    case IngredientKind::alcohol:
    case IngredientKind::drink:
      return true;
    case IngredientKind::dairy:
      return ingredient.composition[Component::water] > 0.6;
    default:
      return false;
  }
}

/// The water that goes in, of "add enough water to make a dough"; none for "a bowl of water".
Match added_water(const Text& text, const Span& span) {
  for (std::size_t i = span.from; i < span.to; ++i) {
    const Match name = match_name(text, i);
    if (!name || name.phrase->ingredient->kind != IngredientKind::water) {
      continue;
    }
    std::size_t before = i;
    while (before > span.from && is_class(text, before - 1, WordClass::note)) {
      --before;
    }
    const bool vessel = before > span.from && is_class(text, before - 1, WordClass::of);
    return vessel ? Match{} : name;
  }
  return {};
}

/// "Add the milk or 1 cup of water": what stands after "or" is not added to it.
bool is_alternative(const Text& text, std::size_t from, std::size_t at) {
  return at > from && (is_class(text, at - 1, WordClass::or_) ||
                       (at > from + 1 && is_class(text, at - 2, WordClass::or_)));
}

bool is_same_kind(const Ingredient& a, const Ingredient& b) {
  return &a == &b || (a.kind == b.kind && a.kind != IngredientKind::spice);
}

}  // namespace

bool Gatherer::is_listed(const DraftLine& line) const {
  double listed = 0.0;
  bool any = false;
  // Where the very thing stands in the list, others of its kind say nothing: two flours.
  bool exact = false;
  for (const DraftPart& part : draft_.parts) {
    for (const DraftLine& other : part.lines) {
      exact = exact || other.ingredient == line.ingredient;
    }
  }
  for (const DraftPart& part : draft_.parts) {
    for (const DraftLine& other : part.lines) {
      if (other.ingredient == nullptr || (exact && other.ingredient != line.ingredient) ||
          !is_same_kind(*other.ingredient, *line.ingredient)) {
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
          if (!amount || line.ingredient == nullptr || is_listed(line) ||
              is_alternative(text, span.from, mention.from)) {
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

bool Gatherer::has_liquid() const {
  for (const DraftPart& part : draft_.parts) {
    for (const DraftLine& line : part.lines) {
      if (line.ingredient != nullptr && pours(*line.ingredient)) {
        return true;
      }
    }
  }
  return false;
}

void Gatherer::take_untold_water() {
  if (prose_ || draft_.parts.empty() || !has_flour() || has_liquid()) {
    return;
  }
  for (std::size_t at = 0; at < draft_.parts.size(); ++at) {
    for (const DraftStep& step : draft_.parts[at].steps) {
      for (const Span& span : sentences(*step.text, step.from, step.to)) {
        const Match water =
            does_with(*step.text, span) == StepKind::mix ? added_water(*step.text, span) : Match{};
        if (!water) {
          continue;
        }
        DraftLine line;
        line.ingredient = water.phrase->ingredient;
        line.line.ingredient_id = line.ingredient->id;
        line.line.name = line.ingredient->name;
        line.line.text = std::string(step.text->slice(span.from, span.to));
        line.purpose = "need";
        line.doubts.push_back(
            {line.line.text,
             "the method adds water and no line says how much: 60 to 65 % of the flour is usual"});
        const std::size_t back = part_;
        part_ = at;
        add_line(std::move(line));
        part_ = back;
        return;
      }
    }
  }
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
