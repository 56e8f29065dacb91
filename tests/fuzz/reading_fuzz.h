#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "pantry/pantry.h"
#include "reading/reading.h"
#include "recipe/recipe_json.h"

/// The tables every fuzz program reads with, made once.
struct FuzzTables {
  maslin::Pantry pantry{maslin::embedded_pantry_tables()};
  maslin::Words words{pantry};
};
inline const FuzzTables& fuzz_tables() {
  static const FuzzTables k_tables;
  return k_tables;
}

/// What must hold of any reading: weights are finite and positive, a text that is not refused
/// comes back with a part, and what was read can be kept and opened again.
inline void check_reading(const maslin::Reading& reading) {
  if (!reading.problem && reading.recipe.parts.empty()) {
    std::abort();
  }
  if (!reading.problem &&
      !maslin::recipe_from_json(maslin::recipe_to_json(reading.recipe)).problems.empty()) {
    std::abort();
  }
  for (const maslin::Part& part : reading.recipe.parts) {
    for (const maslin::Line& line : part.lines) {
      const double grams = line.grams.p50();
      if (line.weighed && !(grams >= 0.0 && grams < 1e13)) {
        std::abort();
      }
    }
  }
}

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}
