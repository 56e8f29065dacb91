#include "reading/pieces.h"

#include <algorithm>

#include "reading/draft_line.h"

namespace maslin::reading {
namespace {

/// The name that an amount at `i` leads to, past "of" and adjectives.
const Ingredient* name_after(const Text& text, std::size_t i, std::size_t to) {
  for (std::size_t at = i; at < to && at < i + 5; ++at) {
    if (const Match name = match_name(text, at)) {
      return name.phrase->ingredient;
    }
    if (text[at].kind == TokenKind::mark) {
      return nullptr;
    }
  }
  return nullptr;
}

/// Whether another thing follows at `i`, with its amount or bare: "/ 1/4 tsp salt".
bool another_after(const Text& text, std::size_t i, std::size_t to, const Ingredient* before) {
  const auto measure = any_measure(text, i);
  const Ingredient* name = name_after(text, measure ? measure->to : i, to);
  return name != nullptr && name != before;
}

/// Whether dashes with blanks on both sides stand between rows of a name and its amount: "Farina,
/// g. 200 - Sale, un pizzico - …".
bool has_dashed_rows(const Text& text, std::size_t from, std::size_t to) {
  constexpr std::size_t k_fewest = 2;
  constexpr std::size_t k_fewest_first = 4;
  std::size_t dashes = 0;
  std::size_t rows = 0;
  std::size_t first = 0;
  std::size_t start = from;
  for (std::size_t i = from + 1; i + 1 < to; ++i) {
    if (!text[i].is('-') || !text[i].spaced || !text[i + 1].spaced) {
      continue;
    }
    const LineLook look = look_at(text, start, i);
    bool comma = false;  // "Flour - 450 g, sugar - 50 g"
    for (std::size_t at = start; at < i; ++at) {
      comma = comma || text[at].is(',');
    }
    first += look.measure_first && look.name && !comma ? 1U : 0U;  // "1 kg flour – 3 eggs – …"
    const bool amount = look.measure_inside || any_measure(text, i - 1) || any_measure(text, i - 2);
    rows += look.name_first && !look.measure_first && amount ? 1U : 0U;
    ++dashes;
    start = i + 1;
  }
  return (rows >= k_fewest && 3 * rows >= 2 * dashes) ||
         (first >= k_fewest_first && 3 * first >= 2 * dashes);
}

/// "+ 100g water", "and 2 tsp sugar": an amount of another thing follows the joiner.
bool joins_another(const Text& text, std::size_t joiner_end, std::size_t to,
                   const Ingredient* before) {
  const auto measure = any_measure(text, joiner_end);
  if (!measure || measure->to >= to || measure->unit.empty() || measure->bare_article) {
    return false;
  }
  if (tells_use(text, measure->to)) {
    return false;  // "sugar 30 g + 1 tsp for the yeast": more of the same
  }
  // "Milk 1 cup + 1/4 cup Sugar 2 tsp": the name has an amount of its own.
  for (std::size_t at = measure->to; at < std::min(to, measure->to + 3); ++at) {
    const Match own = match_name(text, at);
    const auto after = own && text[own.end].is_number() ? any_measure(text, own.end) : std::nullopt;
    if (after && !after->unit.empty()) {
      return false;
    }
  }
  const Ingredient* name = name_after(text, measure->to, to);
  return name != nullptr && before != nullptr && name != before;
}

/// Whether only what is done to a thing follows up to the end of the piece: "chopped fine".
bool says_how(const Text& text, std::size_t i) {
  const std::size_t first = i;
  while (is_class(text, i, WordClass::packing) || is_class(text, i, WordClass::note)) {
    ++i;
  }
  return i > first && (text[i].kind == TokenKind::end || text[i].kind == TokenKind::mark);
}

/// An amount without its name, and after the comma so much more in a smaller unit.
bool adds_smaller(const Text& text, const std::optional<FoundMeasure>& amount, bool named,
                  std::size_t i) {
  const bool next = amount && !named && amount->to + 1 == i && text[i].is_number();
  const auto more = next ? any_measure(text, i) : std::nullopt;
  const double ratio =
      more && more->number && !more->unit.empty() ? unit_ratio(amount->unit, more->unit) : 0.0;
  return ratio > 0.0 && ratio < 1.0 && ratio * more->number->high < 1.0;
}

/// Whether a food's name ends before `i`.
bool ends_food(const Text& text, std::size_t i) {
  for (std::size_t back = i > 3 ? i - 3 : 0; back < i; ++back) {
    const Match name = match_name(text, back);
    if (name && name.end == i) {
      return true;
    }
  }
  return false;
}

/// "125 g butter 2 eggs 250 g flour": another amount with its name begins, no mark between.
bool runs_on(const Text& text, std::size_t i, std::size_t to) {
  const Token& before = text[i - 1];
  // "1 pint meal (or brown flour) a teaspoon of soda"
  const bool worded = before.is(')') && is_class(text, i, WordClass::article);
  // "450 g strong flour Pinch of salt 25 g sugar"
  // "1/2 oz. Butter Pinch of Salt"
  const auto said = text[i].capital && !text[i].upper && (!before.capital || ends_food(text, i))
                        ? any_measure(text, i)
                        : std::nullopt;
  // "10 oz flour heaped teaspoon baking powder"
  const Match how = match(text, i, WordClass::packing);
  const auto heaped = how && !text[how.end].is_number() ? any_measure(text, i) : std::nullopt;
  const bool spooned = heaped && unit_kind(heaped->unit) == UnitKind::volume &&
                       ends_food(text, i) && name_after(text, heaped->to, to) != nullptr;
  // "220 g di acqua un pizzico di sale un po' di burro"
  const auto small = is_class(text, i, WordClass::article) ? any_measure(text, i) : std::nullopt;
  // "un cucchiaino colmo di sale un cucchiaino di zucchero", "a cup of milk a spoon of sugar"
  const bool measured =
      small && small->number && !small->unit.empty() && unit_kind(small->unit) != UnitKind::loose &&
      ends_food(text, i) &&
      (is_class(text, small->to, WordClass::of) || is_class(text, small->to - 1, WordClass::of)) &&
      name_after(text, small->to, to) != nullptr;
  const bool pinch =
      measured || spooned ||
      (small && unit_kind(small->unit) == UnitKind::loose && !small->unit.empty()) ||
      (said && unit_kind(said->unit) == UnitKind::loose &&
       (is_class(text, said->to, WordClass::of) || is_class(text, said->to - 1, WordClass::of)));
  if ((!text[i].is_number() && !worded && !pinch) ||
      (before.kind != TokenKind::word && !before.is(')')) ||
      (!text[i].spaced && before.word.size() < 2) ||  // a scan's "V4 cup"
      is_class(text, i - 1, WordClass::or_) || is_class(text, i - 1, WordClass::approx) ||
      is_class(text, i - 1, WordClass::times) || is_class(text, i - 1, WordClass::plus) ||
      is_class(text, i - 1, WordClass::less) || is_class(text, i - 1, WordClass::to) ||
      is_class(text, i - 1, WordClass::join) || is_class(text, i - 1, WordClass::of) ||
      is_class(text, i - 1, WordClass::until) || is_class(text, i - 1, WordClass::with) ||
      is_class(text, i - 1, WordClass::into) || is_class(text, i - 1, WordClass::stop)) {
    return false;
  }
  const Amounts amounts = amounts_at(text, i, to);
  if (!amounts.primary || (!amounts.primary->number && !pinch) ||
      unit_kind(amounts.primary->unit) == UnitKind::percent) {
    return false;
  }
  const bool unit = !amounts.primary->unit.empty();
  if ((worded || (is_class(text, i - 1, WordClass::part_of) && !ends_food(text, i))) &&
      !unit) {  // "rind 1/2 lemon"
    return false;
  }
  for (std::size_t at = amounts.end; at < std::min(to, amounts.end + (unit ? 4U : 2U)); ++at) {
    if (const Match name = match_name(text, at)) {
      const IngredientKind kind = name.phrase->ingredient->kind;
      const bool share =
          amounts.primary->number && amounts.primary->number->high < 1.0;  // "1/2 grated nutmeg"
      return unit || share || kind == IngredientKind::egg || kind == IngredientKind::fruit ||
             kind == IngredientKind::vegetable;
    }
    if (text[at].kind == TokenKind::mark || text[at].is_number()) {
      return false;
    }
  }
  return false;
}

/// "a little milk": a loose amount in words with its name right behind it.
bool is_small_amount(const Text& text, std::size_t i, std::size_t to) {
  const auto amount = is_class(text, i, WordClass::article) ? any_measure(text, i) : std::nullopt;
  return amount && !amount->unit.empty() && amount->to < to && match_name(text, amount->to);
}

/// "…, then a glug of oil", "…, and 2 eggs": past what only leads on to the next amount.
std::size_t past_small_words(const Text& text, std::size_t i, std::size_t to) {
  std::size_t at = i;
  while (at < std::min(to, i + 2) &&
         (is_class(text, at, WordClass::adverb) || is_class(text, at, WordClass::join)) &&
         !match_name(text, at)) {
    ++at;
  }
  if (at > i && is_class(text, i, WordClass::adverb) && match_name(text, at)) {
    return at;  // "then butter"
  }
  const auto amount = at > i ? any_measure(text, at) : std::nullopt;
  const bool counts = amount && (amount->unit.empty() ? amount->number.has_value() : true);
  return counts && name_after(text, amount->to, to) != nullptr ? at : i;
}

/// "1 cup shortening Salt": a small name, and at the end another with a capital.
bool ends_with_other(const Text& text, std::size_t i, std::size_t to, std::size_t named_to) {
  const Match name = match_name(text, i);
  return name && i == named_to && name.end == to && text[i].capital && !text[i - 1].capital &&
         !text[i].upper;
}

}  // namespace

std::vector<Piece> pieces_of(const Text& text, std::size_t from, std::size_t to) {
  std::vector<Piece> out;
  Piece piece{{from, from}, Cut::none};
  int depth = 0;
  const Ingredient* last = nullptr;
  bool measured = false;
  bool named = false;  // this piece has a name
  bool amount_first = false;
  bool listed = false;  // the line began with an amount and its name
  std::size_t named_to = from;
  std::size_t unit_to = from;  // up to there it is an amount
  const bool rows = has_dashed_rows(text, from, to);
  std::optional<FoundMeasure> amount;  // the last
  const auto cut = [&](std::size_t at, std::size_t next, Cut how) {
    piece.span.to = at;
    if (piece.span.to > piece.span.from) {
      out.push_back(piece);
    }
    piece = {{next, next}, how};
    measured = false;
    named = false;
    amount_first = false;
  };
  for (std::size_t i = from; i < to; ++i) {
    const Token& token = text[i];
    if (depth == 0 && (amount_first || (listed && !measured)) && i > piece.span.from &&
        (runs_on(text, i, to) || ends_with_other(text, i, to, named_to) ||
         (token.torn && token.capital && match_name(text, i)))) {  // "olive oilWater as needed"
      cut(i, i, Cut::joined);
    }
    depth += token.is('(') || token.is('[') ? 1 : 0;
    depth -= (token.is(')') || token.is(']')) && depth > 0 ? 1 : 0;
    if (depth > 0) {
      continue;
    }
    if (const Match name = i >= unit_to ? match_name(text, i) : Match{}) {
      last = name.phrase->ingredient;
      amount_first = amount_first || (!named && measured);
      listed = listed || amount_first;
      named = true;
      named_to = name.end;
      if (name.end > i + 1) {
        i = name.end - 1;  // "half and half" is one name
        continue;
      }
    }
    // "A heaped teaspoon of salt a spoon of sugar": worded amounts begin pieces too.
    const bool worded = i == piece.span.from && (is_class(text, i, WordClass::article) ||
                                                 is_class(text, i, WordClass::number));
    const auto found = text[i].is_number() || worded ? any_measure(text, i) : std::nullopt;
    if (found && (!worded || !found->unit.empty())) {
      measured = true;
      amount = found;
      // "1 teas, salt": a spoon's short form may be a food elsewhere.
      const UnitKind kind = unit_kind(found->unit);
      unit_to = kind == UnitKind::mass || kind == UnitKind::volume ? found->to : unit_to;
      if (text[i + 1].is(',') && found->to > i + 2 && found->to <= to) {
        i = found->to - 1;  // "2, 5 spoons"
        continue;
      }
    }
    // "2 cups, strong black tea": the comma stands between the amount and its name.
    const bool bare = measured && !named && out.empty() && !text[i + 1].is_number();
    // "Farina, g. 200 - Sale, un pizzico - Olio, 2 cucchiai"
    const bool row = rows && token.is('-') && token.spaced && text[i + 1].spaced &&
                     (match_name(text, i + 1) || match_name(text, i + 2) ||
                      any_measure(text, i + 1) || is_class(text, i + 1, WordClass::part_of));
    // "2 tsp yeast - 1/2 c molasses"
    if (token.is('-') && token.spaced && text[i + 1].spaced && any_measure(text, i + 1) &&
        measured && named && joins_another(text, i + 1, to, last)) {
      cut(i, i + 1, Cut::joined);
    } else if (token.is(',') && adds_smaller(text, amount, named, i + 1)) {
      continue;  // "1 qt., 3 cups yeast"
    } else if (token.is(',') && !bare) {
      cut(i, past_small_words(text, i + 1, to), Cut::comma);
      i = piece.span.from - 1;
    } else if (token.is('.') && measured && named && text[i + 1].spaced && !text[i + 1].capital &&
               is_small_amount(text, i + 1, to)) {
      cut(i + 1, i + 1, Cut::joined);  // "1/4 tsp salt. a little milk"
    } else if (token.is(';') && named && says_how(text, i + 1)) {
      continue;  // "1 onion; chopped fine"
    } else if (row || token.is(';') || (token.is('*') && token.spaced) || token.is('|')) {
      cut(i, i + 1, Cut::hard);
    } else if (token.is('/') && token.spaced && text[i + 1].spaced && last != nullptr && measured &&
               another_after(text, i + 1, to, last)) {
      cut(i, i + 1, Cut::joined);
    } else if (token.is('+') || token.is('&') || is_class(text, i, WordClass::join) ||
               is_class(text, i, WordClass::plus) || is_class(text, i, WordClass::to) ||
               is_class(text, i, WordClass::with)) {
      // "one and one-half teaspoon"
      const bool within =
          i > piece.span.from && any_number(text, i - 1) && any_number(text, i - 1)->end > i + 1;
      const auto next = any_measure(text, i + 1);
      const bool parts = next && next->unit == "part";
      // "flaky salt and rosemary": two things without amounts.
      const bool both = !measured && named && !is_class(text, i, WordClass::to) &&
                        match_name(text, i + 1) && i > piece.span.from;
      if (both && match_name(text, i + 1).phrase->ingredient != last) {
        cut(i, i + 1, Cut::joined);
        continue;
      }
      // "5 lb flour to 3 lb water with 1 oz salt", but not "4 parts flour to a part water".
      const bool to_amount = named && is_class(text, i, WordClass::to) && text[i + 1].is_number() &&
                             !text[i - 1].is_number();
      const bool joins = parts || to_amount || !is_class(text, i, WordClass::to);
      if (joins && !within && joins_another(text, i + 1, to, last)) {
        cut(i, i + 1, Cut::joined);
      }
    }
  }
  cut(to, to, Cut::none);
  return out;
}

}  // namespace maslin::reading
