#include "handon/stand_in.h"

#include <algorithm>
#include <array>
#include <optional>

#include "adjust/substitution.h"
#include "handon/carried_lines.h"
#include "quantity/number_text.h"

namespace maslin::handon {
namespace {

enum class Family : std::uint8_t { none, flour, sugar, fat, milk, egg, yeast, flavour };

Family family_of(const Ingredient& one) {
  switch (one.kind) {
    case IngredientKind::flour:
      return Family::flour;
    case IngredientKind::sugar:
    case IngredientKind::syrup:
      return Family::sugar;
    case IngredientKind::fat:
      return Family::fat;
    case IngredientKind::dairy:
    case IngredientKind::plant_milk:
      return Family::milk;
    case IngredientKind::egg:
      return Family::egg;
    case IngredientKind::yeast:
      return Family::yeast;
    case IngredientKind::spice:
    case IngredientKind::herb:
    case IngredientKind::extract:
      return Family::flavour;
    default:
      return Family::none;
  }
}

bool is_milk_powder(const Ingredient& one) {
  return one.id.rfind("milk_powder", 0) == 0;
}

class Larder {
 public:
  Larder(const Pantry& pantry, const Kitchen& kitchen) : pantry_(pantry) {
    for (const std::string& name : kitchen.at_hand) {
      const Ingredient* one = pantry.find(name);
      one = one != nullptr ? one : pantry.named(name);
      one = one != nullptr ? one : pantry.best_match(name);
      if (one == nullptr) {
        unknown.push_back(name);
      } else {
        there_.push_back(one);
      }
    }
  }

  bool empty() const { return there_.empty(); }
  bool has(const Ingredient& one) const {
    return std::find(there_.begin(), there_.end(), &one) != there_.end();
  }
  /// All there is, or only a word on some families?
  bool whole() const {
    constexpr std::size_t k_whole = 4;
    return there_.size() >= k_whole && has_family(Family::flour);
  }
  bool has_family(Family family) const {
    return std::any_of(there_.begin(), there_.end(),
                       [family](const Ingredient* one) { return family_of(*one) == family; });
  }
  bool lacks(const Ingredient& one) const {
    const Family family = family_of(one);
    if (empty() || has(one) || one.kind == IngredientKind::water || family == Family::yeast) {
      return false;
    }
    return whole() || (family != Family::none && family != Family::flavour && has_family(family));
  }

  /// The stand-in at hand and grams of it for one gram; nothing when there is none.
  struct Choice {
    const Ingredient* to = nullptr;
    double ratio = 1.0;
    std::string changes;
    double water = 0.0;  // g beside it
  };
  std::optional<Choice> choice(const Ingredient& from, PartKind part) const {
    const Substitution* best = nullptr;
    for (const Substitution& row : rows_) {
      const Ingredient* to = row.from == from.id ? pantry_.find(row.to) : nullptr;
      // What does not quite do in such a part is better than nothing, and says so.
      if (to != nullptr && has(*to) &&
          (best == nullptr || (!does_in(*best, part) && does_in(row, part)))) {
        best = &row;
      }
    }
    if (best != nullptr) {
      return Choice{pantry_.find(best->to), best->ratio, best->changes, best->water};
    }
    const Ingredient* nearest = nullptr;
    for (const Ingredient* one : there_) {
      if (family_of(*one) == family_of(from) && family_of(from) != Family::none &&
          family_of(from) != Family::flavour && !is_milk_powder(*one) &&
          (nearest == nullptr || apart(from, *one) < apart(from, *nearest))) {
        nearest = one;
      }
    }
    if (nearest == nullptr) {
      return std::nullopt;
    }
    return Choice{nearest, same_work(from, *nearest), "", 0.0};
  }
  const Ingredient* milk_powder() const {
    const auto at = std::find_if(there_.begin(), there_.end(),
                                 [](const Ingredient* one) { return is_milk_powder(*one); });
    return at == there_.end() ? nullptr : *at;
  }

  std::vector<std::string> unknown;

 private:
  /// How unlike two foods are: the sum of what differs in composition.
  static double apart(const Ingredient& a, const Ingredient& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < k_component_count; ++i) {
      const double by = a.composition.fraction[i] - b.composition.fraction[i];
      sum += by < 0.0 ? -by : by;
    }
    return sum;
  }
  /// Fats by their fat, all else weight for weight.
  static double same_work(const Ingredient& from, const Ingredient& to) {
    const double fat = to.composition[Component::fat];
    return from.kind == IngredientKind::fat && fat > 0.0 ? from.composition[Component::fat] / fat
                                                         : 1.0;
  }

  const Pantry& pantry_;
  const std::vector<Substitution> rows_ = substitutions();
  std::vector<const Ingredient*> there_;
};

void put(Line& line, const Ingredient& to, double grams) {
  const double was = line.grams.p50();
  line.grams = was > 0.0 ? line.grams.scaled(grams / was) : point(grams);
  line.ingredient_id = to.id;
  line.name = to.name;
  // "packed" was said of the other.
  if (!line.found.packing.empty() && line.note.find(line.found.packing) != std::string::npos) {
    line.note.clear();
  }
  line.found = {Range{grams, grams}, "g", "", ""};
  line.text = number_text(grams, 1) + " g " + to.name;
}

/// What is looked up and said with while lines are changed.
struct Swapper {
  const Pantry& pantry;
  const CardWords& words;
  StoodIn& out;

