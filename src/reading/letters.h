#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace maslin::reading {

/// What a character is to a reader of recipes.
enum class LetterHow : std::uint8_t {
  letter,    // stands for `plain` inside a word
  space,     //
  drop,      // carries no meaning: combining marks, joiners, skin tones
  mark,      // punctuation; pictures and bullets are '*', degree signs '^'
  fraction,  // `plain` is "1/2"
  digit,     // a small or wide digit
  circled,   // a number in a ring: the numbering of a step
  other      // nothing known: part of a word in another script
};

struct Letter {
  std::string_view plain;
  LetterHow how = LetterHow::other;
};

/// Characters to plain ASCII letters, digits and marks, by the table letters.tsv. ASCII
/// stands for itself. Views point into the table's text.
class Letters {
 public:
  explicit Letters(std::string_view table);
  Letter of(char32_t code) const;

 private:
  struct Row {
    char32_t from = 0;
    char32_t to = 0;
    std::string_view plain;
    LetterHow how = LetterHow::other;
    bool run = false;
  };
  std::vector<Row> rows_;
};

struct Decoded {
  char32_t code = 0;  // U+FFFD for a broken sequence
  std::uint32_t bytes = 1;
};
/// The character that starts at `at` (at < text.size()).
Decoded decode(std::string_view text, std::size_t at);

/// The text with every broken UTF-8 sequence replaced by U+FFFD and control characters
/// but tab and newline by spaces.
std::string valid_utf8(std::string_view text);

/// Lower case without accents: "Crème" -> "creme", by the same table.
std::string plain_text(const Letters& letters, std::string_view text);

}  // namespace maslin::reading
