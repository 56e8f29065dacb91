#include "reading/resolve.h"

#include <algorithm>

#include "quantity/table.h"
#include "reading/settle_yeast.h"

namespace maslin::reading {
namespace {

/// Whether the part's own name stands at token `i`.
bool names_part(const Text& text, std::size_t i, const Text& name) {
  std::size_t at = i;
  std::size_t words = 0;
  for (std::size_t n = 0; n < name.size(); ++n) {
    if (name[n].kind != TokenKind::word) {
      continue;
    }
    if (text[at].word != name[n].word) {
      return false;
    }
    ++at;
    ++words;
  }
  return words > 0;
}

/// The other part that "all of the sponge", "300 g of the orange syrup" means.
const DraftPart* part_meant(const Draft& draft, const DraftPart& here, const DraftLine& line,
                            const Lexicons& lexicons, const Lexicon& lexicon) {
  const std::string name = folded_name(line.line.name);
  for (const DraftPart& part : draft.parts) {
    if (&part != &here && !name.empty() && folded_name(part.name) == name && !part.lines.empty()) {
      return &part;
    }
  }
  const Text text = tokenise(line.line.text, lexicons, lexicon);
  std::size_t the = text.size();
  const auto measure = any_measure(text, 0);
  std::size_t lead = measure ? measure->to : 0;
  lead = is_class(text, lead, WordClass::of) ? lead + 1 : lead;
  if (is_class(text, lead, WordClass::the) || is_class(text, lead, WordClass::rest)) {
    the = lead;
  }
  const bool starter =
      line.ingredient != nullptr && line.ingredient->yeast.kind == YeastKind::starter;
  if (the == text.size() && line.ingredient != nullptr && !starter) {
    return nullptr;
  }
  const std::size_t from = the == text.size() ? 0 : the;
  for (std::size_t i = from; i < text.size() && i < from + 8; ++i) {
    for (const DraftPart& part : draft.parts) {
      if (&part != &here && names_part(text, i, tokenise(part.name, lexicons, lexicon))) {
        return &part;
      }
    }
    const Match word = match(text, i, WordClass::part);
    const auto kind = word ? part_kind_from(word.phrase->means) : std::nullopt;
    if (!kind || *kind == PartKind::dough || *kind == here.kind) {
      continue;
    }
    for (const DraftPart& part : draft.parts) {
      if (&part != &here && part.kind == *kind && !part.lines.empty()) {
        return &part;
      }
    }
  }
  return nullptr;
}

/// The food of the pantry whose name has most words of an unknown one, the last, which is
/// the thing itself, counted double; null when none has any.
const Ingredient* nearest_food(std::string_view name, const Pantry& pantry) {
  const std::string folded = folded_name(name);
  const std::vector<std::string_view> words = split(folded, ' ');
  const Ingredient* nearest = nullptr;
  double best = 0.0;
  const auto hold = [&](const std::string& known, const Ingredient& food) {
    const std::string other = folded_name(known);
    const std::vector<std::string_view> has = split(other, ' ');
    double score = 0.0;
    for (std::size_t i = 0; i < words.size(); ++i) {
      const bool shared =
          words[i].size() > 2 && std::find(has.begin(), has.end(), words[i]) != has.end();
      score += !shared ? 0.0 : i + 1 == words.size() && words[i] == has.back() ? 2.0 : 1.0;
    }
    score -= 0.1 * static_cast<double>(has.size());
    if (score > best + 0.5 * (nearest == nullptr ? 1.0 : 0.0)) {
      best = score;
      nearest = &food;
    }
  };
  for (const Ingredient& food : pantry.ingredients()) {
    hold(food.name, food);
    for (const std::string& alias : food.aliases) {
      hold(alias, food);
    }
  }
  return nearest;
}

void doubt_names(DraftLine& line, const Pantry& pantry) {
  if (line.ingredient == nullptr && line.line.part.empty()) {
    const Ingredient* nearest = nearest_food(line.line.name, pantry);
    line.doubts.push_back(
        {line.line.text,
         "no ingredient of this name is known: it is left out "
         "of every figure; name it otherwise" +
             (nearest == nullptr ? std::string() : ", perhaps " + nearest->name)});
  } else if (line.mended && line.ingredient != nullptr) {
    line.doubts.push_back({line.line.text, "read as " + line.ingredient->name});
  }
  const bool flour = line.ingredient != nullptr && line.ingredient->kind == IngredientKind::flour;
  const bool uncounted = !line.measure || !line.measure->number;
  if (flour && uncounted && (line.purpose.empty() || line.purpose == "need") &&
      !line.same_as_before) {
    line.doubts.push_back({line.line.text,
                           "no amount of flour is said: the dough's feel cannot "
                           "be told until you weigh it"});
  }
}

bool is_counted_kind(const Ingredient& ingredient) {
  return ingredient.kind == IngredientKind::egg || ingredient.kind == IngredientKind::fruit ||
         ingredient.kind == IngredientKind::vegetable || ingredient.kind == IngredientKind::potato;
}

// Of things that are not counted nobody takes so many pieces.
constexpr double k_fewest_grams = 5.0;
// Nor so many of anybody's measures, in a text that names no grams: "butter 50".
constexpr double k_surely_grams = 25.0;

/// "BREAD FLOUR 100% / WATER 68 / SALT 2": the sign is said once.
bool settle_bare_shares(Draft& draft) {
  bool whole = false;
  std::size_t bare = 0;
  const auto is_bare = [](const DraftLine& line) {
    return line.measure && line.measure->number && line.measure->unit.empty() &&
           line.portion_word.empty() && line.ingredient != nullptr;
  };
  for (const DraftPart& part : draft.parts) {
    for (const DraftLine& line : part.lines) {
      whole = whole ||
              (line.measure && line.measure->unit == "percent" && line.measure->middle() == 100.0);
      bare += is_bare(line) ? 1U : 0U;
    }
  }
  if (!whole || bare < 2) {
    return false;
  }
  for (DraftPart& part : draft.parts) {
    for (DraftLine& line : part.lines) {
      if (is_bare(line)) {
        line.measure->unit = "percent";
        line.line.found.unit = "percent";
      }
    }
  }
  draft.doubts.push_back({draft.title, "numbers stand without a sign: per cent was taken"});
  return true;
}

/// "Flour 375, salt 7": bare numbers of a baker's note are grams when the flour's is.
void settle_bare_numbers(Draft& draft) {
  if (settle_bare_shares(draft)) {
    return;
  }
  const auto bare = [](const DraftLine& line) {
    return line.ingredient != nullptr && line.measure && line.measure->number &&
           line.measure->unit.empty() && line.portion_word.empty();
  };
  bool grams = false;
  for (const DraftPart& part : draft.parts) {
    for (const DraftLine& line : part.lines) {
      grams = grams || (bare(line) && line.ingredient->kind == IngredientKind::flour &&
                        line.measure->middle() >= 40.0);
    }
  }
  // "Five hundred grams of flour, three hundred of water": said once, meant throughout.
  bool said = false;
  for (const DraftPart& part : draft.parts) {
    for (const DraftLine& line : part.lines) {
      said = said || (line.measure && (line.measure->unit == "g" || line.measure->unit == "kg"));
    }
  }
  for (DraftPart& part : draft.parts) {
    for (DraftLine& line : part.lines) {
      const bool poured = !grams && bare(line) && !is_counted_kind(*line.ingredient) &&
                          line.measure->middle() >= (said ? k_fewest_grams : k_surely_grams);
      if (poured && !line.measure->bare_article) {
        line.measure->unit = "g";
        line.line.found.unit = "g";
        line.doubts.push_back({line.line.text, "no unit is said: grams were taken"});
      }
      const bool few = grams && bare(line) && is_counted_kind(*line.ingredient) &&
                       line.measure->middle() <= 12.0;
      if (grams && bare(line) && !few) {
        line.measure->unit = "g";
        line.line.found.unit = "g";
      }
    }
  }
  if (grams) {
    draft.doubts.push_back({draft.title, "numbers stand without a unit: grams were taken"});
  }
}

bool is_used(const Draft& draft, const DraftPart& part) {
  for (const DraftPart& other : draft.parts) {
    for (const DraftLine& line : other.lines) {
      if (line.line.part == part.name) {
        return true;
      }
    }
  }
  return false;
}

bool has_kind(const DraftPart& part, IngredientKind kind) {
  return std::any_of(part.lines.begin(), part.lines.end(), [kind](const DraftLine& line) {
    return line.ingredient != nullptr && line.ingredient->kind == kind;
  });
}

/// "For the pesto:" beside a dough: what holds neither flour nor yeast nor a liquid is put into it.
void settle_guessed_parts(Draft& draft) {
  const bool dough = std::any_of(draft.parts.begin(), draft.parts.end(), [](const DraftPart& part) {
    return part.kind == PartKind::dough && !part.guessed && has_kind(part, IngredientKind::flour);
  });
  for (DraftPart& part : draft.parts) {
    if (dough && part.guessed && !part.lines.empty() && !has_kind(part, IngredientKind::flour) &&
        !has_kind(part, IngredientKind::yeast) && !has_kind(part, IngredientKind::water) &&
        !has_kind(part, IngredientKind::dairy)) {
      part.kind = PartKind::filling;
    }
  }
}

/// A sponge or a soaker that no line of the dough names goes into it all the same.
void use_what_was_made(Draft& draft) {
  const auto dough = std::find_if(
      draft.parts.begin(), draft.parts.end(),
      [](const DraftPart& part) { return part.kind == PartKind::dough && !part.lines.empty(); });
  if (dough == draft.parts.end()) {
    return;
  }
  for (const DraftPart& part : draft.parts) {
    const bool goes_in = part.kind == PartKind::preferment || part.kind == PartKind::soaker ||
                         part.kind == PartKind::extract;
    if (!goes_in || part.lines.empty() || is_used(draft, part)) {
      continue;
    }
    DraftLine line;
    line.line.part = part.name;
    line.line.name = part.name;
    line.line.text = "all of the " + part.name;
    line.doubts.push_back({part.name,
                           "no line says where it goes: all of it was taken to go into "
                           "the dough"});
    dough->lines.push_back(std::move(line));
  }
}

}  // namespace

void resolve(Draft& draft, const std::vector<PlaceShare>& places, const Lexicons& lexicons) {
  if (draft.texts.empty()) {
    return;
  }
  const Lexicon& lexicon = *draft.texts.front().lexicon;
  settle_guessed_parts(draft);
  settle_bare_numbers(draft);
  settle_bare_cups(draft);
  for (DraftPart& part : draft.parts) {
    for (DraftLine& line : part.lines) {
      if (draft.parts.size() > 1) {
        const DraftPart* other = part_meant(draft, part, line, lexicons, lexicon);
        // "Old dough" is a thing of its own although a part is called dough.
        const bool own_name = other != nullptr &&
                              lexicons.pantry->named(line.line.name) != nullptr &&
                              folded_name(line.line.name) != folded_name(other->name);
        // The dough goes into no topping.
        const bool upside_down = other != nullptr && other->kind == PartKind::dough &&
                                 (part.kind == PartKind::topping || part.kind == PartKind::wash ||
                                  part.kind == PartKind::glaze);
        if (other != nullptr && !own_name && !upside_down) {
          line.line.part = other->name;
          line.ingredient = nullptr;
          line.line.ingredient_id.clear();
          line.doubts.clear();
        }
      }
    }
  }
  settle_yeasts(draft, places, *lexicons.pantry);
  for (DraftPart& part : draft.parts) {
    for (DraftLine& line : part.lines) {
      doubt_names(line, *lexicons.pantry);
    }
  }
  use_what_was_made(draft);
}

}  // namespace maslin::reading
