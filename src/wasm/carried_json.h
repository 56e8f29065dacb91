// A recipe carried to a kitchen, as the document the living card shows.
#pragma once

#include "handon/handon.h"
#include "recipe/json.h"

namespace maslin::wasm {

/// {"recipe", "title", "yield", "setting", "parts": [{"name", "grams", "lines", "steps"}],
/// "changes", "batch", "baking", "cautions", "notes"}; a step carries its kind, minutes,
/// celsius and until beside its words, so that it is a checklist as well.
Json carried_json(const handon::Card& card);

}  // namespace maslin::wasm
