// The picture of a forecast's bake: one middling piece, cut through, from loading to done.
#pragma once

#include <string>

#include "bake/drawing.h"
#include "forecast/forecast.h"

namespace maslin {

struct BakePicture {
  std::string problem;  // one sentence where there is nothing to draw, else empty
  Drawing drawing;
};

/// The lane in the middle of the eight.
std::size_t middling_draw(const Lanes& minutes);

/// Of the eight draws of the forecast's first batch that whose bake ends nearest their
/// median, at six moments.
BakePicture picture_of_bake(const ForecastSetup& setup, const BatchOutcome& first);

}  // namespace maslin
