#include "reading/spelling.h"

#include <algorithm>
#include <array>

namespace maslin::reading {
namespace {

constexpr std::size_t k_longest = 23;

/// Edits from one word to the other (optimal string alignment), `most` + 1 when more.
std::size_t edits(std::string_view a, std::string_view b, std::size_t most) {
  std::array<std::array<std::size_t, k_longest + 1>, 3> rows{};
  for (std::size_t j = 0; j <= b.size(); ++j) {
    rows[0][j] = j;
  }
  for (std::size_t i = 1; i <= a.size(); ++i) {
    auto& row = rows[i % 3];
    const auto& above = rows[(i + 2) % 3];
    const auto& higher = rows[(i + 1) % 3];
    row[0] = i;
    std::size_t least = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      row[j] = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        row[j] = std::min(row[j], higher[j - 2] + 1);
      }
      least = std::min(least, row[j]);
    }
    if (least > most) {
      return most + 1;
    }
  }
  return rows[a.size() % 3][b.size()];
}

bool is_known(const Text& text, std::size_t i) {
  const Token& token = text[i];
  if (token.own != nullptr || token.name != nullptr) {
    return true;
  }
  const auto& words = token.word.size() < text.lexicons->vocabulary.size()
                          ? text.lexicons->vocabulary[token.word.size()]
                          : text.lexicons->vocabulary[0];
  return std::binary_search(words.begin(), words.end(), token.word);
}

}  // namespace

std::string mended_word(const Lexicons& lexicons, std::string_view word, Mending mending) {
  const auto& vocabulary =
      mending == Mending::units ? lexicons.unit_vocabulary : lexicons.vocabulary;
  if (word.size() < 4 || word.size() > k_longest - 2) {
    return {};
  }
  const std::size_t most = word.size() >= 8 ? 2 : 1;
  std::size_t best = most + 1;
  std::string found;
  for (std::size_t size = word.size() - most; size <= word.size() + most; ++size) {
    for (const std::string_view known : size >= 4 ? vocabulary[size] : vocabulary[0]) {
      // The first letter is seldom wrong, unless it was swapped with the second.
      if (known[0] != word[0] && !(known[0] == word[1] && known[1] == word[0])) {
        continue;
      }
      const std::size_t distance = edits(word, known, std::min(best, most));
      if (distance < best) {
        best = distance;
        found = known;
      }
    }
  }
  return found;
}

std::size_t mend_words(Text& text, std::size_t from, std::size_t to, Mending mending) {
  std::size_t count = 0;
  for (std::size_t i = from; i < to && i < text.size(); ++i) {
    Token& token = text.tokens[i];
    if (token.kind != TokenKind::word) {
      continue;
    }
    if (const Match right = match(text, i, WordClass::spelling)) {
      token.word = folded_name(right.phrase->means);
    } else if (!is_known(text, i)) {
      const std::string mended = mended_word(*text.lexicons, token.word, mending);
      if (mended.empty()) {
        continue;
      }
      token.word = mended;
    } else {
      continue;
    }
    bind(text, i);
    ++count;
  }
  return count;
}

}  // namespace maslin::reading
