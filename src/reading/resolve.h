#pragma once

#include "reading/draft.h"
#include "reading/places.h"

namespace maslin::reading {

/// Settles what only the whole text can: lines that are other parts of the recipe, a
/// plain "yeast", names nobody knows.
void resolve(Draft& draft, const std::vector<PlaceShare>& places, const Lexicons& lexicons);

/// Bare numbers beside a flour in cups, or in none, are cups or spoons, whichever fits; each
/// with its doubt.
void settle_bare_cups(Draft& draft);

}  // namespace maslin::reading
