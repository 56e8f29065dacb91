// The pantry of the program, and lines weighed out of it, for tests.
#pragma once

#include <string>

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

/// Grams of an ingredient in all parts of a recipe, in the middle.
inline double grams_of(const maslin::Recipe& recipe, const std::string& id) {
  double out = 0.0;
  for (const maslin::Part& part : recipe.parts) {
    for (const maslin::Line& line : part.lines) {
      out += line.ingredient_id == id ? line.grams.p50() : 0.0;
    }
  }
  return out;
}
