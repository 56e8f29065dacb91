#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "store/sqlite.h"

namespace maslin {

/// A recipe that bears all the words: in its name, its tags or its text of today, else in
/// that of an older version.
struct FoundRecipe {
  std::string name;
  std::string title;
  std::string document_id;  // the version that has the words
  int place = 1;            // of that version in the name's course
  bool current = false;     // whether it is what the name stands for now
};

struct FoundNote {
  std::int64_t trial = 0;
  std::int64_t note = 0;
  std::string recipe;
  std::string text;
  std::int64_t at_ms = 0;
};

struct SearchResult {
  std::vector<FoundRecipe> recipes;  // those of today first, best first
  std::vector<FoundNote> notes;      // newest first
};

/// What bears all the words, whole or as beginnings ("card" finds cardamom), without
/// regard to case and accents; at most `most` of each. No word, nothing found.
SearchResult search_store(Database& database, std::string_view words, int most);

}  // namespace maslin
