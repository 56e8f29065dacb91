// The mains that are on for a part of the day: whether the bake fits, and what is to be done.
#pragma once

#include <optional>
#include <string>

#include "handon/card_words.h"
#include "handon/handon.h"

namespace maslin::handon {

/// Whether a kind of oven needs the mains: gas lit by a match does not.
bool is_electric(OvenKind kind);

/// What to say of a bake of `loads` loads, each of at most `bake_minutes`, where the kitchen's
/// power is on for a part of the day: that it fits and how late it may begin; or that it does
/// not, and how many loads go into a day. Nothing where the mains never fail or no mains are
/// needed. Heating up and reloading take what data/oven_room.tsv says.
std::optional<std::string> power_note(const Kitchen& kitchen, int loads, double bake_minutes,
                                      const CardWords& words);

}  // namespace maslin::handon
