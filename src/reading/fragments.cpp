#include "reading/fragments.h"

#include <algorithm>

#include "reading/bare_names.h"
#include "reading/draft_line.h"
#include "reading/line_shape.h"
#include "reading/pieces.h"

namespace maslin::reading {
namespace {

/// "Flour, bread      12 lb": a name turned round, its amount in a column after it.
bool is_inverted(const Text& text, const std::vector<Piece>& pieces) {
  if (pieces.size() < 2 || pieces.size() > 4) {
    return false;
  }
  for (std::size_t n = 0; n + 1 < pieces.size(); ++n) {
    const LineLook look = look_at(text, pieces[n].span.from, pieces[n].span.to);
    if (look.measure_first || look.measure_inside || look.words > 2 ||
        pieces[n + 1].cut != Cut::comma) {
      return false;
    }
  }
  const Span& last = pieces.back().span;
  for (std::size_t i = last.from; i < last.to; ++i) {
    if (text[i].wide && text[i].is_number()) {
      return i <= last.from + 3;
    }
  }
  return false;
}

/// The token where another "NAME AMOUNT" begins after the first one's amount, `to` if none.
std::size_t next_pair(const Text& text, std::size_t from, std::size_t to) {
  const LineLook look = look_at(text, from, to);
  if (!look.name_first || look.measure_first || !look.measure_inside) {
    return to;
  }
  const std::size_t inner = inner_measure(text, from, to);
  const Amounts amounts = amounts_at(text, inner, to);
  for (std::size_t i = amounts.end; i > inner && i < std::min(to, amounts.end + 3); ++i) {
    if (text[i].kind == TokenKind::mark) {
      return to;
    }
    const Match name = match_name(text, i);
    if (!name) {
      continue;
    }
    std::size_t at = name.end;
    while (at < to && (text[at].is('-') || text[at].is(':'))) {
      ++at;
    }
    const auto measure = at < to && text[at].is_number() ? any_measure(text, at) : std::nullopt;
    return measure && !measure->unit.empty() ? amounts.end : to;
  }
  return to;
}

/// "50 sugar 50 water": the token where the amount of another thing begins, `to` if none.
std::size_t next_counted(const Text& text, std::size_t from, std::size_t to) {
  const auto named_at = [&](std::size_t i) {
    const auto measure = i < to && text[i].is_number() ? any_measure(text, i) : std::nullopt;
    const bool counted = measure && measure->number && measure->number->low >= 1.0 &&
                         measure->unit != "percent" && measure->to < to;
    return counted ? match_name(text, measure->to) : Match{};
  };
  const Match first = named_at(skip_bullets(text, from, to));
  return first && first.end < to && named_at(first.end) ? first.end : to;
}

bool is_flour(const Text& text, const Span& span) {
  for (std::size_t i = span.from; i < span.to; ++i) {
    if (const Match name = match_name(text, i)) {
      return name.phrase->ingredient->kind == IngredientKind::flour;
    }
  }
  return false;
}

bool is_seasoning(IngredientKind kind) {
  return kind == IngredientKind::salt || kind == IngredientKind::spice ||
         kind == IngredientKind::herb;
}

/// "salt pepper": where the second of two seasonings begins that make up a piece; `to` when they
/// do not.
std::size_t second_seasoning(const Text& text, const Span& span) {
  const Match first = match_name(text, span.from);
  const Match second = first && first.end < span.to ? match_name(text, first.end) : Match{};
  const bool both = second && trim_back(text, span.from, span.to) == second.end &&
                    is_seasoning(first.phrase->ingredient->kind) &&
                    is_seasoning(second.phrase->ingredient->kind) &&
                    first.phrase->ingredient != second.phrase->ingredient;
  return both ? first.end : span.to;
}

/// Salt, a spice, yeast or a raising agent by its name alone, behind something else.
bool is_plain_other(const Text& text, const Span& before, const Span& span) {
  const Match name = match_name(text, span.from);
  if (!name || (name.end < span.to && !text[name.end].is('.'))) {
    return false;
  }
  const IngredientKind kind = name.phrase->ingredient->kind;
  // A spice may say more of spices, but after a herb or salt it is another.
  for (std::size_t i = before.from; i < before.to; ++i) {
    if (const Match other = match_name(text, i); other && other.phrase->ingredient->kind == kind) {
      return false;
    }
  }
  return is_seasoning(kind) || kind == IngredientKind::yeast || kind == IngredientKind::leavening;
}

bool leads_each(const Text& text, const Span& span) {
  const std::size_t first = skip_bullets(text, span.from, span.to);
  const Match each = match(text, first, WordClass::each);
  const auto amount = each ? any_measure(text, each.end) : std::nullopt;
  return amount && amount->number && !amount->unit.empty();
}

/// "…; sprinkle evenly over the dough": says what is done, though a sprinkle is an amount too.
bool is_deed(const Text& text, const Span& span) {
  constexpr std::size_t k_fewest_words = 4;
  const std::size_t first = skip_bullets(text, span.from, span.to);
  return is_class(text, first, WordClass::verb) && !match_name(text, first) &&
         !match_name(text, first + 1) && !is_class(text, first + 1, WordClass::of) &&
         !any_number(text, first + 1) && look_at(text, span.from, span.to).words >= k_fewest_words;
}

/// Whether a piece after a semicolon or bar is an ingredient, not the amount of the one
/// before ("flour | 500 g").
bool is_row(const Text& text, const Piece& piece) {
  const LineLook look = look_at(text, piece.span.from, piece.span.to);
  const bool method =
      !look.name && !look.measure_first && verb_count(text, piece.span.from, piece.span.to) > 0;
  return look.words > 0 && (look.name || !look.measure_first) && !method &&
         !is_deed(text, piece.span);
}

/// Whether a piece after a comma is an ingredient of its own.
bool stands_alone(const Text& text, const Piece& piece, bool list) {
  const LineLook look = look_at(text, piece.span.from, piece.span.to);
  if (look.measure_first && is_deed(text, piece.span)) {
    return false;
  }
  // "1 tsp lemon, rind of": whose part it is was said before.
  const PartOf part = part_of(text, piece.span.from, piece.span.to);
  if (!part.parts.empty() &&
      (part.end >= piece.span.to || is_class(text, part.end, WordClass::or_))) {
    return false;
  }
  if (look.measure_first) {
    const auto measure = any_measure(text, skip_bullets(text, piece.span.from, piece.span.to));
    // "salt, 2 spoons makkhan": a word nobody knows is a thing of its own.
    const bool unknown = measure && text[measure->to].kind == TokenKind::word &&
                         text[measure->to].own == nullptr && text[measure->to].name == nullptr;
    // "butter, lump the size of an egg"
    if (measure && is_class(text, measure->to, WordClass::size_of)) {
      return false;
    }
    const bool loose_only =
        measure && !look.name && !unknown &&
        (unit_kind(measure->unit) == UnitKind::loose || measure->unit == "percent");
    return !look.measure_only && !loose_only && (look.name || (measure && !measure->unit.empty()));
  }
  // "Fresh yeast - 25 g (or 4 tsp dried yeast)" has its own amount.
  const bool either =
      look.or_inside && (!look.measure_inside || is_class(text, piece.span.from, WordClass::or_));
  // "…, as much as it takes flour", as some languages order it
  const Match led = match(text, piece.span.from, WordClass::purpose);
  if (led && led.end < piece.span.to && match_name(text, led.end) && look.words <= 8) {
    return true;
  }
  if (!look.name_first || either) {
    return false;
  }
  if (look.measure_inside) {
    return true;
  }
  // "100 g butter, salt" and "…, oil to fry in", but not "…, salt it well".
  const Match food = match_name(text, piece.span.from);
  const bool whole = food && (food.end >= piece.span.to || text[food.end].is('.') ||
                              is_class(text, food.end, WordClass::purpose));
  if (is_class(text, piece.span.from, WordClass::verb) && !whole) {
    return false;
  }
  bool purpose = false;
  for (std::size_t i = piece.span.from; i < piece.span.to; ++i) {
    purpose = purpose || is_class(text, i, WordClass::purpose);
  }
  const Match name = match_name(text, piece.span.from);
  const bool long_name = name && name.end - piece.span.from > 1;
  return look.words <= 6 && (purpose || list || long_name) &&
         (long_name || !is_said_of(text, piece.span.from));
}

}  // namespace

std::size_t amount_cell(const Text& text, std::size_t from, std::size_t to) {
  std::size_t cell = to;
  for (std::size_t i = from; i < to; ++i) {
    if (!text[i].is('|') || i == from || i + 1 >= to) {
      continue;
    }
    if (cell < to) {
      return to;
    }
    cell = i + 1;
  }
  if (cell >= to || match(text, from, WordClass::number) || text[from].is_number() ||
      !match_name(text, from)) {
    return to;
  }
  const Amounts amounts = amounts_at(text, cell, to);
  std::size_t end = amounts.end;
  while (end < to && text[end].kind == TokenKind::mark) {
    ++end;
  }
  const bool unit = amounts.primary && amounts.primary->number && !amounts.primary->unit.empty();
  const bool same = unit || (amounts.primary && match_name(text, amounts.end) &&
                             match_name(text, amounts.end).phrase->ingredient ==
                                 match_name(text, from).phrase->ingredient);  // "Eggs | 10 eggs"
  return same && (end >= to || !unit) ? cell : to;
}

std::vector<Span> segments(const Text& text, std::size_t from, std::size_t to) {
  std::vector<Span> out;
  std::size_t start = from;
  int depth = 0;
  for (std::size_t i = from; i < to; ++i) {
    depth += text[i].is('(') ? 1 : 0;
    depth -= text[i].is(')') && depth > 0 ? 1 : 0;
    // The star of a footnote hangs on its word: "cut into cubes* – 200 g".
    const bool footnote = text[i].is('*') && !text[i].spaced && i > from &&
                          text.raw[text[i].begin] == '*' && (text[i + 1].spaced || i + 1 >= to);
    if (text[i].is('*') && depth == 0 && !footnote) {
      if (i > start) {
        out.push_back({start, i});
      }
      start = i + 1;
    }
  }
  if (to > start) {
    out.push_back({start, to});
  }
  return out;
}

namespace {

/// "Flour: 9 kg Butter: 1.1 kg Soda: 150 g" in one line: a row for each name before a colon;
/// empty when there are too few.
std::vector<Span> colon_rows(const Text& text, std::size_t from, std::size_t to) {
  constexpr std::size_t k_fewest = 3;
  constexpr std::size_t k_longest_name = 4;
  std::vector<Span> out;
  for (std::size_t i = from + 1; i + 1 < to; ++i) {
    if (!text[i].is(':') || !text[i + 1].is_number()) {
      continue;
    }
    std::size_t name_to = i;
    if (text[i - 1].is(')')) {  // "Buttermilk (or yogurt and milk): 6 litres"
      while (name_to > from && !text[name_to].is('(')) {
        --name_to;
      }
    }
    const std::size_t least = name_to > from + k_longest_name ? name_to - k_longest_name : from;
    for (std::size_t k = least; k < name_to; ++k) {
      if (match_name(text, k).end == name_to && match_name(text, k)) {
        if (!out.empty()) {
          out.back().to = k;
        }
        out.push_back({k, to});
        break;
      }
    }
  }
  return out.size() >= k_fewest ? out : std::vector<Span>();
}

}  // namespace

std::vector<Span> ingredient_spans(const Text& text, std::size_t from, std::size_t to) {
  if (std::vector<Span> rows = colon_rows(text, from, to); !rows.empty()) {
    return rows;
  }
  if (amount_cell(text, from, to) < to) {
    return {{from, to, false}};
  }
  std::vector<Span> out = bare_names(text, from, to);
  if (!out.empty()) {
    return out;
  }
  std::vector<Piece> pieces = pieces_of(text, from, to);
  if (is_inverted(text, pieces)) {
    return {{from, to, false}};
  }
  // "Salt - 1 tsp Butter - 4 tsp": names and amounts by turns.
  for (std::size_t n = 0; n < pieces.size(); ++n) {
    std::size_t next = next_pair(text, pieces[n].span.from, pieces[n].span.to);
    next = std::min({next, next_counted(text, pieces[n].span.from, pieces[n].span.to),
                     second_seasoning(text, pieces[n].span)});
    if (next < pieces[n].span.to) {
      const Piece rest{{next, pieces[n].span.to}, Cut::joined};
      pieces[n].span.to = next;
      pieces.insert(pieces.begin() + static_cast<std::ptrdiff_t>(n) + 1, rest);
    }
  }
  std::size_t measured = 0;
  for (const Piece& piece : pieces) {
    const LineLook look = look_at(text, piece.span.from, piece.span.to);
    measured += look.name && (look.measure_first || look.measure_inside) ? 1U : 0U;
  }
  // "1 tbsp salt, paprika, sugar": names alone behind the first.
  const bool names =
      pieces.size() >= 3 && std::all_of(pieces.begin() + 1, pieces.end(), [&](const Piece& piece) {
        const Match name = match_name(text, piece.span.from);
        return piece.cut == Cut::comma && name &&
               trim_back(text, piece.span.from, piece.span.to) == name.end;
      });
  const bool list = pieces.size() >= 3 && (measured >= 2 || names);
  bool plain_before = false;
  for (const Piece& piece : pieces) {
    // "725 g | flour |": the amount's own cell.
    const LineLook name = look_at(text, piece.span.from, piece.span.to);
    const bool amount_before = !out.empty() && piece.cut == Cut::hard && name.name &&
                               !name.measure_first &&
                               look_at(text, out.back().from, out.back().to).measure_only;
    // "225 g strong white, unbleached flour": the name follows the comma.
    const LineLook before =
        out.empty() ? LineLook{} : look_at(text, out.back().from, out.back().to);
    const bool unnamed = before.measure_first && !before.name && !name.measure_first &&
                         piece.cut == Cut::comma && out.size() == 1;
    // "225 g strong white, unbleached flour": the same flour told more nearly.
    const bool told = piece.cut == Cut::comma && before.measure_first && before.name &&
                      !name.measure_first && !name.measure_inside && pieces.size() == 2 &&
                      is_flour(text, out.back()) && is_flour(text, piece.span) &&
                      is_said_of(text, piece.span.from);
    // "500 g flour, salt": what never says more of another thing.
    const bool plain = piece.cut == Cut::comma && (before.measure_first || plain_before) &&
                       before.name && is_plain_other(text, out.back(), piece.span);
    plain_before = plain;
    // "…, each a teaspoon of salt and sugar, …", as German has it
    const bool each = leads_each(text, piece.span);
    const bool of_each = !out.empty() && piece.cut == Cut::joined && !name.measure_first &&
                         leads_each(text, out.back());
    const bool own =
        !unnamed && !told && !of_each &&
        (out.empty() || each || plain || (piece.cut == Cut::joined && !is_deed(text, piece.span)) ||
         (piece.cut == Cut::hard ? is_row(text, piece) : stands_alone(text, piece, list)));
    if (own && !amount_before) {
      out.push_back({piece.span.from, piece.span.to, piece.cut == Cut::joined});
    } else {
      out.back().to = piece.span.to;
    }
  }
  return out;
}

std::optional<Range> count_of_pieces(const Text& text, const Span& span, bool in_method) {
  const std::size_t from = skip_bullets(text, span.from, span.to);
  const auto number = text[from].is_number() ? any_number(text, from) : std::nullopt;
  std::size_t at = number ? number->end : span.to;
  while (at < span.to &&
         (is_class(text, at, WordClass::size) || is_class(text, at, WordClass::note))) {
    ++at;
  }
  const Match piece = at < span.to ? match(text, at, WordClass::piece) : Match{};
  const bool whole = piece && (piece.end >= span.to || text[piece.end].is('.') ||
                               text[piece.end].is(';') || text[piece.end].is(','));
  // "4 slices" in a list is of what stands beside it; "10 balls" in a method are the dough's.
  const Match unit = whole ? match(text, at, WordClass::unit) : Match{};
  const bool counts = unit && in_method && unit.phrase->means == "piece";
  const bool food =
      !whole || piece.phrase->means == "strand" || match_name(text, at) || (unit && !counts);
  return !food && number->range.low >= 2.0 ? std::optional(number->range) : std::nullopt;
}

}  // namespace maslin::reading
