// A bake that was noted on a living card, on its way home: its document, and how it becomes
// a trial of the sender's.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/trials.h"

namespace maslin {

struct BakedEntry {
  enum class Kind : std::uint8_t { begun, done, undone, note, taken_back };
  Kind kind = Kind::note;
  std::string key;
  std::int64_t at_ms = 0;
  int step = 0;      // 0: of no step
  std::string text;  // of a note
  std::string note;  // taken_back: the key of the note
  Certainty certainty = Certainty::ask;
};

/// Where a bake was noted: on a card in a friend's kitchen, or on this program's own page.
enum class BakedOn : std::uint8_t { card, page };

/// The document docs/schema/baked.schema.json describes.
struct Baked {
  BakedOn on = BakedOn::card;
  std::string key;
  std::string title;
  std::string recipe_id;         // SHA-256 of the recipe the card was written of; of the page empty
  std::optional<Recipe> recipe;  // as it was baked; left out of codes to be photographed
  Kitchen kitchen;
  std::int64_t started_at_ms = 0;
  std::vector<BakedEntry> entries;
};
Result<Baked> baked_from_json(std::string_view text);

struct ImportedTrial {
  TrialView view;
  std::size_t added = 0;  // notes and marks that were not there before
};
/// The bake as a trial, open still. The same bake again adds what it has more; nothing twice.
Result<ImportedTrial> import_baked(Store& store, const NoteWords& words, const Baked& baked);

std::string imported_to_json(const ImportedTrial& imported);

}  // namespace maslin
