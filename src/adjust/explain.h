// Why a line changed, what excludes what, and amounts as one weighs them.
#pragma once

#include <string>
#include <vector>

#include "adjust/adjust.h"
#include "adjust/balance.h"

namespace maslin {

/// The smallest set of wants that exclude each other, each with the nearest that can be
/// had beside the others.
std::vector<Conflict> conflicts_of(const Balance& balance, const std::vector<Want>& wants);

/// Rounded as weighed at home: 1 g, small things to 0.1 g, finer where a want would else be
/// missed; whole items stay whole.
std::vector<double> rounded_grams(const Balance& balance, const std::vector<Want>& wants,
                                  const std::vector<double>& grams);

/// Why a line changed: the unmet want it helps most, else what it keeps as it was.
std::string why_of(const Balance& balance, const std::vector<Want>& wants,
                   const std::vector<double>& before, const std::vector<double>& after,
                   std::size_t line);

/// What the change of one line does by itself: "sugar 24 to 21 % of the flour, feel medium to
/// soft"; empty where it moves nothing that is wanted.
std::string alone_of(const Balance& balance, const std::vector<Want>& wants,
                     const std::vector<double>& before, const std::vector<double>& after,
                     std::size_t line);

}  // namespace maslin
