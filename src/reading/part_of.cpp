#include "reading/draft_line.h"

#include <algorithm>
#include <iterator>

namespace maslin::reading {

PartOf part_of(const Text& text, std::size_t i, std::size_t to) {
  PartOf out;
  std::size_t article = to;
  i += is_class(text, i, WordClass::of) ? 1U : 0U;  // "1 cdita de ralladura de naranja"
  while (i < to) {
    // "strong white 450 g": the white of a flour's name.
    if (const Match name = match_name(text, i);
        name && name.end > i + 1 && name.phrase->ingredient->kind == IngredientKind::flour) {
      return {};
    }
    if (const Match part = match(text, i, WordClass::part_of)) {
      // "la scorza" "grattugiata": one part in two words
      if (out.parts.empty() || out.parts.back() != part.phrase->means) {
        out.parts.push_back(part.phrase->means);
      }
      i = part.end;
    } else if (is_class(text, i, WordClass::note) || is_class(text, i, WordClass::the) ||
               is_class(text, i, WordClass::article) || is_class(text, i, WordClass::packing) ||
               (is_class(text, i, WordClass::join) && !out.parts.empty()) || text[i].is('&') ||
               (is_class(text, i, WordClass::plus) && !out.parts.empty())) {
      article = is_class(text, i, WordClass::article) && !out.parts.empty() ? i : article;
      ++i;
    } else {
      break;
    }
  }
  Match of = match(text, i, WordClass::of);
  // "Seeds from 1 vanilla bean"
  if (const Match from = match(text, i, WordClass::stop);
      !of && from && text[from.end].is_number()) {
    of = from;
  }
  const auto share = of ? std::nullopt : any_number(text, i);
  // "Abgeriebene Schale einer Zitrone": the ending says "of".
  const Match whose = !of && article < to ? match_name(text, i) : Match{};
  if (whose && whose.phrase->ingredient->kind == IngredientKind::fruit) {
    out.end = article;
    return out;
  }
  // "4 yolks and 1 whole egg": the egg is another thing.
  const bool joined = !of && i > 0 && is_class(text, i - 1, WordClass::join);
  if (out.parts.empty() || joined || (!of && (!share || share->article))) {
    return {};
  }
  out.end = of ? of.end : i;  // "Juice 1 lemon"
  return out;
}

bool take_part(DraftLine& line, std::string_view part, const Pantry& pantry) {
  if (line.ingredient == nullptr) {
    return false;
  }
  const Ingredient& food = *line.ingredient;
  const Ingredient* found = pantry.find(food.id + "_" + std::string(part));
  const bool measured = line.measure && unit_kind(line.measure->unit) == UnitKind::volume;
  if (found == nullptr && part == "juice" && food.kind == IngredientKind::fruit && measured) {
    // Sweet and mild, as most juices that are poured into a dough.
    found = pantry.find("apple_juice");
    if (found != nullptr) {
      line.doubts.push_back({line.line.text, "the pantry knows no juice of " + food.name +
                                                 ": the figures of " + found->name +
                                                 " were taken; press your own as a part of the "
                                                 "recipe to have it worked out"});
    }
  }
  if (found == nullptr) {
    return false;
  }
  line.ingredient = found;
  line.line.ingredient_id = found->id;
  return true;
}

std::vector<DraftLine> lines_of_parts(Text& text, std::size_t from, std::size_t to,
                                      const PartOf& parts,
                                      const std::optional<FoundMeasure>& before) {
  std::vector<DraftLine> out;
  Amounts amounts = amounts_at(text, parts.end, to);
  const std::size_t at = amounts.primary ? amounts.end : parts.end;
  // "The yolks of 4 and the whites of 2 eggs": the noun is said once, with the second.
  std::vector<DraftLine> second;
  if (amounts.primary && is_class(text, at, WordClass::join)) {
    if (const PartOf next = part_of(text, at + 1, to); !next.parts.empty()) {
      second = lines_of_parts(text, at + 1, to, next, std::nullopt);
    }
  }
  Noun noun = find_noun(text, at, to);
  if (!second.empty() && second.front().ingredient != nullptr) {
    const std::string& id = second.front().ingredient->id;  // egg_white: of an egg
    noun.ingredient = text.lexicons->pantry->find(id.substr(0, id.rfind('_')));
  }
  if (noun.ingredient == nullptr) {
    return out;
  }
  // "Juice of lemon 50 ml"
  if (!amounts.primary && !before) {
    // "Ralladura de naranja: 1 cucharada", "juice of lemon - 2 tbsp"
    const Token& mark = text[noun.match_to];
    const bool apart = mark.is(',') || mark.is(':') || mark.is('-') || mark.is('=') || mark.is('|');
    std::size_t after_name = apart ? noun.match_to + 1 : noun.match_to;
    while (is_class(text, after_name, WordClass::note) ||
           is_class(text, after_name, WordClass::packing)) {
      ++after_name;  // "peel of orange, grated 2 tsp"
    }
    if (Amounts after = amounts_at(text, after_name, to);
        after.primary && (!after.primary->unit.empty() ||
                          (after.primary->number && !after.primary->bare_article &&
                           trim_back(text, after_name, to) <= after.end))) {  // "zest of orange 1"
      amounts = std::move(after);
    }
  }
  if (amounts.primary && amounts.primary->bare_article) {
    amounts.primary->bare_article = false;
  }
  if (before && before->number) {  // "1 tsp zest of a lemon"
    amounts.primary = before;
  }
  for (const std::string_view part : parts.parts) {
    DraftLine line = one_line(text, from, to, amounts, noun, to);
    if (!take_part(line, part, *text.lexicons->pantry)) {
      line.doubts.push_back({line.line.text, "the " + std::string(part) + " of " +
                                                 noun.ingredient->name +
                                                 " is not in the pantry: weighed as the whole"});
    }
    line.line.name = std::string(part) + " of " + line.line.name;
    if (line.line.found.unit.empty() && line.line.found.number) {
      line.line.found.unit = "piece";
      line.measure->unit = "piece";
    }
    out.push_back(std::move(line));
  }
  if (!second.empty()) {
    for (DraftLine& line : out) {
      line.line.text = std::string(text.slice(from, at));
      line.line.name = std::string(parts.parts.front()) + " of " +
                       std::string(text.slice(noun.match_from, noun.match_to));
      line.line.note.clear();
    }
    std::move(second.begin(), second.end(), std::back_inserter(out));
    return out;
  }
  // "The zest of an orange and of a lemon".
  std::size_t next = noun.to;
  if (is_class(text, next, WordClass::join) || text[next].is('&')) {
    next = is_class(text, next + 1, WordClass::of) ? next + 2 : next + 1;
    const auto more = any_measure(text, next);
    if (next < to && more && more->number && more->unit.empty()) {
      for (DraftLine& line : lines_of_parts(text, from, to, {parts.parts, next}, std::nullopt)) {
        out.push_back(std::move(line));
      }
    }
  }
  return out;
}

std::vector<std::string_view> parts_after(const Text& text, const Noun& noun, std::size_t to) {
  std::vector<std::string_view> out;
  const bool fruit = noun.ingredient != nullptr && noun.ingredient->kind == IngredientKind::fruit;
  for (std::size_t i = noun.match_to; fruit && i < to; ++i) {
    if (const Match part = match(text, i, WordClass::part_of)) {
      if (std::find(out.begin(), out.end(), part.phrase->means) == out.end()) {
        out.push_back(part.phrase->means);  // "lemon, rind of, or orange rind"
      }
      i = part.end - 1;
    }
  }
  return out;
}

}  // namespace maslin::reading
