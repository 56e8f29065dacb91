// The book of checks: every figure held against the world goes through `against`, which
// checks it and writes it down. `tools/book_of_checks` makes docs/checks.md of the rows.
#pragma once

#include <doctest/doctest.h>

#include <string>
#include <string_view>

namespace book {

/// Where the published figure comes from.
enum class Mark {
  read,      // the source was read
  memory,    // nobody read it
  derived,   // follows from other published figures or a law
  computed,  // worked out elsewhere by the same formula or an independent implementation
  trade,     // common practice, no source
};

/// What is expected, as an interval and as it is printed.
struct Expected {
  double low;
  double high;
  std::string text;
};
Expected near(double value, double within);
/// `share` of the value: 0.02 is 2 %.
Expected near_share(double value, double share);
Expected between(double low, double high);
Expected at_least(double value);
Expected at_most(double value);

/// A published figure: the subject it counts under, what it is, its unit and its source.
struct Figure {
  std::string_view subject;
  std::string what;
  std::string_view unit;
  std::string_view source;
  Mark mark = Mark::read;
  /// Why it is missed; empty where it is met.
  std::string_view miss = "";
};

/// Writes the row to the book; true when the figure is as the book says: met, or missed
/// with its reason. A known miss that comes right must lose its reason.
bool as_noted(const Figure& figure, double got, const Expected& expected);
/// A row whose figure is a word, such as a class.
bool as_noted(const Figure& figure, std::string_view got, std::string_view expected, bool met);

/// Checks `got` and writes it down.
inline void against(const Figure& figure, double got, const Expected& expected) {
  CHECK_MESSAGE(as_noted(figure, got, expected), figure.what, ": ", got, " against ", expected.text,
                figure.miss.empty() ? "" : " (a known miss)");
}

/// The mark of a table's source: "… read", "… derived", "… from memory", "computed …",
/// "common practice".
Mark mark_in(std::string_view source);

}  // namespace book
