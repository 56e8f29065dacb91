// The kitchen's oven: how long it heats up, and how many pieces it takes at once.
#pragma once

#include "forecast/forecast.h"

namespace maslin {

struct OvenRoom {
  double pieces_at_once = 1.0;
  double preheat_minutes = 18.0;
  double preheat_spread = 0.2;  // relative
  double reload_minutes = 3.0;  // one load out, the next in, hot again
};

/// From data/oven_room.tsv and data/piece_room.tsv; `piece_grams` of dough. Pieces that
/// share a tin or fill a tray go in together; others lie on the kitchen's own trays, or
/// where none is known on a shelf as wide as the oven's.
OvenRoom oven_room_of(const ForecastSetup& setup, double piece_grams);

}  // namespace maslin
