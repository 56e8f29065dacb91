// How the pieces go through that oven, and how it is used without a dial or a thermometer.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "dough/dough.h"
#include "handon/card_words.h"
#include "handon/handon.h"

namespace maslin::handon {

/// What is to be baked there.
struct Pieces {
  double count = 1.0;
  double grams = 0.0;  // of one, filled
  std::string shape;   // as the forecast names it: bun, cluster, tin_loaf, ...
};

/// A bun of m grams spreads to about 22 m^(1/3) mm across: common practice, no source (the same
/// figure as the forecast's).
double breadth_mm(double grams);

struct OvenFit {
  std::optional<Batch> batch;       // nothing when nobody knows how much room there is
  std::vector<std::string> notes;   // too small for a piece, a tin too small, and what to do
  std::optional<double> new_count;  // of pieces that fit, where one of these does not
};

/// Into loads by the kitchen's trays and tins, else by the room such a thing usually has. A loaf
/// is held against the tins' volume (`dough` tells how full); small pieces against the floor.
OvenFit fit_oven(const Kitchen& kitchen, const Pieces& pieces, const DoughState& dough,
                 const CardWords& words);

/// Setting up, heat, turning, signs of done for that oven at `celsius`.
std::vector<BakeAdvice> bake_advice(const Kitchen& kitchen, std::optional<double> celsius,
                                    std::optional<double> core_celsius, const CardWords& words);

/// A row of the advice table in this language, filled; nothing when there is none.
std::optional<BakeAdvice> advice_for(std::string_view when, const CardWords& words,
                                     std::initializer_list<std::string> with);

}  // namespace maslin::handon