  std::string name(const Ingredient& one) const { return words.ingredient(one, pantry, ""); }
  std::string so_much(double grams, const Ingredient& of) const {
    return grams_words(grams, words) + " " + name(of);
  }
  /// Said once, however many parts have it.
  void note(std::string text) const {
    if (std::find(out.notes.begin(), out.notes.end(), text) == out.notes.end()) {
      out.notes.push_back(std::move(text));
    }
  }
};

/// So much of what is dried or thickened and so much water, in place of a milk.
void make_milk(const Swapper& swapper, Part& part, std::size_t at, const Ingredient& milk,
               const Ingredient& from, double from_g, double water_g, const std::string& why) {
  const Ingredient& water = *swapper.pantry.find("water");
  Line& line = part.lines[at];
  const double grams = line.grams.p50();
  Line added = line;
  put(added, from, from_g);
  added.note.clear();
  put(line, water, water_g);
  swapper.out.changes.push_back({swapper.name(milk), swapper.so_much(grams, milk),
                                 swapper.so_much(from_g, from) + " " + swapper.words.say("and") +
                                     " " + swapper.so_much(water_g, water),
                                 why});
  part.lines.insert(part.lines.begin() + static_cast<std::ptrdiff_t>(at) + 1, added);
}

std::string_view yeast_id(std::string_view kind) {
  constexpr std::array<std::array<std::string_view, 2>, 5> k_ids{{
      {"fresh", "fresh_yeast"},
      {"active_dry", "active_dry_yeast"},
      {"instant", "instant_yeast"},
      {"osmotolerant_instant", "osmotolerant_yeast"},
      {"starter", "sourdough_starter"},
  }};
  for (const auto& [name, id] : k_ids) {
    if (name == kind) {
      return id;
    }
  }
  return {};
}

/// That kitchen's yeast does the same work by its activity; a starter does not.
void change_yeast(const Swapper& swapper, Line& line, const Ingredient& theirs) {
  const Ingredient* ours = swapper.pantry.find(line.ingredient_id);
  if (ours == nullptr || ours->yeast.kind == YeastKind::none || !line.weighed ||
      ours->yeast.kind == theirs.yeast.kind) {
    return;
  }
  const CardWords& words = swapper.words;
  if (ours->yeast.kind == YeastKind::starter || theirs.yeast.kind == YeastKind::starter) {
    swapper.note(words.say("note_starter", {swapper.name(*ours), swapper.name(theirs)}));
    return;
  }
  const double from = line.grams.p50();
  const double to = from * ours->yeast.activity / theirs.yeast.activity;
  swapper.out.changes.push_back({swapper.name(*ours), swapper.so_much(from, *ours),
                                 swapper.so_much(to, theirs), words.say("why_yeast")});
  put(line, theirs, to);
}

void change_line(const Swapper& swapper, const Larder& larder, Part& part, std::size_t at) {
  Line& line = part.lines[at];
  const Ingredient* one = swapper.pantry.find(line.ingredient_id);
  if (one == nullptr || !line.weighed || !larder.lacks(*one)) {
    return;
  }
  const Ingredient* powder = larder.milk_powder();
  if (one->kind == IngredientKind::dairy && one->composition[Component::water] > 0.8 &&
      powder != nullptr) {
    // Its solids, and water for the rest.
    const double solids = line.grams.p50() * (1.0 - one->composition[Component::water]);
    const double powder_g = solids / (1.0 - powder->composition[Component::water]);
    make_milk(swapper, part, at, *one, *powder, powder_g, line.grams.p50() - powder_g,
              swapper.words.say("why_powder"));
    return;
  }
  const double grams = line.grams.p50();
  const CardWords& words = swapper.words;
  if (const auto choice = larder.choice(*one, part.kind)) {
    if (choice->water > 0.0) {
      make_milk(swapper, part, at, *one, *choice->to, grams * choice->ratio, grams * choice->water,
                words.stand_in_text(choice->changes));
      return;
    }
    swapper.out.changes.push_back(
        {swapper.name(*one), swapper.so_much(grams, *one),
         swapper.so_much(grams * choice->ratio, *choice->to),
         choice->changes.empty() ? words.say("why_kind") : words.stand_in_text(choice->changes)});
    put(line, *choice->to, grams * choice->ratio);
    return;
  }
  swapper.note(words.say(family_of(*one) == Family::flavour ? "note_leave_out" : "note_not_there",
                         {swapper.name(*one)}));
}

}  // namespace

StoodIn with_what_is_there(const Recipe& recipe, const Pantry& pantry, const Kitchen& kitchen,
                           const CardWords& words) {
  StoodIn out{recipe, {}, {}};
  const Swapper swapper{pantry, words, out};
  const Larder larder(pantry, kitchen);
  for (const std::string& name : larder.unknown) {
    swapper.note(words.say("note_unknown", {name}));
  }
  const Ingredient* yeast = pantry.find(yeast_id(kitchen.yeast_kind));
  for (Part& part : out.recipe.parts) {
    // Milk made from powder adds a line after the one it is made for.
    for (std::size_t i = 0; i < part.lines.size(); ++i) {
      change_line(swapper, larder, part, i);
      if (yeast != nullptr) {
        change_yeast(swapper, part.lines[i], *yeast);
      }
    }
  }
  return out;
}

}  // namespace maslin::handon
