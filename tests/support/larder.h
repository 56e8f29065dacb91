// The pantry of the program, and lines weighed out of it, for tests.
#pragma once

#include "pantry/pantry.h"
#include "recipe/recipe.h"

/// Every ingredient that the program carries; made once.
inline const maslin::Pantry& whole_pantry() {
  static const maslin::Pantry all(maslin::embedded_pantry_tables());
  return all;
}

/// So many grams of an ingredient, known exactly.
inline maslin::Line weighed_line(const char* id, double grams) {
  maslin::Line out;
  out.ingredient_id = id;
  out.text = id;
  out.grams = maslin::point(grams);
  out.weighed = true;
  return out;
}
