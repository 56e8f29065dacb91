// How cooks fill a measure when the recipe does not say how.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "pantry/pantry.h"

namespace maslin {

/// A measure of at most this many ml is a spoon: it is dipped, and what stands above its
/// rim weighs as much as what is in it.
inline constexpr double k_spoon_ml = 25.0;

/// The shares of cooks who fill a measure in each way, and what no way tells.
struct Filling {
  struct Way {
    std::string packing;
    double share = 0.0;
  };
  std::string of;      // a food's id, or "kind:flour"
  bool spoon = false;  // for spoons; else for cups and larger
  std::vector<Way> ways;
  double spread = 0.0;  // relative: brand, grind, damp, how hard it was pressed
  std::string source;
};

/// The rows of data/fillings.tsv.
std::vector<Filling> fillings_from(std::string_view table);

/// The packing to expect of a filling: mean and spread of the mixture of those of its
/// ways that are known for the food (the first known packing when none is), given by the
/// median of the lognormal with that mean. Nothing when no packing is known.
std::optional<Packing> expected_packing(const Filling& filling, const std::vector<Packing>& known);

}  // namespace maslin
