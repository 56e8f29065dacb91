// How many pieces a line says there are, and the tin it names.
#include "reading/heading.h"

#include <algorithm>
#include <cmath>

#include "reading/measure.h"
#include "reading/setting.h"

namespace maslin::reading {

std::optional<Range> total_count(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) {
    const Match total = match(text, i, WordClass::label);
    if (!total || total.phrase->means != "total" || !is_class(text, total.end, WordClass::of)) {
      continue;
    }
    const auto number = any_number(text, total.end + 1);
    const bool counts = number && !number->article && number->range.low >= 2.0 &&
                        text[number->end].kind == TokenKind::word &&
                        !is_class(text, number->end, WordClass::unit) &&
                        !is_class(text, number->end, WordClass::time) &&
                        !is_class(text, number->end, WordClass::length) &&
                        !is_class(text, number->end, WordClass::degree) &&
                        !match_name(text, number->end);
    if (counts) {
      return number->range;
    }
  }
  return std::nullopt;
}

YieldWords read_yield(const Text& text, std::size_t from, std::size_t to, bool labelled) {
  YieldWords out;
  for (std::size_t i = from; i < to; ++i) {
    if (const Match label = match(text, i, WordClass::label);
        label && label.phrase->means == "yield" &&
        (!is_class(text, i, WordClass::lead) || any_number(text, label.end))) {
      labelled = true;
      i = label.end - 1;
      continue;
    }
    if (const auto time = any_time(text, i)) {
      i = time->end - 1;
      labelled = false;
      continue;
    }
    const auto number = any_number(text, i);
    if (!number) {
      continue;
    }
    std::size_t at = number->end;
    while (is_class(text, at, WordClass::size) || is_class(text, at, WordClass::note)) {
      ++at;
    }
    const bool piece = is_class(text, at, WordClass::piece) && number->range.low >= 1.0;
    const bool bracket = i > from && text[i - 1].is('(') && text[number->end].is(')');
    const auto mass = any_measure(text, i);
    if (mass && grams_in(mass->unit) > 0) {
      const double grams = mass->middle() * grams_in(mass->unit);
      (out.pieces ? out.piece_grams : out.total_grams) = grams;
      i = mass->to - 1;
    } else if (!out.pieces && !number->article && (labelled || piece || bracket) &&
               number->range.low >= 1.0 && number->range.high <= 10'000.0 &&
               !text[number->end].is('%') && !text[number->end].is('^')) {
      out.pieces = number->range;
      i = number->end - 1;
    }
  }
  return out;
}

namespace {

/// A tin called by what it bakes: of "2 lb" 230 x 130 mm, others in proportion (common
/// practice, no source).
std::optional<Tin> tin_by_mass(const Text& text, std::size_t i, std::size_t to) {
  const auto mass = any_measure(text, i);
  const double grams = mass ? mass->middle() * grams_in(mass->unit) : 0.0;
  for (std::size_t at = mass ? mass->to : to; grams > 0.0 && at < std::min(to, mass->to + 2);
       ++at) {
    // "A two pound tin" is for a loaf too; a tin of grams is of food.
    const Match tin = match(text, at, WordClass::tin);
    const bool bare = mass->unit == "lb" && tin && !is_class(text, tin.end, WordClass::of) &&
                      !match_name(text, tin.end);
    if (tin && (bare || tin.phrase->means == "loaf")) {
      const double scale = std::cbrt(grams / 907.0);
      return Tin{"loaf", 230.0 * scale, 130.0 * scale, 70.0 * scale, 0.0, "", ""};
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<Tin> read_tin(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) {
    const auto size = any_size(text, i);
    if (!size) {
      if (auto tin = tin_by_mass(text, i, to)) {
        return tin;
      }
      continue;
    }
    for (std::size_t at = size->end; at < std::min(to, size->end + 4); ++at) {
      // "4 inches apart on sheet pans" is no size of the pan.
      if (is_class(text, at, WordClass::stop) || is_class(text, at, WordClass::lead)) {
        break;
      }
      const Match tin = match(text, at, WordClass::tin);
      if (!tin) {
        continue;
      }
      Tin out;
      out.kind = tin.phrase->means;
      if (size->width_mm > 0.0) {
        out.length_mm = size->length_mm;
        out.width_mm = size->width_mm;
        out.depth_mm = size->depth_mm;
      } else {
        bool square = false;
        for (std::size_t word = size->end; word < tin.end; ++word) {
          square = square || is_class(text, word, WordClass::square);
        }
        (square ? out.length_mm : out.diameter_mm) = size->length_mm;
        out.width_mm = square ? size->length_mm : 0.0;
        out.kind = square ? "tray" : out.kind == "tray" ? "round" : out.kind;
      }
      if (out.kind == "loaf" && out.depth_mm <= 0.0) {
        out.depth_mm = 0.54 * out.width_mm;  // common practice, no source
      }
      return out;
    }
    i = size->end - 1;
  }
  return std::nullopt;
}

}  // namespace maslin::reading
