#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "reading/words.h"

namespace maslin::reading {

enum class TokenKind : std::uint8_t { word, number, fraction, mark, end };

/// A word, number or mark of a line, with where it stands in the line's text.
struct Token {
  TokenKind kind = TokenKind::end;
  bool spaced = true;    // white space before it, or the start of the line
  bool wide = false;     // a tab or two spaces before it: a column
  bool hyphen = false;   // joined by a hyphen to what stands before it
  bool fresh = false;    // first of a caption or of a joined line
  bool capital = false;  // begins with a capital letter
  bool upper = false;    // all capitals, two letters at least
  bool circled = false;  // a number in a ring
  bool torn = false;     // had grown together with what stands before it
  char mark = '\0';
  std::uint32_t begin = 0;  // bytes of Text::raw
  std::uint32_t end = 0;
  double value = 0.0;
  std::string word;              // lower case, no accents, singular
  const Bucket* own = nullptr;   // phrases of the language that begin here
  const Bucket* name = nullptr;  // names of the pantry that begin here

  bool is(char c) const { return kind == TokenKind::mark && mark == c; }
  bool is_number() const { return kind == TokenKind::number || kind == TokenKind::fraction; }
};

/// A line of found text and its tokens; the last token is always of kind end.
struct Text {
  std::string raw;
  std::vector<Token> tokens;
  const Lexicons* lexicons = nullptr;
  const Lexicon* lexicon = nullptr;

  std::size_t size() const { return tokens.size() - 1; }
  const Token& operator[](std::size_t i) const {
    return tokens[i < tokens.size() ? i : tokens.size() - 1];
  }
  /// The raw text of the tokens [from, to).
  std::string_view slice(std::size_t from, std::size_t to) const;
};

Text tokenise(std::string_view raw, const Lexicons& lexicons, const Lexicon& lexicon);

/// Looks the token's word up again after it was changed.
void bind(Text& text, std::size_t i);

/// Mends a word that means nothing: a misread first letter, a unit grown together with the
/// word after it (which becomes two tokens).
void mend_unbound(Text& text, std::size_t i);

/// "Ei(er)" is "Ei".
void drop_bracketed_endings(Text& text);

/// A phrase found at a token.
struct Match {
  const Phrase* phrase = nullptr;
  std::size_t end = 0;  // the token after it
  explicit operator bool() const { return phrase != nullptr; }
};

/// The longest phrase of that class that begins at token `i`.
Match match(const Text& text, std::size_t i, WordClass cls);
/// The same, of the pantry's names too.
Match match_name(const Text& text, std::size_t i);
bool is_class(const Text& text, std::size_t i, WordClass cls);

}  // namespace maslin::reading
