#pragma once

#include <vector>

#include "reading/draft.h"
#include "reading/places.h"

namespace maslin::reading {

/// What a yeast is whose kind was not said: by its unit, by what else the text says, else by
/// what the country sells; each guess with a doubt. An old cook's liquid yeast becomes a starter.
void settle_yeasts(Draft& draft, const std::vector<PlaceShare>& places, const Pantry& pantry);

}  // namespace maslin::reading
