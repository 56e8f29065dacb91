#include "adjust/phrase.h"

#include <algorithm>
#include <array>
#include <utility>

#include "quantity/number_text.h"

namespace maslin {
namespace {

// Words that say nothing of what is wanted.
constexpr std::array<std::string_view, 21> k_filling{
    {"a",  "an",   "the",  "please", "dough", "it", "i",  "want",  "make", "should", "be",
     "is", "with", "this", "that",   "my",    "me", "us", "would", "like", "now"}};
constexpr std::array<std::string_view, 13> k_numbers{{"zero", "one", "two", "three", "four", "five",
                                                      "six", "seven", "eight", "nine", "ten",
                                                      "eleven", "twelve"}};
constexpr std::array<std::string_view, 18> k_pieces{
    {"piece", "pieces", "bun", "buns", "roll", "rolls", "knot", "knots", "loaf", "loaves", "ball",
     "balls", "twist", "twists", "bap", "baps", "flatbread", "flatbreads"}};

template <typename Words>
bool among(const Words& words, std::string_view one) {
  return std::find(words.begin(), words.end(), one) != words.end();
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// "7,5" and "7.5".
std::optional<double> number_in(std::string_view word) {
  std::string text(word);
  std::replace(text.begin(), text.end(), ',', '.');
  if (text.empty() || !is_digit(text.front())) {
    const auto at = std::find(k_numbers.begin(), k_numbers.end(), word);
    return at == k_numbers.end() ? std::nullopt
                                 : std::optional(static_cast<double>(at - k_numbers.begin()));
  }
  return number_from(text);
}

std::string lowered(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (text.substr(i, 3) == "\u2264" || text.substr(i, 3) == "\u2265") {
      out += text.substr(i, 3) == "\u2264" ? " <= " : " >= ";
      i += 2;
    } else {
      out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  return out;
}

/// A space wherever a number meets a letter or a sign.
std::string parted(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const char last = out.empty() ? ' ' : out.back();
    const bool in_number =
        is_digit(last) && (c == '.' || c == ',') && i + 1 < text.size() && is_digit(text[i + 1]);
    const bool number_after = is_digit(c) && (is_digit(last) || last == '.' || last == ',');
    const bool letter = (c >= 'a' && c <= 'z') || (c & 0x80) != 0 || c == '\'';
    const bool last_letter = (last >= 'a' && last <= 'z') || (last & 0x80) != 0 || last == '\'';
    const bool relation =
        (c == '=' || c == '<' || c == '>') && (last == '<' || last == '>' || last == '=');
    if (!(in_number || number_after || (letter && last_letter) || relation)) {
      out += ' ';
    }
    out += c == '-' || c == '_' || c == '.' || c == '!' ? (in_number ? c : ' ') : c;
  }
  return out;
}

}  // namespace

bool Phrase::has(std::initializer_list<std::string_view> any) const {
  return std::any_of(any.begin(), any.end(),
                     [&](std::string_view one) { return among(words, one); });
}

std::string Phrase::joined() const {
  std::string out;
  for (const std::string& word : words) {
    out += (out.empty() ? "" : " ") + word;
  }
  return out;
}

namespace {
std::string joined_words(const std::vector<std::string>& words, std::size_t from, std::size_t to) {
  Phrase part;
  part.words.assign(words.begin() + static_cast<std::ptrdiff_t>(from),
                    words.begin() + static_cast<std::ptrdiff_t>(to));
  return part.joined();
}

std::size_t place_of(const std::vector<std::string>& words,
                     std::initializer_list<std::string_view> any) {
  return static_cast<std::size_t>(
      std::find_if(words.begin(), words.end(),
                   [&](const std::string& word) { return among(any, std::string_view(word)); }) -
      words.begin());
}
}  // namespace

std::string Phrase::before(std::initializer_list<std::string_view> any) const {
  const std::size_t at = place_of(words, any);
  return at == words.size() ? "" : joined_words(words, 0, at);
}

std::string Phrase::after(std::initializer_list<std::string_view> any) const {
  const std::size_t at = place_of(words, any);
  return at == words.size() ? "" : joined_words(words, at + 1, words.size());
}

std::optional<double> Phrase::number() const {
  for (const std::string& word : words) {
    if (const auto number = number_in(word)) {
      return number;
    }
  }
  return std::nullopt;
}

std::optional<double> Phrase::share() const {
  constexpr std::array<std::pair<std::string_view, double>, 10> k_parts{{{"half", 0.5},
                                                                         {"third", 1.0 / 3.0},
                                                                         {"thirds", 1.0 / 3.0},
                                                                         {"quarter", 0.25},
                                                                         {"quarters", 0.25},
                                                                         {"fifth", 0.2},
                                                                         {"fifths", 0.2},
                                                                         {"sixth", 1.0 / 6.0},
                                                                         {"eighth", 0.125},
                                                                         {"tenth", 0.1}}};
  for (std::size_t i = 0; i < words.size(); ++i) {
    for (const auto& [word, part] : k_parts) {
      if (words[i] == word) {
        const double many = i > 0 ? number_in(words[i - 1]).value_or(1.0) : 1.0;
        return many * part < 1.0 ? std::optional(many * part) : std::nullopt;
      }
    }
  }
  return std::nullopt;
}

std::string Phrase::of_what() const {
  constexpr std::array<std::string_view, 12> k_whole{{"of", "in", "all", "total", "altogether",
                                                      "weight", "batch", "mix", "mixture", "each",
                                                      "apiece", "only"}};
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i < 2 || !number_in(words[i - 2]) || !Phrase{"", {words[i - 2], words[i - 1]}}.grams()) {
      continue;
    }
    for (; i < words.size(); ++i) {
      if (among(k_pieces, words[i])) {
        return "";
      }
      if (!among(k_whole, words[i])) {
        out += (out.empty() ? "" : " ") + words[i];
      }
    }
  }
  return out;
}

