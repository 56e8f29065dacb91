// How hot a liquid is that goes into the dough, and whether the yeast is stirred into it before
// there is any flour to cool it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "recipe/recipe.h"

namespace maslin {

/// The heat that words give a liquid, C: a figure ("at 60 C", "110F"), else "boiling", "hot milk"
/// (data/bath_words.tsv). Nothing where nothing is said, or that it is cool again.
std::optional<double> liquid_celsius(std::string_view words);

/// A figure alone: "660 g water at 30C".
std::optional<double> stated_celsius(std::string_view words);

/// Yeast that stands in a hot liquid of its own.
struct YeastBath {
  double celsius = 37.0;
  double minutes = 10.0;
  std::string words;    // of the step
  bool stated = false;  // by a figure; "hot" and "boiling" are doubted, and not reckoned with
};

/// The bath that the steps of the recipe give the yeast, from 50 C on: doughs are set with 40 to
/// 46 C by custom.
/// Follows the heat of the liquid through the lines and steps in their order.
std::optional<YeastBath> yeast_bath(const Recipe& recipe);

/// What to say of it: how much of the yeast lives, and what to do.
Doubt bath_doubt(const YeastBath& bath);

}  // namespace maslin
