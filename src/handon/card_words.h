// The words of a card in its language, from data/words/.
#pragma once

#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "handon/handon.h"
#include "pantry/pantry.h"

namespace maslin::handon {

/// A language that cards are written in: "es", "Español".
struct CardLanguage {
  std::string tag;
  std::string name;
};
/// The rows of data/words/languages.tsv.
const std::vector<CardLanguage>& card_languages();
/// Their tags, to read out: "en-GB, en-US, es or fr".
std::string card_language_tags();
/// The language asked for ("en" is en-GB), else the spelling of English in that country; empty
/// when a language was asked for that there is not.
std::string card_language(std::string_view asked, std::string_view country);

class CardWords {
 public:
  explicit CardWords(const std::string& language);

  const std::string& language() const { return language_; }
  bool english() const { return column_ == "en"; }

  /// The phrase of that key with {1}, {2}, ... filled in; the key itself when there is none.
  std::string say(std::string_view key, std::initializer_list<std::string> with = {}) const;
  /// Whether the table has the key.
  bool has(std::string_view key) const;
  /// A text of another table in this language: its cell fills {1}, {2}, ...
  std::string filled(std::string text, std::initializer_list<std::string> with) const;
  /// A text that another table has in English, in this language; as it is where there is no row.
  std::string caution_text(const Caution& caution) const;
  std::string stand_in_text(const std::string& english) const;
  /// What "until ..." says: its sentence's end; empty when only the recipe's own words tell it.
  std::string until_text(const std::string& found) const;
  /// The column of this language in tables with one column each.
  const std::string& column() const { return column_; }

  /// The ingredient: as found where the recipe's own name is one of its English names.
  std::string ingredient(const Ingredient& ingredient, const Pantry& pantry,
                         std::string_view as_found) const;
  /// "mugs" for more than one; the kitchen's own name when the table has none.
  std::string measure(const std::string& name, double count) const;
  /// With the decimal mark of the language.
  std::string number(double value, int decimals) const;
  /// "1 3/4".
  std::string fraction(double value) const;
  /// "91 °C", American "196 °F (91 °C)".
  std::string degrees(double celsius) const;
  /// The setting nearest to it that a dial or a hand can tell, °C: tens, American 25 °F.
  double oven_celsius(double celsius) const;
  /// "220 °C", American "425 °F (220 °C)".
  std::string oven_degrees(double celsius) const;
  /// "15 to 20" in the shortest form of the language: "15–20".
  std::string range(double low, double high, int decimals) const;

 private:
  std::string spelled(std::string text) const;

  std::string language_;
  std::string column_;
  std::map<std::string, std::string, std::less<>> phrases_;
  std::map<std::string, std::string, std::less<>> names_;
  std::map<std::string, std::string, std::less<>> american_;
  std::map<std::string, std::string, std::less<>> cautions_;
  std::map<std::string, std::string, std::less<>> stand_ins_;
  std::vector<std::pair<std::string, std::string>> untils_;
};

}  // namespace maslin::handon
