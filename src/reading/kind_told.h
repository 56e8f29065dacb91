#pragma once

#include <cstddef>

#include "reading/fragments.h"
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

/// The ingredient that the words of `said` make with those of `name` ("rye" and "flour"), as the
/// language orders them; none when they make no name.
KindTold kind_said(const Text& text, const Span& name, const Span& said);

}  // namespace maslin::reading
