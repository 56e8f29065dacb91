// Tokens that a scan or a page that lost its blanks made unreadable.
#include <algorithm>

#include "reading/spelling.h"
#include "reading/token.h"

namespace maslin::reading {
namespace {

bool is_unbound(const Token& token) {
  return token.kind == TokenKind::word && token.own == nullptr && token.name == nullptr;
}

/// "Iinseed": a scan's capital I for the l that the word begins with.
void mend_first_letter(Text& text, std::size_t i) {
  Token& token = text.tokens[i];
  if (text.raw[token.begin] != 'I' || token.upper || token.word.size() < 4) {
    return;
  }
  token.word[0] = 'l';
  bind(text, i);
  if (is_unbound(token)) {
    token.word[0] = 'i';
    bind(text, i);
  }
}

bool is_unit_word(const Bucket* bucket) {
  return bucket != nullptr &&
         std::any_of(bucket->phrases.begin(), bucket->phrases.end(), [](const Phrase& phrase) {
           return phrase.cls == WordClass::unit && phrase.rest.empty();
         });
}

bool names_one(const Text& text, std::string_view word) {
  const auto is_name = [](const Bucket* bucket) {
    return bucket != nullptr &&
           std::any_of(bucket->phrases.begin(), bucket->phrases.end(), [](const Phrase& phrase) {
             return phrase.cls == WordClass::name && phrase.rest.empty();
           });
  };
  return is_name(text.lexicon->bucket(word)) || is_name(text.lexicons->names.bucket(word));
}

/// Words that follow a name in a list: "softened", "chopped", "or", "plus", another name.
bool is_said_after(const Text& text, std::string_view word) {
  const Bucket* own = text.lexicon->bucket(word);
  const bool said = own != nullptr && (own->has(WordClass::note) || own->has(WordClass::packing) ||
                                       own->has(WordClass::plus) || own->has(WordClass::purpose));
  return said || names_one(text, word);
}

/// Letters of a name that something else has grown onto, 0 when there is none: "buttermelted". On
/// a page that lost its blanks (`lost`) anything may have.
std::size_t glued_name(const Text& text, std::string_view raw, bool lost) {
  constexpr std::size_t k_least = 3;
  constexpr std::size_t k_least_said = 4;
  for (std::size_t n = raw.size(); n-- > k_least;) {
    const std::string rest = folded_name(raw.substr(n));
    if (rest.size() >= k_least &&
        (lost || (rest.size() >= k_least_said && is_said_after(text, rest))) &&
        names_one(text, folded_name(raw.substr(0, n)))) {
      return n;
    }
  }
  return 0;
}

/// Where a capital begins a new word inside a longer one, on a page that lost its breaks:
/// "evoAcqua"; 0 when it does not, or the second part is nobody's word.
std::size_t inner_capital(const Text& text, std::string_view raw) {
  constexpr std::size_t k_least = 3;
  const auto small = [](char c) { return c >= 'a' && c <= 'z'; };
  for (std::size_t n = k_least; n + k_least <= raw.size(); ++n) {
    const bool turns = small(raw[n - 1]) && raw[n] >= 'A' && raw[n] <= 'Z' && small(raw[n + 1]);
    const std::string rest = turns ? folded_name(raw.substr(n)) : std::string();
    if (turns && (text.lexicon->bucket(rest) != nullptr || names_one(text, rest))) {
      return n;
    }
  }
  return 0;
}

/// "¼cupunsalted buttermelted", "1large eggslightly beaten".
void unglue_name(Text& text, std::size_t i) {
  constexpr std::size_t k_shortest = 7;
  constexpr std::size_t k_longest = 40;
  const Token token = text[i];
  const std::string_view raw =
      std::string_view(text.raw).substr(token.begin, token.end - token.begin);
  if (raw.size() < k_shortest || raw.size() > k_longest) {
    return;
  }
  bool lost = false;
  for (std::size_t at = 0; at <= i; ++at) {
    lost = lost || text[at].torn;
  }
  const std::size_t capital = inner_capital(text, raw);
  const std::size_t n = capital > 0                       ? capital
                        : text.lexicon->manners.compounds ? 0
                                                          : glued_name(text, raw, lost);
  if (n == 0) {
    return;
  }
  Token name = token;
  name.end = token.begin + static_cast<std::uint32_t>(n);
  name.word = folded_name(raw.substr(0, n));
  Token rest = token;
  rest.begin = name.end;
  rest.word = folded_name(raw.substr(n));
  rest.spaced = rest.torn = true;
  rest.upper = rest.hyphen = false;
  rest.capital = capital > 0;
  text.tokens[i] = name;
  text.tokens.insert(text.tokens.begin() + static_cast<std::ptrdiff_t>(i) + 1, rest);
  bind(text, i);
}

/// "500gbread flour", "2 tablespoonsground cinnamon": a page that lost its blanks.
void unglue_unit(Text& text, std::size_t i) {
  const Token token = text[i];
  if (i == 0 || !text[i - 1].is_number()) {
    return;
  }
  const std::string_view raw =
      std::string_view(text.raw).substr(token.begin, token.end - token.begin);
  const std::size_t shortest = 1;
  for (std::size_t n = std::min<std::size_t>(raw.size() - 1, 12); n >= shortest; --n) {
    const std::string rest = folded_name(raw.substr(n));
    const Bucket* small = text.lexicon->bucket(rest);
    const bool of = small != nullptr && small->has(WordClass::of);  // "250mldi latte"
    if ((rest.size() < 3 && !of) ||
        !is_unit_word(text.lexicon->bucket(folded_name(raw.substr(0, n))))) {
      continue;
    }
    Token unit = token;
    unit.end = token.begin + static_cast<std::uint32_t>(n);
    unit.word = folded_name(raw.substr(0, n));
    Token word = token;
    word.begin = unit.end;
    word.word = rest;
    word.spaced = word.torn = true;
    word.capital = word.upper = false;
    bool known =
        text.lexicon->bucket(rest) != nullptr || text.lexicons->names.bucket(rest) != nullptr;
    known = known || (n > 1 && glued_name(text, raw.substr(n), true) > 0);  // "tbspsaltgranulated"
    // "1/2 cmargerine": misspelt as well.
    if (!known && rest.size() > 5) {
      if (const std::string right = mended_word(*text.lexicons, rest, Mending::any);
          !right.empty()) {
        word.word = right;
        known = true;
      }
    }
    if (known) {
      text.tokens[i] = unit;
      text.tokens.insert(text.tokens.begin() + static_cast<std::ptrdiff_t>(i) + 1, word);
      bind(text, i);
      return;
    }
  }
}

/// Whether a unit of several words may begin at one of the few tokens before `i`.
bool may_end_unit(const Text& text, std::size_t i, std::size_t longest) {
  for (std::size_t from = i > longest ? i - longest : 0; from < i; ++from) {
    const Bucket* own = text[from].own;
    if (text[from].kind != TokenKind::word || own == nullptr || !own->has(WordClass::unit)) {
      continue;
    }
    for (const Phrase& phrase : own->phrases) {
      if (phrase.cls == WordClass::unit && !phrase.rest.empty()) {
        return true;
      }
    }
  }
  return false;
}

/// "1cuil. à soupelait", "2 cuil. à caféde sel": grown onto the last word of a unit of several.
void unglue_phrase(Text& text, std::size_t i) {
  constexpr std::size_t k_longest_unit = 4;
  constexpr std::size_t k_shortest = 2;
  constexpr std::size_t k_least_letters = 6;
  const Token token = text[i];
  const std::string_view raw =
      std::string_view(text.raw).substr(token.begin, token.end - token.begin);
  if (raw.size() < k_least_letters || !may_end_unit(text, i, k_longest_unit)) {
    return;  // cheap first
  }
  for (std::size_t n = raw.size() - k_shortest; n > k_shortest; --n) {
    const std::string rest = folded_name(raw.substr(n));
    const bool known =
        (rest.size() > k_shortest && names_one(text, rest)) ||
        (text.lexicon->bucket(rest) != nullptr && text.lexicon->bucket(rest)->has(WordClass::of));
    if (!known || (static_cast<unsigned char>(raw[n]) & 0xC0U) == 0x80U) {
      continue;
    }
    text.tokens[i].word = folded_name(plain_text(text.lexicons->letters, raw.substr(0, n)));
    bool whole = false;
    for (std::size_t from = i > k_longest_unit ? i - k_longest_unit : 0; from < i && !whole;
         ++from) {
      const Match unit = match(text, from, WordClass::unit);
      whole = unit && unit.end == i + 1;
    }
    if (!whole) {
      text.tokens[i].word = token.word;
      continue;
    }
    text.tokens[i].end = token.begin + static_cast<std::uint32_t>(n);
    Token word = token;
    word.begin = text.tokens[i].end;
    word.word = rest;
    word.spaced = word.torn = true;
    word.capital = word.upper = word.hyphen = false;
    text.tokens.insert(text.tokens.begin() + static_cast<std::ptrdiff_t>(i) + 1, word);
    bind(text, i);
    return;
  }
}

/// "Ei(er)", "egg(s)", "cup(s)": the ending in brackets says nothing.
bool is_ending(const Text& text, std::size_t i) {
  if (i + 3 >= text.tokens.size() || text[i].kind != TokenKind::word || !text[i + 1].is('(') ||
      !text[i + 3].is(')') || text[i + 1].spaced || text[i + 2].spaced || text[i + 3].spaced) {
    return false;
  }
  const Token& inside = text[i + 2];
  const std::string_view raw =
      std::string_view(text.raw).substr(inside.begin, inside.end - inside.begin);
  return raw == "er" || raw == "n" || raw == "en" || raw == "e" || raw == "s" || raw == "es" ||
         raw == "x";
}

/// `"00" flour`: one word or number between quotation marks; inches have no mark before them.
bool is_quoted(const Text& text, std::size_t i) {
  return i + 2 < text.tokens.size() && text[i].is('"') && text[i + 2].is('"') &&
         (text[i].spaced || i == 0) && !text[i + 1].spaced && !text[i + 2].spaced &&
         (text[i + 1].is_number() || text[i + 1].kind == TokenKind::word);
}

bool is_name_alone(const Bucket* bucket) {
  // Of a flour the first part tells the grain.
  return bucket != nullptr &&
         std::any_of(bucket->phrases.begin(), bucket->phrases.end(), [](const Phrase& phrase) {
           return phrase.cls == WordClass::name && phrase.rest.empty() &&
                  phrase.ingredient->kind != IngredientKind::flour;
         });
}

/// "Kochpuddingpulver": nobody knows the whole, but what it ends with.
void take_last_part(Text& text, std::size_t i) {
  constexpr std::size_t k_first_part = 3;
  constexpr std::size_t k_last_part = 5;
  Token& token = text.tokens[i];
  const std::string_view word = token.word;
  for (std::size_t n = k_first_part; n + k_last_part <= word.size(); ++n) {
    const auto own = text.lexicon->phrases.find(word.substr(n));
    const Bucket* bucket = own == text.lexicon->phrases.end()
                               ? text.lexicons->names.bucket(word.substr(n))
                               : &own->second;
    if (is_name_alone(bucket)) {
      token.name = bucket;
      return;
    }
  }
}

}  // namespace

void drop_bracketed_endings(Text& text) {
  for (std::size_t i = 0; i < text.tokens.size(); ++i) {
    if (is_ending(text, i)) {
      const auto first = text.tokens.begin() + static_cast<std::ptrdiff_t>(i) + 1;
      text.tokens.erase(first, first + 3);
    } else if (is_quoted(text, i)) {
      const bool spaced = text[i].spaced;
      text.tokens.erase(text.tokens.begin() + static_cast<std::ptrdiff_t>(i) + 2);
      text.tokens.erase(text.tokens.begin() + static_cast<std::ptrdiff_t>(i));
      text.tokens[i].spaced = spaced;
    }
  }
}

void mend_unbound(Text& text, std::size_t i) {
  if (is_unbound(text[i])) {
    mend_first_letter(text, i);
    unglue_unit(text, i);
  }
  if (is_unbound(text[i]) && i > 1) {
    unglue_phrase(text, i);
  }
  if (is_unbound(text[i])) {
    unglue_name(text, i);
  }
  const Token& token = text[i];
  const bool stem = token.own != nullptr && text.lexicon->phrases.find(token.word) ==
                                                text.lexicon->phrases.end();  // "koch*"
  if (text.lexicon->manners.compounds && token.kind == TokenKind::word && token.name == nullptr &&
      (token.own == nullptr || stem)) {
    take_last_part(text, i);
  }
}

}  // namespace maslin::reading
