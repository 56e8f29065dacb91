#pragma once

#include "reading/reading.h"

namespace maslin {

/// Reads whatever was found: recipe text, captions, a saved page or a structured recipe,
/// told apart by their first characters.
Reading read_found(std::string_view found, const Pantry& pantry, const Words& words,
                   const ReadOptions& options);

}  // namespace maslin
