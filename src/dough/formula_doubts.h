// Is the formula sane: held against what doughs of its kind contain.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "dough/dough.h"

namespace maslin {

struct FormulaRange {
  std::string kind;  // "any", "bagels", ...
  std::vector<std::string> words;
  std::string what;
  double low = 0.0;
  double high = 0.0;
  std::string source;
};
/// The table data/formula_ranges.tsv.
std::vector<FormulaRange> formula_ranges();

/// One figure of a dough that stands outside what doughs like it contain.
struct FormulaDoubt {
  std::string what;  // as in the table: "yeast", "salt", ...
  double value = 0.0;
  double low = 0.0;
  double high = 0.0;
  std::string kind;    // whose range it is
  std::string likely;  // the likely cause
  std::string mend;    // what to do, with the figure in grams where there is one
};

/// The kind a title names ("hot cross buns"), the longest word found winning; "any" else.
std::string formula_kind_of(const std::vector<FormulaRange>& ranges, std::string_view title);

/// The doubts about a dough of that kind, by its median lane-mean figures. A batter (by
/// feel) is not held to the hydration of doughs. Empty when the bowl holds no flour.
std::vector<FormulaDoubt> formula_doubts(const std::vector<FormulaRange>& ranges,
                                         std::string_view kind, const DoughState& state);

}  // namespace maslin
