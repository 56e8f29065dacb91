// The unknowns of the physics: their distributions from data/, and the way of a drawn
// value into the model that uses it.
#pragma once

#include <vector>

#include "bake/bake.h"
#include "dough/dough.h"
#include "finish/tables.h"
#include "finish/unknowns.h"
#include "forecast/bowl.h"
#include "forecast/ensemble.h"
#include "recipe/kitchen.h"
#include "rise/rise.h"

namespace maslin {

/// Unknowns of the kitchen itself, one draw in each lane.
struct KitchenDraws {
  Lanes room_celsius = 21.5;
  Lanes warm_place_above_room = 7.0;
  Lanes warm_liquid_celsius = 37.0;
  Lanes mixing_temperature_error = 0.0;
  Lanes fridge_celsius = 5.0;
  Lanes bake_pace = 1.0;    // times every way by which heat gets into the piece
  Lanes done_core_k = 0.0;  // what this baker adds to the core at which a piece is done
  Lanes yeast_alive = 0.5;  // below 0: dead
};

struct ModelDraws {
  KitchenDraws kitchen;
  DoughUnknowns dough;
  RiseUnknowns rise;
  BakeUnknowns bake;
  FinishUnknowns finish;
};

/// The tables the models work from. A value: make one, pass it by reference.
struct Models {
  DoughModel dough = dough_model();
  FinishTables finish = embedded_finish_tables();
  std::vector<FinishUnknownRow> finish_unknowns = finish_unknown_rows();
};

/// The unknowns of every model in a fixed order. What the kitchen states replaces the
/// general distribution: a room of 20 degrees is 20 give or take 1, an oven known to be
/// 15 hot is 15 give or take 4.
std::vector<Unknown> model_unknowns(const Kitchen& kitchen, const Models& models);

/// The values of one batch (from `first` on, in the order of model_unknowns) where they
/// belong.
ModelDraws model_draws(const Models& models, const Kitchen& kitchen, const BatchDraws& draws,
                       std::size_t first);

}  // namespace maslin
