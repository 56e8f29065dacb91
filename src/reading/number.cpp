#include "reading/number.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace maslin::reading {
namespace {

bool is_whole(double v) {
  return v >= 1.0 && v == static_cast<double>(static_cast<long long>(std::min(v, 1e9)));
}

/// "3/4" at `i` as written with three tokens.
std::optional<Number> slashed(const Text& text, std::size_t i) {
  // "1./2 cup"
  if (text[i].kind == TokenKind::number && text[i + 1].is('.') && !text[i + 1].spaced &&
      text[i + 2].is('/') && !text[i + 2].spaced && text[i + 3].kind == TokenKind::number &&
      text[i].value == 1.0 && text[i + 3].value >= 2.0 && text[i + 3].value <= 8.0) {
    const double value = 1.0 / text[i + 3].value;
    return Number{{value, value}, i + 4};
  }
  if (text[i].kind != TokenKind::number || !text[i + 1].is('/') ||
      text[i + 2].kind != TokenKind::number) {
    return std::nullopt;
  }
  const double top = text[i].value;
  const double bottom = text[i + 2].value;
  // "1/ 2 t. salt": a blank typed after the stroke of a common fraction.
  const bool common =
      top < bottom && (bottom == 2.0 || bottom == 3.0 || bottom == 4.0 || bottom == 8.0);
  if (text[i + 2].spaced &&
      (!common || text[i + 1].spaced || !is_class(text, i + 3, WordClass::unit))) {
    return std::nullopt;
  }
  // "1 1 /4 tsp", typed with a blank: only after a whole number.
  const bool typed = i > 0 && text[i - 1].kind == TokenKind::number && top < bottom;
  if (text[i + 1].spaced && !typed) {
    return std::nullopt;
  }
  // "31/2 cups": the blank before the fraction is missing.
  const double ones = std::fmod(top, 10.0);
  if (top > 10.0 && top < 100.0 && ones >= 1.0 && ones < bottom &&
      (bottom == 2.0 || bottom == 3.0 || bottom == 4.0 || bottom == 8.0)) {
    const double value = (top - ones) / 10.0 + ones / bottom;
    return Number{{value, value}, i + 3};
  }
  // "12/16 hours", "8/10 minutes" are ends of a range.
  if (top >= 8.0 && bottom >= 10.0) {
    return std::nullopt;
  }
  // "7/8 cucchiai" are seven to eight; an eighth is a share where cups are filled.
  if (bottom == top + 1.0 && top >= 4.0 && (bottom != 8.0 || text.lexicon->manners.decimal_comma)) {
    return std::nullopt;
  }
  if (!is_whole(top) || !is_whole(bottom) || bottom > 16.0 || bottom < 2.0 || top > 16.0) {
    return std::nullopt;
  }
  // "1/4th cup"
  const std::size_t end = i + 3 + (is_class(text, i + 3, WordClass::ordinal) ? 1U : 0U);
  return Number{{top / bottom, top / bottom}, end};
}

/// "½", "3/4", or a scan's "V4" for the quarter sign.
std::optional<Number> fraction(const Text& text, std::size_t i) {
  if (text[i].kind == TokenKind::fraction) {
    return Number{{text[i].value, text[i].value}, i + 1};
  }
  const Token& next = text[i + 1];
  if (text[i].word == "v" && next.kind == TokenKind::number && !next.spaced && !next.hyphen &&
      (next.value == 2.0 || next.value == 3.0 || next.value == 4.0 || next.value == 8.0)) {
    return Number{{1.0 / next.value, 1.0 / next.value}, i + 2};
  }
  // "1 8th cup", "3 4ths cup"
  if (text[i].kind == TokenKind::number && next.kind == TokenKind::number && next.spaced &&
      !text[i + 2].spaced && is_class(text, i + 2, WordClass::ordinal) &&
      text[i].value < next.value && next.value <= 8.0 && is_whole(next.value)) {
    const double share = text[i].value / next.value;
    return Number{{share, share}, i + 3};
  }
  return slashed(text, i);
}

/// "2 12 cups", "18 teaspoon": the fraction of a page that lost its slash; 0 when it is none.
double lost_slash(const Text& text, std::size_t i, bool after_whole) {
  constexpr std::array<double, 8> k_fractions{12.0, 13.0, 14.0, 18.0, 23.0, 34.0, 38.0, 58.0};
  const Token& number = text[i];
  const Token& unit = text[i + 1];
  const Match word = match(text, i + 1, WordClass::unit);
  const bool spoon_or_cup = word && (word.phrase->means == "cup" || word.phrase->means == "tsp" ||
                                     word.phrase->means == "tbsp");
  if (number.kind != TokenKind::number || !spoon_or_cup || !unit.spaced ||
      std::find(k_fractions.begin(), k_fractions.end(), number.value) == k_fractions.end()) {
    return 0.0;
  }
  // Alone only where the unit is written out and stands for one: "18 teaspoon", not "18 tsp".
  const std::string_view raw = text.slice(i + 1, i + 2);
  const bool one = (raw == "teaspoon" || raw == "tablespoon" || raw == "cup") &&
                   !is_class(text, i + 2, WordClass::tin) && !is_class(text, i + 3, WordClass::tin);
  if (!after_whole && !one) {
    return 0.0;
  }
  const double top = std::floor(number.value / 10.0);
  return top / (number.value - 10.0 * top);
}

/// Whether packets, tins or sachets follow the weight at `i`: "ounce packages".
bool holds_each(const Text& text, std::size_t i) {
  const Match weight = match(text, i, WordClass::unit);
  std::size_t at = weight.end + (text[weight.end].is('.') ? 1U : 0U);
  const Match vessel = match(text, at, WordClass::unit);
  const std::string_view raw = text.slice(at, at + 1);
  return vessel && (weight.phrase->means == "oz" || weight.phrase->means == "lb") &&
         raw.ends_with('s') &&
         (vessel.phrase->means == "packet" || vessel.phrase->means == "can" ||
          vessel.phrase->means == "jar" || vessel.phrase->means == "bottle");
}

/// A whole number and a fraction after it: "1 1/2", "1½", "1-1/2", "2 & 1/2".
Number with_fraction(const Text& text, Number whole) {
  if (!is_whole(whole.range.low)) {
    return whole;
  }
  const double lost = whole.range.low < 10.0 ? lost_slash(text, whole.end, true) : 0.0;
  if (lost > 0.0) {
    const double sum = whole.range.low + lost;
    return {{sum, sum}, whole.end + 1};
  }
  std::size_t i = whole.end;
  const bool dash = text[i].is('-') && !text[i].spaced && !text[i + 1].spaced;
  i += text[i].is('&') || text[i].is('+') || dash ? 1U : 0U;
  if (i == whole.end && is_class(text, i, WordClass::join)) {
    ++i;
  }
  // "2 2-3 cups": old prints set the stroke as a dash.
  const bool dashed = i == whole.end && text[i].kind == TokenKind::number && text[i].spaced &&
                      text[i + 1].is('-') && !text[i + 1].spaced &&
                      text[i + 2].kind == TokenKind::number && !text[i + 2].spaced &&
                      text[i].value < text[i + 2].value &&
                      (text[i + 2].value == 2.0 || text[i + 2].value == 3.0 ||
                       text[i + 2].value == 4.0 || text[i + 2].value == 8.0);
  if (dashed && is_class(text, i + 3, WordClass::unit)) {
    whole.range.low += text[i].value / text[i + 2].value;
    whole.range.high = whole.range.low;
    whole.end = i + 3;
    return whole;
  }
  // "2 1/4-ounce packages": so many of that content.
  const auto of_each = whole.range.low >= 2.0 && i == whole.end ? fraction(text, i) : std::nullopt;
  if (of_each && is_class(text, of_each->end, WordClass::unit) && holds_each(text, of_each->end)) {
    return whole;
  }
  if (const auto part = fraction(text, i); part && part->range.low < 1.0) {
    whole.range.low += part->range.low;
    whole.range.high = whole.range.low;
    whole.end = part->end;
    return whole;
  }
  if (const Match more = match(text, whole.end, WordClass::half_more)) {
    whole.range.low += more.phrase->value;
    whole.range.high = whole.range.low;
    whole.end = more.end;
    return whole;
  }
  if (const auto share = trailing_share(text, whole.end)) {
    whole.range.low += share->range.low;
    whole.range.high = whole.range.low;
    whole.end = share->end;
  }
  return whole;
}

/// "twenty five", "a hundred and ten", "two dozen".
std::optional<Number> counted_word(const Text& text, std::size_t i) {
  const Match number = match(text, i, WordClass::number);
  if (!number) {
    return std::nullopt;
  }
  Number out{{number.phrase->value, number.phrase->value}, number.end, false, true};
  if (out.range.low >= 20.0 && out.range.low < 100.0) {
    if (const Match ones = match(text, out.end, WordClass::number);
        ones && ones.phrase->value < 10.0) {
      out.range.low += ones.phrase->value;
      out.end = ones.end;
    }
  }
  out.range.high = out.range.low;
  return out;
}

Number with_multiple(const Text& text, Number out) {
  for (Match times = match(text, out.end, WordClass::multiple); times;
       times = match(text, out.end, WordClass::multiple)) {
    out.range.low *= times.phrase->value;
    out.end = times.end;
    if (times.phrase->value == 100.0) {
      const std::size_t rest = is_class(text, out.end, WordClass::join) ? out.end + 1 : out.end;
      if (const auto more = counted_word(text, rest)) {
        out.range.low += more->range.low;
        out.end = more->end;
      }
    }
    out.end = is_class(text, out.end, WordClass::of) ? out.end + 1 : out.end;
    out.end += text[out.end].is('.') ? 1U : 0U;
  }
  out.range.high = out.range.low;
  return out;
}

/// "quarters of a", "thirds of a" after a count; "a" after "half".
Number with_share(const Text& text, Number out, double share) {
  out.range.low *= share;
  out.range.high = out.range.low;
  std::size_t at = out.end;
  at = is_class(text, at, WordClass::of) ? at + 1 : at;
  if (const Match article = match(text, at, WordClass::article)) {
    out.end = article.end;
  }
  return with_multiple(text, out);
}

std::optional<Number> share_number(const Text& text, std::size_t i) {
  const std::size_t after = is_class(text, i, WordClass::article) ? i + 1 : i;
  const Match share = match(text, after, WordClass::share);
  if (!share) {
    return std::nullopt;
  }
  Number out{{1.0, 1.0}, share.end, false, true};
  return with_share(text, out, share.phrase->value);
}

/// "l tsp": a scan's letter for the digit one, only before a measure.
std::optional<Number> misread_one(const Text& text, std::size_t i) {
  const Token& token = text[i];
  // A small i only where a line or a row of a list may begin: "• i teaspoonful salt".
  const bool begins = i == 0 || text[i - 1].kind == TokenKind::mark;
  const bool one = token.word == "l" || (token.word == "i" && (token.capital || begins));
  if (!one || !token.spaced) {
    return std::nullopt;
  }
  // "l 1/4 tsp", "l½ cups": the whole before a fraction.
  const auto part = text[i + 1].is_number() ? fraction(text, i + 1) : std::nullopt;
  if (token.word == "l" && part && part->range.low < 1.0 &&
      is_class(text, part->end, WordClass::unit)) {
    const double sum = 1.0 + part->range.low;
    return Number{{sum, sum}, part->end};
  }
  const Token& tenths = text[i + 2];
  if (token.word == "l" && text[i + 1].is('.') && !text[i + 1].spaced && !tenths.spaced &&
      tenths.kind == TokenKind::number && tenths.end == tenths.begin + 1 &&
      is_class(text, i + 3, WordClass::unit)) {  // "l.5 oz"
    const double sum = 1.0 + 0.1 * tenths.value;
    return Number{{sum, sum}, i + 3};
  }
  const bool measured = is_class(text, i + 1, WordClass::unit) ||
                        is_class(text, i + 1, WordClass::time) ||
                        (is_class(text, i + 1, WordClass::times) && text[i + 2].is_number()) ||
                        (begins && token.word == "i" &&
                         (match_name(text, i + 1) ||
                          (is_class(text, i + 1, WordClass::size) && match_name(text, i + 2))));
  return measured ? std::optional(Number{{1.0, 1.0}, i + 1}) : std::nullopt;
}

}  // namespace

