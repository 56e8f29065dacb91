// What a card notes beside the recipe: what was measured how nearly, and what that kitchen asks
// for.
#pragma once

#include "handon/card_words.h"
#include "handon/carried_lines.h"
#include "handon/handon.h"
#include "handon/settle.h"

namespace maslin::handon {

/// The batch was made larger or smaller to come out in the measures there.
void note_batch_factor(Card& card, double factor, const CardWords& words);
/// Measures that were assumed, and no spoon.
void note_means(Card& card, const LineTools& tools);
/// What erred beyond its limit, and what nobody could measure.
void note_lines(Card& card, const LineTools& tools);
void note_power(Card& card, const CardWords& words);
/// A fire that is out before the bread is done.
void note_not_done(Card& card, const Figures& there, const CardWords& words);
/// Flour that has stood in dry or damp air, when that is known of the kitchen.
void advise_flour(Card& card, const Kitchen& from, const LineTools& tools);
/// A dough that is warmer than yeast likes before it has begun.
void note_hot_room(Card& card, const CardWords& words);

}  // namespace maslin::handon
