// Amounts that only the method names: "dissolve the yeast in 1/4 cup of warm water".
#include <algorithm>
#include <cmath>

#include "reading/gatherer.h"
#include "reading/prose.h"
#include "reading/setting.h"

namespace maslin::reading {
namespace {

/// What a sentence does with what it names.
struct Doing {
  StepKind kind = StepKind::mix;
  bool in_oven = false;  // water beside what bakes
  bool heated = false;   // boiled or fried
};
Doing doing(const Text& text, const Span& span) {
  Doing out;
  for (std::size_t i = span.from; i < span.to; ++i) {
    out.in_oven = out.in_oven || is_class(text, i, WordClass::oven);
    const Match verb = match(text, i, WordClass::verb);
    const auto found = verb ? step_kind_from(verb.phrase->means) : std::nullopt;
    if (!found || match_name(text, i)) {
      continue;
    }
    out.in_oven = out.in_oven || *found == StepKind::bake || *found == StepKind::steam;
    out.heated = out.heated || *found == StepKind::boil || *found == StepKind::fry;
    const bool told = *found == StepKind::finish || *found == StepKind::fill ||
                      (*found == StepKind::soak && out.kind == StepKind::mix);
    out.kind = told ? *found : out.kind;
  }
  return out;
}

bool mixes(const Text& text, const Span& span) {
  const Doing does = doing(text, span);
  return does.kind == StepKind::mix && !does.in_oven && !does.heated;
}

/// Whether what was soaked is taken out of its liquid, in this sentence or the next.
bool is_drained(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) {
    if (is_class(text, i, WordClass::drain)) {
      return true;
    }
  }
  return false;
}

/// "1 tsp jam on each bun": said of one piece, not of all.
bool is_of_one_piece(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) {
    if (is_class(text, i, WordClass::each)) {
      return true;
    }
  }
  return false;
}

bool is_counted(IngredientKind kind) {
  return kind == IngredientKind::egg || kind == IngredientKind::fruit ||
         kind == IngredientKind::vegetable || kind == IngredientKind::potato;
}

/// An amount that can be a thing's own: no count of what is not counted, and no "a lemon", which is
/// said of sizes as well.
bool is_amount(const Mention& mention) {
  const DraftLine& line = mention.line;
  if (!mention.amount || !line.measure || !line.measure->number || line.ingredient == nullptr) {
    return false;
  }
  const std::string_view unit = line.measure->unit;
  const UnitKind kind = unit_kind(unit);
  return kind == UnitKind::mass || kind == UnitKind::volume || kind == UnitKind::container ||
         unit == "pinch" || unit == "spoonful" || unit == "handful" ||
         (unit.empty() && is_counted(line.ingredient->kind) && !line.measure->bare_article);
}

