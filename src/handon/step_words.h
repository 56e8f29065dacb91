// Steps as they are to be done there: the recipe's own words with its new times and heats.
#pragma once

#include <optional>
#include <string>

#include "handon/card_words.h"
#include "recipe/recipe.h"

namespace maslin::handon {

/// English words with their one time and one temperature put anew ("about 1 hour" becomes
/// "95–140 minutes", "375F" "220 °C"); a time is added before the full stop where there was
/// none. Nothing when the words hold several of either, or a gas mark, and cannot be put anew.
std::optional<std::string> restated(const std::string& words, const std::optional<Range>& minutes,
                                    const std::optional<std::string>& heat);

/// A sentence from the step's kind and settings, in the card's language.
std::string sentence_of(const Step& step, const CardWords& words);

}  // namespace maslin::handon
