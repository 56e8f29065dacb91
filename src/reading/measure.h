#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "reading/number.h"

namespace maslin::reading {

enum class UnitKind : std::uint8_t { none, mass, volume, container, count, loose, percent, part };
UnitKind unit_kind(std::string_view unit);

/// An amount with its unit as found, before the ingredient is known.
struct FoundMeasure {
  std::optional<Range> number;
  std::string_view unit;  // kitchen unit, singular English; empty for counted things
  std::string word;       // the word it was written with: "clove", "sachet"
  std::string_view size;
  std::string_view packing;
  std::optional<Range> content;  // of one container
  std::string_view content_unit;
  std::size_t from = 0;
  std::size_t to = 0;
  bool bare_article = false;  // "a" and no unit: one, if a countable thing follows
  bool approximate = false;
  std::optional<Range> of_sum;  // the number before a sum was added, for the words

  double middle() const { return number ? number->middle() : 0.0; }
};

/// The measure that begins at token `i`: a number with a unit, a number alone, a loose
/// amount ("a pinch", "some"). Times, lengths and temperatures are none.
std::optional<FoundMeasure> any_measure(const Text& text, std::size_t i);

/// Millilitres in one of a metric or imperial volume unit of fixed size, 0 for others.
/// How many of the first unit one of the second is; 0 when they cannot be compared.
double unit_ratio(std::string_view first, std::string_view second);
double fixed_ml(std::string_view unit);

/// The unit set before the number at `i`: "grammi 300", "ml 150"; only grams and litres and
/// their parts, and not the unit of a number before.
Match unit_ahead(const Text& text, std::size_t i);

}  // namespace maslin::reading