/// "half a carton of buttermilk and an egg": beside another amount an egg with an article is one.
bool is_one_egg_more(const Text& text, const Mention& mention,
                     const std::vector<Mention>& mentions) {
  const DraftLine& line = mention.line;
  const bool egg = mention.amount && line.measure && line.measure->bare_article &&
                   line.measure->unit.empty() && line.ingredient != nullptr &&
                   line.ingredient->kind == IngredientKind::egg;
  return egg && mention.from > 0 &&
         (is_class(text, mention.from - 1, WordClass::join) ||
          is_class(text, mention.from - 1, WordClass::with)) &&
         std::any_of(mentions.begin(), mentions.end(), is_amount);
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

/// The liquid that goes in, of "add enough water to make a dough", "moisten with milk"; none for "a
/// bowl of water".
Match added_water(const Text& text, const Span& span) {
  for (std::size_t i = span.from; i < span.to; ++i) {
    const Match name = match_name(text, i);
    if (!name || !pours(*name.phrase->ingredient)) {
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

/// Water to boil in or fat to fry in: nobody eats half a litre of either with a dough that lists
/// none. Common practice, no source.
bool is_bath(const Mention& mention) {
  constexpr double k_least_litres = 0.5;
  const DraftLine& line = mention.line;
  if (!is_amount(mention) || (line.ingredient->kind != IngredientKind::water &&
                              line.ingredient->kind != IngredientKind::fat)) {
    return false;
  }
  return unit_ratio("l", line.measure->unit) * line.measure->number->high >= k_least_litres;
}

/// What is strewn; a wash is a liquid.
bool goes_on_top(IngredientKind kind) {
  switch (kind) {
    case IngredientKind::seed:
    case IngredientKind::nut:
    case IngredientKind::spice:
    case IngredientKind::cheese:
    case IngredientKind::chocolate:
    case IngredientKind::topping:
    case IngredientKind::dried_fruit:
      return true;
    default:
      return false;
  }
}

std::string_view noun_of(const Ingredient& one) {
  return std::string_view(one.name).substr(one.name.rfind(' ') + 1);
}

/// "cream" and "milk" are two things, "milk" and "semi-skimmed milk" one.
bool has_same_noun(const Ingredient& a, const Ingredient& b) {
  return noun_of(a) == noun_of(b);
}

/// Of these two sorts may stand in one recipe, and the method may name one the list has not; not
/// by a word for the whole kind: "fat".
bool is_told_apart(const DraftLine& line) {
  if (line.name_words < 2 && line.line.name.find(noun_of(*line.ingredient)) == std::string::npos) {
    return false;
  }
  switch (line.ingredient->kind) {
    case IngredientKind::sugar:
    case IngredientKind::syrup:
    case IngredientKind::fat:
    case IngredientKind::dairy:
      return true;
    default:
      return false;
  }
}

/// "Brush with the honey and 1 tbsp of water": no part of the liquid that made the dough.
bool is_spoonful(const DraftLine& line) {
  return line.ingredient != nullptr && line.measure && pours(*line.ingredient) &&
         (line.measure->unit == "tbsp" || line.measure->unit == "tsp");
}

bool is_close(double a, double b) {
  return std::abs(a - b) <= 0.001 * std::max(a, b);
}

/// Said again in the method: the very amount of a thing that was found there already.
bool is_repeated(const std::vector<std::pair<std::size_t, DraftLine>>& found,
                 const DraftLine& line) {
  return std::any_of(found.begin(), found.end(), [&](const auto& one) {
    const FoundMeasure& before = *one.second.measure;
    return one.second.ingredient == line.ingredient && before.unit == line.measure->unit &&
           is_close(before.number->high, line.measure->number->high);
  });
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
  const bool own = !exact && is_told_apart(line);
  for (const DraftPart& part : draft_.parts) {
    for (const DraftLine& other : part.lines) {
      if (other.ingredient == nullptr || (exact && other.ingredient != line.ingredient) ||
          !is_same_kind(*other.ingredient, *line.ingredient) || !other.measure ||
          !other.measure->number) {  // "Salt: fine salt for the dough"
        continue;
      }
      const bool comparable = other.measure && other.measure->number.has_value();
      const double ratio = comparable ? unit_ratio(line.measure->unit, other.measure->unit) : 0.0;
      const double there = ratio > 0.0 ? ratio * other.measure->number->high : 0.0;
      const bool another =
          own && (line.name_words > 1 || !has_same_noun(*other.ingredient, *line.ingredient)) &&
          !is_close(there, line.measure->number->high);
      if (another) {
        continue;
      }
      any = true;
      // More flour than all that is listed is more flour, whatever it is called.
      const bool flour = line.ingredient->kind == IngredientKind::flour && ratio > 0.0;
      if (ratio <= 0.0 || (other.ingredient != line.ingredient && !flour)) {
        return true;
      }
      listed += there;
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
      const std::vector<Span> all = sentences(*step.text, step.from, step.to);
      for (std::size_t n = 0; n < all.size(); ++n) {
        const Doing does = doing(*step.text, all[n]);
        const std::size_t next = all[std::min(n + 1, all.size() - 1)].to;
        const bool drained =
            does.kind == StepKind::soak && is_drained(*step.text, all[n].from, next);
        Text text = *step.text;
        std::vector<Mention> mentions = read_mentions(text, all[n].from, all[n].to);
        if ((does.heated || does.in_oven) &&
            std::any_of(mentions.begin(), mentions.end(), is_bath)) {
          continue;
        }
        for (Mention& mention : mentions) {
          DraftLine& line = mention.line;
          const bool wash = does.kind == StepKind::finish && is_spoonful(line);
          const bool counts = is_amount(mention) || (does.kind == StepKind::mix &&
                                                     is_one_egg_more(text, mention, mentions));
          if (!counts || (!wash && is_listed(line)) || is_repeated(found, line) ||
              is_alternative(text, all[n].from, mention.from) ||
              is_of_one_piece(text, mention.from + 1, all[n].to)) {
            continue;
          }
          const bool poured_off = drained || does.in_oven || (does.heated && mentions.size() == 1);
          const bool water = line.ingredient->kind == IngredientKind::water;
          if (drained ? pours(*line.ingredient) : poured_off && water) {
            continue;
          }
          if (does.kind == StepKind::finish) {
            line.purpose = goes_on_top(line.ingredient->kind) ? "top" : "wash";
          } else if (does.kind == StepKind::fill) {
            line.part_said = PartKind::filling;
          }
          found.emplace_back(at, std::move(line));
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

bool Gatherer::works_amounts(Text& text, const Span& span) const {
  if (prose_ || !draft_.parts.empty() || section_ == SectionKind::notes ||
      section_ == SectionKind::end || !verb_first(text, span.from, span.to)) {
    return false;
  }
  // "Baked at 375 F for 20 minutes." over the list
  bool timed = false;
  for (std::size_t i = span.from; i < span.to; ++i) {
    timed = timed || any_time(text, i).has_value();
  }
  if (timed && has_heat(text, span)) {
    return true;
  }
  const std::vector<Mention> mentions = read_mentions(text, span.from, span.to);
  return std::any_of(mentions.begin(), mentions.end(), is_amount);
}

void Gatherer::put_early_steps() {
  if (early_.empty() || draft_.parts.empty()) {
    for (const DraftStep& step : early_) {
      draft_.remarks.emplace_back(step.text->slice(step.from, step.to));
    }
    return;
  }
  const auto dough = std::find_if(draft_.parts.begin(), draft_.parts.end(),
                                  [](const DraftPart& one) { return one.kind == PartKind::dough; });
  DraftPart& into = dough == draft_.parts.end() ? draft_.parts.front() : *dough;
  into.steps.insert(into.steps.begin(), early_.begin(), early_.end());
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
  if (has_flour() && !has_liquid()) {
    take_untold(
        [](const Text& text, const Span& span) {
          return mixes(text, span) ? added_water(text, span) : Match{};
        },
        "60 to 65 % of the flour is usual");
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
