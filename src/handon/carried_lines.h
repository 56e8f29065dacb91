// Lines as they are taken in that kitchen: on its scale, by its measures, counted, or as found.
#pragma once

#include <string>
#include <vector>

#include "handon/card_words.h"
#include "handon/handon.h"
#include "handon/household.h"

namespace maslin::handon {

/// Grams as they are written: whole from 20, a tenth below, a hundredth below 1.
double written_grams(double grams);
std::string grams_words(double grams, const CardWords& words);

/// What the lines are carried with.
struct LineTools {
  const Pantry& pantry;
  const Means& means;
  const CardWords& words;
};

/// The line as it is taken. A line of another part or never weighed stays as found; counted
/// things stay counted; eggs given by weight become whole eggs where that is within 5 %.
HouseholdAmount amount_of(const Line& line, const LineTools& tools);

/// The factor between 0.9 and 1.12 on the whole batch that brings flour, liquid, salt and yeast
/// within their limit where measures alone do not; 1 when it is not needed or does not help.
/// Counted things stay, so it is only for what it gains.
double batch_factor(const Recipe& recipe, const LineTools& tools);

/// Every weighed line stated in written grams, `factor` times as much; counted things stay.
void write_grams(Recipe& recipe, const Pantry& pantry, double factor);

/// "1 3/4 mugs and 2 spoons", with how they are filled when not level.
std::string amount_words(const HouseholdAmount& amount, const CardWords& words);

}  // namespace maslin::handon
