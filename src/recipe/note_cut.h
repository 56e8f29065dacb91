#pragma once

#include <string_view>
#include <vector>

#include "recipe/note_words.h"

namespace maslin {

/// The note as words, numbers and breaks, before any word is looked up: letters folded,
/// signs like × and ½ written out, apostrophes dropped, digits parted from letters.
std::vector<NoteItem> cut_note(std::string_view note);

}  // namespace maslin
