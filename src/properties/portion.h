// properties: from composition to physical properties (heat capacity, conductivity,
// density, water activity, vapour pressure), over lanes.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "numerics/lanes.h"
#include "pantry/ingredient.h"

namespace maslin {

/// So much of an ingredient in one bowl, g in each lane. What every physical model
/// takes: a dough, a filling or a glaze is a list of portions.
struct Portions {
  struct Item {
    const Ingredient* ingredient = nullptr;
    Lanes grams;
  };
  std::vector<Item> items;

  Lanes total_grams() const;
  /// Grams of each component over all items.
  std::array<Lanes, k_component_count> components() const;
  Lanes grams_of(Component component) const;
  Lanes grams_of_kind(IngredientKind kind) const;
  /// The same without what stays in pieces (raisins, nuts): what the dough itself is made of.
  Portions mixed_in() const;
};

}  // namespace maslin
