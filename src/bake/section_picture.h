// The inside of a piece through its bake as one picture: a row each for temperature, water
// and colour, a column for every look.
#pragma once

#include <string>

#include "bake/drawing.h"
#include "bake/section.h"

namespace maslin {

struct SectionWords {
  std::string title;     // "Pumpkin knots"
  std::string sentence;  // "Cut through the middle of a piece of 84 g; done after 23 min."
};

/// A drawing of the run's frames, the whole width of the piece, to scale with its spring.
/// A run without frames gives an empty drawing.
Drawing section_picture(const SectionRun& run, const SectionWords& words);

}  // namespace maslin
