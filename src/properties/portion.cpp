#include "properties/portion.h"

namespace maslin {

Lanes Portions::total_grams() const {
  Lanes total = 0.0;
  for (const Item& item : items) {
    total += item.grams;
  }
  return total;
}

std::array<Lanes, k_component_count> Portions::components() const {
  std::array<Lanes, k_component_count> grams{};
  for (const Item& item : items) {
    for (std::size_t c = 0; c < k_component_count; ++c) {
      grams[c] += item.grams * item.ingredient->composition.fraction[c];
    }
  }
  return grams;
}

Lanes Portions::grams_of(Component component) const {
  Lanes total = 0.0;
  for (const Item& item : items) {
    total += item.grams * item.ingredient->composition[component];
  }
  return total;
}

Lanes Portions::grams_of_kind(IngredientKind kind) const {
  Lanes total = 0.0;
  for (const Item& item : items) {
    if (item.ingredient->kind == kind) {
      total += item.grams;
    }
  }
  return total;
}

Portions Portions::mixed_in() const {
  Portions out = *this;
  for (Item& item : out.items) {
    item.grams *= item.ingredient->mixes_in;
  }
  return out;
}

}  // namespace maslin
