// Swaps that carry flour and liquid with them: a starter where yeast stood, and back; part of
// the flour cooked to a paste.
#pragma once

#include <optional>
#include <string_view>

#include "adjust/substitution.h"

namespace maslin {

/// A row of data/pastes.tsv.
struct PasteKind {
  std::string name;
  std::vector<std::string> words;
  double flour_pct = 0.0;     // of the dough's flour
  double liquid_ratio = 0.0;  // g of liquid for each g of that flour
  double celsius = 0.0;
  std::string step;
};
/// The kind a word names; nothing when it names none.
std::optional<PasteKind> paste_called(std::string_view word);

/// Whether a leaven is swapped for one of another kind: starter for yeast or yeast for starter.
bool crosses_leavens(const Ingredient& goes, const Ingredient& comes);

/// Puts `comes` where the leaven of line `line` of part `part` stands, as much as
/// data/leavens.tsv gives for the part's flour. What flour and water a starter holds is taken
/// out of the part's heaviest flour and of what is poured into it, or put back there.
void swap_leaven(Swapped& out, const Pantry& pantry, std::size_t part, std::size_t line,
                 const Ingredient& comes);

/// Moves so much of the dough's flour (0: as much as is usual), with liquid of the dough, into
/// a part of its own that is cooked first. A problem when there is no flour or nothing to pour.
Swapped cook_paste(const Recipe& recipe, const Pantry& pantry, const PasteKind& kind,
                   double flour_pct);

}  // namespace maslin
