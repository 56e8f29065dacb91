#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "reading/token.h"

namespace maslin::reading {

/// An ingredient as named between two tokens, with what was said of it.
struct Noun {
  const Ingredient* ingredient = nullptr;
  double generic = 0.0;  // 1: the kind is not said ("yeast"), 2: only that it is dry, 3: a
                         // liquid of old kitchens, 4: fresh, but dry in packets ("lievito di
                         // birra"), 5: as 1, or baking powder ("lievito")
  std::size_t from = 0;  // the name with its adjectives
  std::size_t to = 0;
  std::size_t match_from = 0;  // the words that named the ingredient
  std::size_t match_to = 0;
  std::string note;  // said before the name: "grated"
  std::string_view packing;
  std::string_view size;
  bool mended = false;  // found only after mending the spelling
};

/// The ingredient named in [from, to): the longest name before the first comma,
/// bracket, "or", purpose or other stop; of equals the last (the first where the noun
/// stands first). `ingredient` is null when no name is known; the words still are.
Noun find_noun(Text& text, std::size_t from, std::size_t to);

/// Eggs, fruit and vegetables, which are counted one by one.
bool is_counted(IngredientKind kind);

/// Where the name that starts at `from` ends, at most `to`.
std::size_t noun_end(const Text& text, std::size_t from, std::size_t to);

}  // namespace maslin::reading
