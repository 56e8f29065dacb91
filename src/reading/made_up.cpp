#include "reading/made_up.h"

#include <algorithm>
#include <cmath>

#include "quantity/number_text.h"
#include "reading/draft_line.h"
#include "reading/fragments.h"

namespace maslin::reading {
namespace {

// Between p10 and p90 of a normal distribution lie so many standard deviations.
constexpr double k_tenths_apart_sd = 2.563;

bool joins(const Text& text, std::size_t i) {
  return is_class(text, i, WordClass::join) || is_class(text, i, WordClass::plus) ||
         text[i].is('+') || text[i].is('&') || text[i].is(',');
}

/// Where the words of filling up begin, with the measure behind them; `to` where none do.
struct FilledTo {
  std::size_t words = 0;
  Amounts amounts;
};
FilledTo filled_to(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) {
    const Match words = match(text, i, WordClass::fill_up);
    if (!words) {
      continue;
    }
    Amounts amounts = amounts_at(text, words.end, to);
    const UnitKind unit = amounts.primary ? unit_kind(amounts.primary->unit) : UnitKind::none;
    if (amounts.primary && amounts.primary->number &&
        (unit == UnitKind::volume || unit == UnitKind::mass)) {
      return {i, std::move(amounts)};
    }
  }
  return {to, {}};
}

double sd_of(const Distribution& grams) {
  return (grams.p90() - grams.p10()) / k_tenths_apart_sd;
}

/// What is left of a measure, `rest` with this spread: never less than nothing is poured.
Distribution left_of(double rest, double sd) {
  constexpr double k_clear_of_nothing_sd = 3.0;
  if (!(rest > 0.0) || !(sd > 0.0)) {
    return point(rest);
  }
  return rest > k_clear_of_nothing_sd * sd ? normal(rest, sd) : lognormal(rest, sd / rest);
}

}  // namespace

std::vector<DraftLine> read_made_up(Text& text, std::size_t from, std::size_t to) {
  const FilledTo filled = filled_to(text, from, to);
  if (filled.words >= to) {
    return {};
  }
  std::vector<DraftLine> out;
  Noun noun;
  std::size_t line_from = from;
  if (is_class(text, filled.amounts.end, WordClass::join) ||
      is_class(text, filled.amounts.end, WordClass::with)) {
    // "made up to 300 ml with milk"
    noun = find_noun(text, filled.amounts.end + 1, to);
    std::size_t before = filled.words;
    while (before > from && joins(text, before - 1)) {
      --before;
    }
    out = read_ingredient(text, from, before);
  } else {
    // "2 eggs and juice to make 300 ml": behind the last joint that no amount follows.
    std::size_t joint = from;
    for (std::size_t i = from; i < filled.words; ++i) {
      joint = joins(text, i) && !amounts_at(text, i + 1, filled.words).primary ? i : joint;
    }
    line_from = joins(text, joint) ? joint + 1 : from;
    if (amounts_at(text, line_from, filled.words).primary) {
      return {};  // it has an amount of its own
    }
    noun = find_noun(text, line_from, filled.words);
    if (line_from > from) {
      out = read_ingredient(text, from, line_from - 1);
    }
  }
  if (noun.to <= noun.from) {
    return {};
  }
  DraftLine line = one_line(text, line_from, to, filled.amounts, noun, noun.to);
  line.made_up = true;
  line.made_up_with = out.size();
  out.push_back(std::move(line));
  return out;
}

std::size_t made_up_end(const Text& text, std::size_t from, std::size_t to) {
  constexpr std::size_t k_longest_clause = 16;
  std::size_t end = from;
  while (end < std::min(to, from + k_longest_clause) && !text[end].is('.') && !text[end].is(';') &&
         !text[end].is(':')) {
    ++end;
  }
  const FilledTo filled = filled_to(text, from, end);
  if (filled.words >= end) {
    return from;
  }
  const std::size_t after = filled.amounts.end;
  const bool with =
      is_class(text, after, WordClass::join) || is_class(text, after, WordClass::with);
  const Match name = with ? match_name(text, after + 1) : Match{};
  return name ? name.end : after;
}

void weigh_made_up(std::vector<DraftLine>& lines, std::size_t at) {
  DraftLine& line = lines[at];
  if (!line.made_up || !line.line.weighed) {
    return;
  }
  std::size_t with = std::min(line.made_up_with, at);
  // Under the eggs, on a line of its own.
  const bool under_eggs = with == 0 && at > 0 && lines[at - 1].ingredient != nullptr &&
                          lines[at - 1].ingredient->kind == IngredientKind::egg;
  with = under_eggs ? 1 : with;
  if (with == 0) {
    return;
  }
  double there = 0.0;
  double variance = std::pow(sd_of(line.line.grams), 2);
  for (std::size_t i = at - with; i < at; ++i) {
    there += lines[i].line.weighed ? lines[i].line.grams.p50() : 0.0;
    variance += lines[i].line.weighed ? std::pow(sd_of(lines[i].line.grams), 2) : 0.0;
  }
  const double whole = line.line.grams.p50();
  const double rest = std::max(whole - there, 0.0);
  line.line.grams = left_of(rest, std::sqrt(variance));
  line.line.found = {Range{std::round(rest), std::round(rest)}, "g", "", ""};
  line.doubts.push_back(
      {line.line.text, rest > 0.0
                           ? "what the things before it leave of the measure: about " +
                                 number_text(rest, 0) + " g of " + number_text(whole, 0)
                           : "the things before it fill the measure by themselves: nothing was "
                             "taken"});
}

}  // namespace maslin::reading