std::optional<Number> trailing_share(const Text& text, std::size_t i) {
  if (!is_class(text, i, WordClass::join) && !text[i].is('&')) {
    return std::nullopt;
  }
  std::size_t at = i + 1;
  double count = 1.0;
  const auto counted =
      is_class(text, at, WordClass::article) ? std::nullopt : counted_word(text, at);
  if (const Match article = match(text, at, WordClass::article)) {
    at = article.end;
  } else if (counted) {
    count = counted->range.low;
    at = counted->end;
  }
  // "1 glass and 1/2 of sugar"
  if (const auto part = fraction(text, at);
      part && part->range.low < 1.0 &&
      (is_class(text, part->end, WordClass::of) ||
       (text[part->end].kind != TokenKind::word && !text[part->end].is_number()))) {
    return Number{part->range, part->end, false, true};
  }
  const Match share = match(text, at, WordClass::share);
  if (!share || count * share.phrase->value >= 1.0) {
    return std::nullopt;
  }
  // "a cup and half a teaspoon" begins another measure.
  const std::size_t next =
      is_class(text, share.end, WordClass::article) ? share.end + 1 : share.end;
  if (next != share.end && is_class(text, next, WordClass::unit)) {
    return std::nullopt;
  }
  const double value = count * share.phrase->value;
  return Number{{value, value}, share.end, false, true};
}

