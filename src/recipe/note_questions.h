// What a baker is asked when a note says what can hardly be: Fahrenheit written for
// Celsius, hours for minutes, a piece heavier after the oven than before.
#pragma once

#include <cstdint>
#include <vector>

#include "recipe/note_words.h"
#include "recipe/observation.h"

namespace maslin {

/// The scale a temperature was written in; Celsius where none was named.
enum class Scale : std::uint8_t { celsius, fahrenheit };

/// Of a temperature outside what is usual: whether the other scale was meant, if that
/// would be usual.
void ask_temperature(Observation& observation, Scale scale, const NoteWords& words);
/// Of a time outside what is usual: whether hours or minutes were meant; of any other
/// value outside: whether it is so.
void ask_usual(Observation& observation, const NoteWords& words);
/// Of a time like 1:10, `minutes` after midnight: whether it was the clock's or how long.
void ask_clock(Observation& observation, double minutes);
/// Of masses before and after the oven that do not go together.
void ask_masses(std::vector<Observation>& observations, const NoteWords& words);

}  // namespace maslin
