// A phrase of a few words: lower case, numbers apart from their units.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace maslin {

struct Phrase {
  std::string text;                // as given
  std::vector<std::string> words;  // "20%" is "20", "%"; filling words are gone

  bool has(std::initializer_list<std::string_view> any) const;
  /// All words, a space between.
  std::string joined() const;
  /// What stands before or after the first of these words; empty when none is there.
  std::string before(std::initializer_list<std::string_view> any) const;
  std::string after(std::initializer_list<std::string_view> any) const;
  /// The first number; number words up to twelve count.
  std::optional<double> number() const;
  /// Numbers by what follows them.
  std::optional<double> grams() const;
  std::optional<double> minutes() const;
  /// "a third", "two thirds", "a quarter": as a share; nothing when none is said.
  std::optional<double> share() const;
  /// What a weight is of ("300 g of flour": "flour"); empty when it is of the whole or of pieces.
  std::string of_what() const;
  std::optional<double> count_of_pieces() const;
  bool has_piece_word() const;
};

Phrase phrase_of(std::string_view text);

/// Parted at commas and semicolons followed by a space or nothing, at new lines, and at "and".
std::vector<std::string> phrases_in(std::string_view text);

}  // namespace maslin
