#include "reading/prose.h"

#include <algorithm>

#include "reading/amounts.h"
#include "reading/behind_name.h"
#include "reading/draft_line.h"
#include "reading/made_up.h"
#include "reading/own_amount.h"
#include "reading/setting.h"

namespace maslin::reading {
namespace {

/// The end of what is not an amount of food at `i`: a time, a heat, a length.
std::size_t setting_end(const Text& text, std::size_t i) {
  if (const auto time = any_time(text, i)) {
    return time->end;
  }
  if (const auto heat = any_heat(text, i)) {
    return heat->end;
  }
  const auto size = any_size(text, i);
  return size ? size->end : i;
}

/// "half the butter", "1 teaspoon of the sugar", "the remaining 50 g".
bool points_back(const Text& text, const FoundMeasure& measure) {
  std::size_t at = measure.to;
  at = is_class(text, at, WordClass::of) ? at + 1 : at;
  const Match name = match_name(text, at);
  if (name && name.end > at + 1) {
    return false;  // "of all purpose flour"
  }
  if (measure.number && unit_kind(measure.unit) == UnitKind::container) {
    return false;  // "1 packet of that quick yeast": a packet is no share of what was said
  }
  if (const Match said = match(text, at, WordClass::note); said && said.end > at + 1) {
    return false;  // "of the best flour"
  }
  if (is_class(text, at, WordClass::the) || is_class(text, at, WordClass::rest)) {
    return true;
  }
  return measure.from > 0 && is_class(text, measure.from - 1, WordClass::rest);
}

/// "2 tbsp vegemite": a weight or volume of something nobody knows.
bool is_unknown_food(const Text& text, const FoundMeasure& measure, std::size_t to) {
  const UnitKind kind = unit_kind(measure.unit);
  std::size_t at = measure.to;
  at = is_class(text, at, WordClass::of) ? at + 1 : at;
  if (!measure.number || (kind != UnitKind::mass && kind != UnitKind::volume) || at >= to ||
      text[at].kind != TokenKind::word || text[at].word.size() < 4) {
    return false;
  }
  return text[at].own == nullptr && text[at].name == nullptr;
}

/// Where what is said of a mention ends: the next comma, full stop, "and" or amount.
std::size_t mention_end(const Text& text, std::size_t name_end, std::size_t to) {
  std::size_t i = name_end;
  for (; i < to; ++i) {
    const Token& token = text[i];
    // "butter the size of an egg"
    if (const Match size = match(text, i, WordClass::size_of)) {
      i = size.end + 1;
      continue;
    }
    if (token.is('(')) {
      while (i < to && !text[i].is(')')) {
        ++i;
      }
      continue;
    }
    // "in a cup of warm milk dissolve half a cake of yeast"
    if (const Match verb = match(text, i, WordClass::verb);
        verb && !is_class(text, i, WordClass::note) && any_measure(text, verb.end)) {
      break;
    }
    // "a fistful of sugar - call it a hundred grams"
    const bool again = token.is('-') && token.spaced && is_class(text, i + 1, WordClass::approx);
    // "30 g pepper – a pinch of salt – warm water"
    const bool row = token.is('-') && token.spaced && text[i + 1].spaced &&
                     (any_measure(text, i + 1) || match_name(text, i + 1));
    const bool stop =
        row || (token.kind == TokenKind::mark && !token.is('\'') && !token.is('-')) || again;
    if (stop || token.fresh || is_class(text, i, WordClass::join) ||
        is_class(text, i, WordClass::stop) || token.is_number()) {
      // "flour to make a stiff batter", "flour enough to make"
      // "crack three eggs over that" is no topping.
      const Match purpose = match(text, i, WordClass::purpose);
      const bool over =
          purpose && purpose.end == i + 1 && text[purpose.end].kind == TokenKind::word;
      if (purpose && !over) {
        i = purpose.end - 1;
        continue;
      }
      break;
    }
  }
  return i;
}

/// "No, make it two": a later word on the amount of what was said last. The token after
/// it, or `i` when it is none.
std::size_t take_correction(const Text& text, std::size_t i, std::size_t to,
                            std::vector<Mention>& mentions) {
  const Match correct = match(text, i, WordClass::correct);
  if (!correct || mentions.empty()) {
    return i;
  }
  const std::size_t at = text[correct.end].is(',') ? correct.end + 1 : correct.end;
  const auto measure = any_measure(text, at);
  std::size_t where = 0;
  if (!measure || !measure->number || measure->to > to) {
    return i;
  }
  DraftLine& line = mentions.back().line;
  const auto name = name_near(text, measure->to, to, where);
  if (!line.measure || (name && name->phrase->ingredient != line.ingredient)) {
    return i;
  }
  line.measure->number = measure->number;
  line.measure->unit = measure->unit.empty() ? line.measure->unit : measure->unit;
  line.line.found.number = measure->number;
  line.line.found.unit = std::string(line.measure->unit);
  line.line.note += (line.line.note.empty() ? "" : ", ") + std::string(text.slice(i, measure->to));
  return name ? name->end : measure->to;
}

/// "each 1 tsp salt and sugar and 50 g butter": the amount is said of what stands before the next
/// amount.
std::size_t each_end(const Text& text, std::size_t from, std::size_t to) {
  const auto amount = any_measure(text, from + 1);
  if (!amount) {
    return from;
  }
  std::size_t end = amount->to;
  while (end < to && !text[end].is_number()) {
    ++end;
  }
  while (end < to && end > from && is_class(text, end - 1, WordClass::join)) {
    --end;
  }
  return end;
}

/// "je einem Esslöffel": an amount in words with its unit.
bool leads_amount(const Text& text, std::size_t i) {
  const auto amount = any_measure(text, i);
  return amount && amount->number && !amount->unit.empty() &&
         unit_kind(amount->unit) != UnitKind::loose;
}

/// Past a row of names with commas between: "salt, pepper, ground ginger and mace".
std::size_t row_end(const Text& text, std::size_t i, std::size_t to) {
  std::size_t end = i;
  while (end < to) {
    if (text[end].is(',')) {
      std::size_t next = end + 1;
      const std::size_t last = next + 3;  // a name, or what is said of one before it
      while (next < last && text[next].kind == TokenKind::word && !match_name(text, next) &&
             !is_class(text, next, WordClass::verb)) {
        ++next;
      }
      if (!match_name(text, next)) {
        break;
      }
    } else if (text[end].kind == TokenKind::mark && !text[end].is('&')) {
      break;
    }
    ++end;
  }
  return end;
}

/// "raisins & peel, 300 g milk": the part is a thing of its own, nothing follows that it is of.
bool ends_part(const Text& text, std::size_t i) {
  const Match part = match(text, i, WordClass::part_of);
  return part && (text[part.end].is(',') || text[part.end].is(')') ||
                  text[part.end].kind == TokenKind::end);
}

/// "butter, lump the size of an egg": past the comma and the word for a lump.
std::size_t size_at(const Text& text, std::size_t i) {
  std::size_t at = i + (text[i].is(',') ? 1U : 0U);
  at += is_class(text, at, WordClass::article) ? 1U : 0U;
  const Match lump = match(text, at, WordClass::unit);
  at = lump && lump.phrase->means == "knob" ? lump.end : at;
  return is_class(text, at, WordClass::size_of) ? at : i;
}

/// "Flour 500 g Yeast 50 g": the first two amounts stand right behind names, no mark between.
bool has_turns(const Text& text, std::size_t from, std::size_t to) {
  constexpr std::size_t k_longest_name = 4;
  std::size_t turns = 0;
  for (std::size_t i = from; i < to && turns < 2; ++i) {
    if (!text[i].is_number() || (turns == 0 && i + 1 < to && text[i + 1].is('.') && i < from + 2)) {
      continue;  // "1. Farina 500 g"
    }
    bool named = false;
    for (std::size_t k = i > from + k_longest_name ? i - k_longest_name : from; k < i; ++k) {
      const Match name = match_name(text, k);
      named = named || (name && name.end == i);
    }
    const auto measure = named ? any_measure(text, i) : std::nullopt;
    if (!measure || measure->unit.empty()) {
      return false;
    }
    ++turns;
    i = measure->to - 1;
  }
  return turns == 2;
}

bool is_unamounted(const Text& text, std::size_t i, std::size_t name_end, std::size_t from) {
  const Match purpose = match(text, name_end, WordClass::purpose);
  if (purpose) {
    return true;
  }
  if (i == from) {
    return false;
  }
  if (is_class(text, i - 1, WordClass::loose)) {
    return true;
  }
  // "Brush with honey", "sprinkle over sesame seeds".
  if (!is_class(text, i - 1, WordClass::stop) || is_class(text, i - 1, WordClass::to)) {
    return false;
  }
  for (std::size_t back = i >= from + 4 ? i - 4 : from; back + 1 < i; ++back) {
    const Match verb = match(text, back, WordClass::verb);
    if (verb && verb.phrase->means == "finish" && !text[back].is(',')) {
      return true;
    }
  }
  return false;
}

}  // namespace

std::vector<Mention> read_mentions(Text& text, std::size_t from, std::size_t to) {
  std::vector<Mention> out;
  const bool by_turns = has_turns(text, from, to);
  for (std::size_t i = from; i < to;) {
    if (const std::size_t end = setting_end(text, i); end > i) {
      i = end;
      continue;
    }
    const bool part =
        (is_class(text, i, WordClass::part_of) ||
         (is_class(text, i, WordClass::the) && (is_class(text, i + 1, WordClass::part_of) ||
                                                (is_class(text, i + 1, WordClass::note) &&
                                                 is_class(text, i + 2, WordClass::part_of))))) &&
        !ends_part(text, i) && !part_of(text, i, to).parts.empty();
    if (const std::size_t end = take_correction(text, i, to, out); end > i) {
      i = end;
      continue;
    }
    // "the size of a walnut x2": so many times what was said, no count of what comes next.
    if (i > from && text[i].is_number() && !text[i].spaced && text[i - 1].word == "x") {
      if (!out.empty() && out.back().line.portion_word.starts_with("size of") &&
          out.back().line.measure) {
        const Range times{text[i].value, text[i].value};
        out.back().line.measure->number = times;
        out.back().line.line.found.number = times;
      }
      ++i;
      continue;
    }
    // "with each 1 tsp salt and sugar"
    if (is_class(text, i, WordClass::each) &&
        (text[i + 1].is_number() || leads_amount(text, i + 1))) {
      const std::size_t end = each_end(text, i, row_end(text, i + 1, to));
      std::vector<DraftLine> lines = end > i ? read_each(text, i, end) : std::vector<DraftLine>();
      if (lines.size() > 1) {
        for (DraftLine& line : lines) {
          out.push_back({std::move(line), i, end, true});
        }
        i = end;
        continue;
      }
    }
    const auto measure = part ? std::nullopt : any_measure(text, i);
    if (measure && points_back(text, *measure)) {
      i = measure->to;
      continue;
    }
    // "For two loaves of bread, three quarts of flour …"
    if (measure && i > from && is_class(text, i - 1, WordClass::lead) && measure->number &&
        (is_class(text, measure->to - 1, WordClass::piece) ||
         is_class(text, measure->to, WordClass::piece))) {
      i = measure->to;
      i += is_class(text, i, WordClass::piece) ? 1U : 0U;
      i += is_class(text, i, WordClass::of) ? 2U : 0U;
      continue;
    }
    if (measure && is_class(text, measure->to, WordClass::each)) {
      std::size_t end = measure->to + 1;
      while (end < to && (text[end].kind != TokenKind::mark || text[end].is('&'))) {
        ++end;
      }
      for (DraftLine& line : read_each(text, i, end)) {
        out.push_back({std::move(line), i, end, true});
      }
      i = end;
      continue;
    }
    std::size_t where = i;
    if (measure) {
      // "250 g (8 oz) strong white flour"
      const std::size_t after = text[measure->to].is('(') || text[measure->to].is('/')
                                    ? std::max(measure->to, amounts_at(text, i, to).end)
                                    : measure->to;
      const auto name = name_near(text, after, to, where);
      const bool counted = measure->unit.empty();
      const bool unknown = !name && is_unknown_food(text, *measure, to);
      if (!unknown && (!name || (counted && !counts_whole(text, *name->phrase->ingredient)))) {
        i = std::max(measure->to, i + 1);
        continue;
      }
      std::size_t end = mention_end(text, unknown ? measure->to + 1 : name->end, to);
      if (unit_kind(measure->unit) == UnitKind::loose) {
        // "a bit of lard, two ounces say", "some flour--about half a pint in quantity"
        end = std::max({end, amount_after(text, end, to), late_amount(text, end, to)});
      }
      end = own_amount_end(text, std::max(end, made_up_end(text, i, to)), to);
      std::vector<DraftLine> lines = read_ingredient(text, i, end);
      for (DraftLine& line : lines) {
        // "A teaspoon of salt and two of yeast"
        const bool elliptic = counted && is_class(text, measure->to, WordClass::of) &&
                              !out.empty() && line.measure && line.measure->unit.empty() &&
                              out.back().line.measure;
        if (elliptic) {
          line.measure->unit = out.back().line.measure->unit;
          line.line.found.unit = std::string(line.measure->unit);
        }
        const bool amount = line.measure && line.measure->number;
        out.push_back({std::move(line), i, end, amount});
      }
      i = std::max(end, i + 1);
      continue;
    }
    if (part) {
      const std::size_t end = mention_end(text, i + 2, to);
      std::vector<DraftLine> lines = read_ingredient(text, i, to);
      if (!lines.empty() && lines.front().measure) {
        for (DraftLine& line : lines) {
          line.line.text = std::string(text.slice(i, std::max(end, i + 5)));
          out.push_back({std::move(line), i, end, true});
        }
        i = std::max(end, i + 4);
        continue;
      }
    }
    if (const Match name = match_name(text, i)) {
      std::size_t said = name.end;  // "the milk, lukewarm, 250 ml"
      while (said < to && is_class(text, said, WordClass::note)) {
        ++said;
      }
      const std::size_t after =
          std::max(amount_after(text, said, to, by_turns), bracket_after(text, said, to));
      std::size_t told = std::max(after > said ? after : name.end, count_after(text, name, to));
      told = told > name.end ? told : late_amount(text, name.end, to);
      if (told > name.end) {
        const std::size_t end =
            own_amount_end(text, std::max(told, made_up_end(text, told, to)), to);
        for (DraftLine& line : read_ingredient(text, i, end)) {
          out.push_back({std::move(line), i, end, true});
        }
        i = end;
        continue;
      }
      // "Flour 500 g Yeast 50 g water and salt": the last have none.
      const bool in_row = by_turns && !out.empty() &&
                          (out.back().to == i ||
                           (out.back().to + 1 == i && is_class(text, i - 1, WordClass::join)));
      if (in_row) {
        for (DraftLine& line : read_ingredient(text, i, name.end)) {
          out.push_back({std::move(line), i, name.end, false});
        }
        i = name.end;
      } else if (is_class(text, size_at(text, name.end), WordClass::size_of) ||
                 is_unamounted(text, i, name.end, from)) {
        const std::size_t end = mention_end(text, size_at(text, name.end), to);
        for (DraftLine& line : read_ingredient(text, i, end)) {
          out.push_back({std::move(line), i, end, false});
        }
        i = std::max(end, name.end);
      } else {
        i = name.end;
      }
      continue;
    }
    ++i;
  }
  return out;
}

}  // namespace maslin::reading
