#include "support/book.h"

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <limits>

namespace book {
namespace {

constexpr double k_infinity = std::numeric_limits<double>::infinity();

std::string figure_text(double value) {
  char out[32];
  std::snprintf(out, sizeof out, "%.5g", value);
  return out;
}

std::string_view mark_word(Mark mark) {
  switch (mark) {
    case Mark::read:
      return "read";
    case Mark::memory:
      return "from memory";
    case Mark::derived:
      return "derived";
    case Mark::computed:
      return "computed";
    case Mark::trade:
      break;
  }
  return "common practice";
}

/// One file a program, begun anew by each run.
std::ofstream& page() {
  static std::ofstream out = [] {
    std::string name = MASLIN_BINARY_DIR "/checks/";
    name += program_invocation_short_name;
    return std::ofstream(name + ".tsv");
  }();
  return out;
}

std::string one_line(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    c = c == '\t' || c == '\n' ? ' ' : c;
  }
  return out;
}

void write(const Figure& figure, std::string_view got, std::string_view expected, bool met) {
  page() << one_line(figure.subject) << '\t' << one_line(figure.what) << '\t' << expected << '\t'
         << got << '\t' << one_line(figure.unit) << '\t' << (met ? "met" : "missed") << '\t'
         << mark_word(figure.mark) << '\t' << one_line(figure.source) << '\t'
         << one_line(figure.miss) << std::endl;
}

}  // namespace

Expected near(double value, double within) {
  return {value - within, value + within, figure_text(value) + " ± " + figure_text(within)};
}

Expected near_share(double value, double share) {
  const double within = (value < 0 ? -value : value) * share;
  return {value - within, value + within,
          figure_text(value) + " ± " + figure_text(100.0 * share) + " %"};
}

Expected between(double low, double high) {
  return {low, high, figure_text(low) + " to " + figure_text(high)};
}

Expected at_least(double value) {
  return {value, k_infinity, "at least " + figure_text(value)};
}

Expected at_most(double value) {
  return {-k_infinity, value, "at most " + figure_text(value)};
}

bool as_noted(const Figure& figure, double got, const Expected& expected) {
  const bool met = got >= expected.low && got <= expected.high;
  write(figure, figure_text(got), expected.text, met);
  return met == figure.miss.empty();
}

bool as_noted(const Figure& figure, std::string_view got, std::string_view expected, bool met) {
  write(figure, got, expected, met);
  return met == figure.miss.empty();
}

Mark mark_in(std::string_view source) {
  const auto has = [source](std::string_view word) {
    return source.find(word) != std::string_view::npos;
  };
  if (has("from memory")) {
    return Mark::memory;
  }
  if (has("common practice")) {
    return Mark::trade;
  }
  if (has("independent script") || has("computed")) {
    return Mark::computed;
  }
  if (has("derived")) {
    return Mark::derived;
  }
  return Mark::read;
}

}  // namespace book
