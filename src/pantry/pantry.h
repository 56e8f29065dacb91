#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "pantry/ingredient.h"
#include "quantity/distribution.h"

namespace maslin {

/// What a measure is filled with when nobody says how: an average over how cooks do it.
inline constexpr std::string_view k_unstated_packing = "unstated";
/// The same in a spoon, which is dipped and seldom struck off.
inline constexpr std::string_view k_unstated_spoon_packing = "unstated spoon";

/// One way to fill a measure with an ingredient.
struct Packing {
  std::string name;  // unstated, level, sifted, scooped, packed, loose, melted, chopped, ...
  double g_per_ml = 0.0;
  double cv = 0.0;  // spread between people, relative
  std::string source;
};

/// The weight of one counted thing.
struct Portion {
  std::string word;    // piece, packet, stick, clove, ...
  std::string size;    // small .. jumbo, or empty
  std::string locale;  // country, or empty for anywhere
  double grams = 0.0;
  double sd = 0.0;
  std::string source;
};

/// A kitchen measure of a country.
struct Measure {
  std::string unit;
  std::string locale;
  double ml = 0.0;
  double cv = 0.0;
  std::string source;
};

/// What filling above the rim adds: "heaped", "rounded".
struct Heap {
  std::string word;
  bool spoon = true;    // a spoon; else a cup or larger
  double factor = 1.0;  // against the same measure struck off
  double cv = 0.0;
  std::string source;
};

struct OvenMark {
  std::string scale;  // gas, thermostat, stufe, word
  std::string mark;
  double celsius_low = 0.0;
  double celsius = 0.0;
  double celsius_high = 0.0;
  std::string source;
};

/// The texts of the tables in data/ that a pantry is made from.
struct PantryTables {
  std::string_view ingredients;
  std::string_view flours;
  std::string_view yeasts;
  std::string_view densities;
  std::string_view portions;
  std::string_view measures;
  std::string_view ovens;
  std::string_view fillings;
  std::string_view heaps;
  std::string_view locales;
  std::string_view pieces;
};

/// The tables embedded in the program.
PantryTables embedded_pantry_tables();

/// Everything known of ingredients and kitchen measures. A value: make one, pass it
/// by reference. Look-ups by a name fold case and plural.
class Pantry {
 public:
  explicit Pantry(const PantryTables& tables);

  const std::vector<Ingredient>& ingredients() const { return ingredients_; }
  const std::vector<Measure>& measures() const { return measures_; }
  const std::vector<OvenMark>& oven_marks() const { return oven_marks_; }

  /// The ingredient with this id, or null.
  const Ingredient* find(std::string_view id) const;

  /// The ingredient one of whose names is exactly `name` (folded), or null.
  const Ingredient* named(std::string_view name) const;

  /// The ingredient named by the longest run of words in `phrase`, later runs
  /// winning ties (the noun stands last in English: "orange juice"); null when no
  /// run of words is a name. `matched` receives the words that matched.
  const Ingredient* best_match(std::string_view phrase, std::string* matched = nullptr) const;

  /// Ingredients whose names contain `word`, nearest first, at most `most`.
  std::vector<const Ingredient*> search(std::string_view word, std::size_t most) const;

  /// Packings known for the ingredient, its own, else those of its kind; first of all
  /// "unstated" and "unstated spoon".
  std::vector<Packing> packings(const Ingredient& ingredient) const;
  /// The packing of that name, else the ingredient's "unstated" one (its first).
  std::optional<Packing> packing(const Ingredient& ingredient, std::string_view name) const;

  /// The weight of one `word` of the ingredient: own row before kind before any; then the
  /// locale's row before its neighbours' ("eu" for "de") before the general one; then the
  /// size asked before the unsized.
  std::optional<Portion> portion(const Ingredient& ingredient, std::string_view word,
                                 std::string_view size, std::string_view locale) const;

  /// The measure in that country, else in its neighbours' row, else its most general row
  /// with its wide spread; nothing if the unit is unknown.
  std::optional<Measure> measure(std::string_view unit, std::string_view locale) const;

  /// Grams of `amount` of a unit of the ingredient (mass units, volumes by density,
  /// counted things by portion) as a distribution; nothing when the unit cannot be
  /// weighed for it. `packing` may be a way of filling ("scooped"), a heap ("heaped",
  /// on top of the unstated way) or empty.
  std::optional<Distribution> weigh(const Ingredient& ingredient, const Distribution& amount,
                                    std::string_view unit, std::string_view packing,
                                    std::string_view size, std::string_view locale) const;

 private:
  void read_ingredients(std::string_view table);
  void read_flours_and_yeasts(std::string_view flours, std::string_view yeasts);
  void read_pieces(std::string_view table);
  void read_packings(std::string_view densities, std::string_view fillings);
  std::string_view near_locale(std::string_view locale) const;
  Distribution filled(const Ingredient& ingredient, const Packing& packing, const Measure& measure,
                      std::string_view heap) const;

  std::vector<Ingredient> ingredients_;
  std::map<std::string, std::size_t, std::less<>> by_id_;
  std::unordered_map<std::string, std::size_t> by_name_;
  std::size_t longest_name_words_ = 0;
  std::map<std::string, std::vector<Packing>, std::less<>> packings_;
  std::map<std::string, std::vector<Portion>, std::less<>> portions_;
  std::vector<Measure> measures_;
  std::vector<OvenMark> oven_marks_;
  std::vector<Heap> heaps_;
  std::map<std::string, std::string, std::less<>> near_locales_;
};

/// Lower case, accents kept, punctuation to spaces, runs of space to one, each word
/// in the singular ("tomatoes" -> "tomato"): the form in which names are compared.
std::string folded_name(std::string_view name);

/// Grams in one of a mass unit (g, kg, oz, lb, mg), or 0 when it is none.
double grams_in(std::string_view unit);

}  // namespace maslin
