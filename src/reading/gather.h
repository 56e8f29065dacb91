#pragma once

#include <string_view>

#include "reading/draft.h"
#include "reading/layout.h"
#include "reading/words.h"

namespace maslin::reading {

/// Sorts the lines of a found text: title, headings, ingredients, method, remarks.
Draft gather(const FoundText& found, const Lexicons& lexicons, const Lexicon& lexicon);

}  // namespace maslin::reading