std::optional<Number> one_number(const Text& text, std::size_t i) {
  // "(,25 oz.)": a decimal comma without its nought, at the head of a bracket.
  if (text[i].is(',') && i > 0 && text[i - 1].is('(') && text[i + 1].kind == TokenKind::number &&
      !text[i + 1].spaced && is_class(text, i + 2, WordClass::unit) && text[i + 1].value < 100.0) {
    const double value = text[i + 1].value / (text[i + 1].value < 10.0 ? 10.0 : 100.0);
    return Number{{value, value}, i + 2};
  }
  if (const auto part = fraction(text, i)) {
    Number out = *part;
    // "3/4 3/4 cup": a page that set it twice.
    if (const auto again = fraction(text, out.end);
        again && again->range == out.range && is_class(text, again->end, WordClass::unit)) {
      out.end = again->end;
    }
    if (const Match article = match(text, out.end, WordClass::article);
        article && is_class(text, article.end, WordClass::unit)) {
      out.end = article.end;
    }
    return with_multiple(text, out);
  }
  // "2, 5 spoons", "2 ,5 spoons": a decimal comma with a blank beside it.
  if (text.lexicon->manners.decimal_comma && text[i].kind == TokenKind::number &&
      text[i + 1].is(',') && text[i + 1].spaced != text[i + 2].spaced &&
      text[i + 2].kind == TokenKind::number &&
      (text[i + 2].value == 5.0 || text[i + 2].value == 25.0 || text[i + 2].value == 75.0) &&
      is_class(text, i + 3, WordClass::unit) && text[i].value < 20.0) {
    const double value =
        text[i].value + text[i + 2].value / (text[i + 2].value < 10.0 ? 10.0 : 100.0);
    return Number{{value, value}, i + 3};
  }
  if (text[i].kind == TokenKind::number) {
    // "1 halbes Päckchen"
    if (const Match share = match(text, i + 1, WordClass::share);
        share && text[i].value == 1.0 && is_class(text, share.end, WordClass::unit)) {
      return Number{{share.phrase->value, share.phrase->value}, share.end};
    }
    // "3 quarters of a pint"
    if (const Match share = match(text, i + 1, WordClass::share);
        share && text[i].value > 1.0 && text[i].value < 8.0 && is_whole(text[i].value) &&
        text[i].value * share.phrase->value < 4.0 && is_class(text, share.end, WordClass::of)) {
      return with_share(text, Number{{text[i].value, text[i].value}, share.end},
                        share.phrase->value);
    }
    const double lost = lost_slash(text, i, false);
    const double value = lost > 0.0 ? lost : text[i].value;
    return with_multiple(text, with_fraction(text, {{value, value}, i + 1}));
  }
  if (text[i].kind != TokenKind::word) {
    return std::nullopt;
  }
  if (const auto digits = misread_one(text, i)) {
    return digits;
  }
  if (const auto share = share_number(text, i)) {
    return share;
  }
  if (const auto word = counted_word(text, i)) {
    const Match share = match(text, word->end, WordClass::share);
    constexpr double k_most_of_shares = 4.0;  // "sixteen, half an hour's rest" are no eight hours
    if (share && word->range.low >= 1.0 &&
        word->range.low * share.phrase->value < k_most_of_shares) {
      Number out = *word;
      out.end = share.end;
      return with_share(text, out, share.phrase->value);
    }
    return with_multiple(text, with_fraction(text, *word));
  }
  const Match article = match(text, i, WordClass::article);
  if (article) {
    Number out{{1.0, 1.0}, article.end, true, true};
    if (const Match times = match(text, article.end, WordClass::multiple)) {
      out.article = false;
      return with_multiple(text, out);
    }
    return out;
  }
  if (const Match times = match(text, i, WordClass::multiple);
      times && times.phrase->value < 100.0) {
    Number out{{1.0, 1.0}, i, false, true};
    return with_multiple(text, out);
  }
  return std::nullopt;
}

}  // namespace maslin::reading
