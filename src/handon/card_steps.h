// The steps of a card: the recipe's own, with the times and heats of that kitchen.
#pragma once

#include "handon/card_words.h"
#include "handon/handon.h"

namespace maslin::handon {

/// Puts the forecast's minutes of the rises and the bake into the recipe's steps where they differ
/// from what it says by more than a seventh, and says each changed step anew.
void settle_steps(Recipe& recipe, const Recipe& original, const ForecastSummary& there,
                  const CardWords& words);

/// The steps of a part as they are read out: what the reader of the recipe cut apart within a
/// sentence ("Roll out", "and cut into 12") stands together again. Numbers count on from `number`.
std::vector<CardStep> card_steps(const Part& part, const Part* original, int number,
                                 const CardWords& words);

}  // namespace maslin::handon
