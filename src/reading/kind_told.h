#pragma once

#include <cstddef>

#include "reading/noun.h"

namespace maslin::reading {

/// An ingredient, and how little its name said of the kind (`Noun::generic`).
struct KindTold {
  const Ingredient* ingredient = nullptr;
  double generic = 0.0;
};

/// The noun's ingredient, or the kind of it that stands behind the noun and its amount, up to `to`:
/// "flour (type 550)", "flour: 500 g wholemeal", "sugar 50 g (caster)".
KindTold kind_told(const Text& text, const Noun& noun, std::size_t to);

}  // namespace maslin::reading