std::optional<double> Phrase::grams() const {
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    const auto number = number_in(words[i]);
    const std::string& unit = words[i + 1];
    if (number && (unit == "g" || unit == "gram" || unit == "grams")) {
      return number;
    }
    if (number && (unit == "kg" || unit == "kilo" || unit == "kilos")) {
      return 1000.0 * *number;
    }
  }
  return std::nullopt;
}

std::optional<double> Phrase::minutes() const {
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    const auto number = number_in(words[i]);
    const std::string& unit = words[i + 1];
    if (number && (unit == "min" || unit == "minute" || unit == "minutes")) {
      return number;
    }
    if (number && (unit == "h" || unit == "hour" || unit == "hours")) {
      return 60.0 * *number;
    }
  }
  return has({"hour"}) && has({"within", "in"}) ? std::optional(60.0) : std::nullopt;
}

bool Phrase::has_piece_word() const {
  return std::any_of(words.begin(), words.end(),
                     [](const std::string& word) { return among(k_pieces, word); });
}

std::optional<double> Phrase::count_of_pieces() const {
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto number = number_in(words[i]);
    const bool piece = i + 1 < words.size() && among(k_pieces, words[i + 1]);
    const bool times = i + 1 < words.size() && words[i + 1] == "of" && grams();
    if (number && (piece || times)) {
      return number;
    }
  }
  return std::nullopt;
}

Phrase phrase_of(std::string_view text) {
  Phrase out;
  out.text = text;
  std::string word;
  for (const char c : parted(lowered(text)) + " ") {
    if (c != ' ' && c != '\t' && c != '"' && c != ':') {
      word += c;
      continue;
    }
    // "With" parts two foods, but says nothing at the beginning.
    const bool parts = word == "with" && !out.words.empty();
    if (!word.empty() && (parts || !among(k_filling, word))) {
      out.words.push_back(word);
    }
    word.clear();
  }
  return out;
}

std::vector<std::string> phrases_in(std::string_view text) {
  std::vector<std::string> out(1);
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const bool ends = i + 1 == text.size() || text[i + 1] == ' ' || text[i + 1] == '\n';
    if (((c == ',' || c == ';') && ends) || c == '\n') {
      out.emplace_back();
    } else if (text.substr(i, 5) == " and ") {
      out.emplace_back();
      i += 4;
    } else if (c != ' ' || !out.back().empty()) {
      out.back() += c;
    }
  }
  for (std::string& one : out) {
    while (!one.empty() && one.back() == ' ') {
      one.pop_back();
    }
  }
  out.erase(std::remove(out.begin(), out.end(), ""), out.end());
  return out;
}

}  // namespace maslin
