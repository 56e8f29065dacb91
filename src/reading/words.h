#pragma once

#include <array>
#include <bitset>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "pantry/pantry.h"
#include "reading/letters.h"
#include "reading/reading.h"

namespace maslin::reading {

/// What a word or phrase does in a recipe. `means` and `value` of a Phrase depend on it.
enum class WordClass : std::uint8_t {
  number,    // value: one 1, twenty 20
  share,     // value: half 0.5, quarter 0.25
  multiple,  // value: dozen 12, couple 2
  article,   // a, an, another
  unit,      // means: the kitchen unit
  loose,     // means: the unit; an amount nobody counts ("a splash", "some")
  time,      // value: minutes in one
  span,      // value: minutes of a phrase that is a time by itself ("overnight")
  length,    // value: millimetres in one
  size,      // means: small .. jumbo
  packing,   // means: the pantry's packing, or empty when it changes no weight
  approx,
  of,
  join,  // and, with
  or_,
  plus,
  less,
  times,
  to,       // between the ends of a range
  each,     // "1 tsp each salt and pepper"
  the,      // the, this, all of the: points at something named before
  rest,     // "remaining", "rest of": a share of something listed before
  same,     // "the same": the amount of the line before
  stop,     // ends the name of an ingredient: into, until, if, that
  fill_up,  // "to make", "made up to": the last thing fills a measure that others began to fill
  purpose,  // means: wash, top, dust, fry, grease, serve, taste, need, extra
  note,     // said of an ingredient, changes no weight: beaten, softened
  part_of,  // means: zest, juice, yolk, white: a part of a fruit or egg
  size_of,  // "the size of"
  thing,    // means: a row of loose.tsv: egg, walnut
  section,  // means: ingredients, method, notes, end
  part,     // means: part kind
  label,    // means: yield, time, tin, measures: a line about the recipe
  verb,     // means: step kind; value 1 = may also be a noun ("cream"), 2 = weak
  piece,    // rolls, buns, balls
  tin,      // means: tray, loaf, ring, round, muffin, free
  until,
  scale,     // means: gas, thermostat, stufe: an oven scale
  fan,       //
  degree,    // means: c, f or empty ("degrees")
  oven,      // oven, stove
  heat,      // means: the oven table's word
  core,      // "internal temperature"
  place,     // means: warm, cold, frozen
  spelling,  // means: the right spelling
  plain,     // an ordinary word, never taken for a misspelt one
  with,
  correct,    // "no, make it": the amount is said anew
  step,       // "step" before its number
  adverb,     // then, now, finally, let: may stand before the verb of a step
  lead,       // for, to make: leads to the noun of a heading
  into,       // between dividing and the number of pieces
  object,     // it, them: after a verb, never after a noun
  turn_down,  // of an oven
  square,
  half_more,  // after a number, so much more: "iki buçuk"
  all_else,   // takes what is not named: "all the other ingredients"
  ordinal,    // ends a figure that is a share: "1 8th", "3 4ths"
  drain,      // poured off: the liquid is not eaten
  roll_out,   // a dough rolled out: what goes on it now is its filling
  roll_up,    // rolled up, cut, baked: no more filling
  counted,    // means: the ingredient meant when pieces are counted: ginger, the root
  spooned,    // means: the ingredient meant by the teaspoon: coriander, the seed
  told,       // "she says 6", "orig 120": another amount of the same thing follows
  own,        // "I use 3/4", value 1 "half is enough": what the writer takes of it
  rather,     // "ideally", "best": leads to the kind in a bracket
  asks,       // "how much": a question without its mark
  name        // an ingredient
};
constexpr std::size_t k_word_classes = static_cast<std::size_t>(WordClass::name) + 1;

struct Phrase {
  WordClass cls = WordClass::plain;
  std::vector<std::string> rest;  // the words after the first, singular
  std::string_view means;
  double value = 0.0;
  const Ingredient* ingredient = nullptr;
};
/// The phrases that begin with one word, longest first.
struct Bucket {
  std::vector<Phrase> phrases;
  std::bitset<k_word_classes> classes;  // a bit for each class among them
  bool has(WordClass cls) const { return classes[static_cast<std::size_t>(cls)]; }
};

struct TextHash {
  using is_transparent = void;
  std::size_t operator()(std::string_view text) const {
    return std::hash<std::string_view>{}(text);
  }
};
using Phrases = std::unordered_map<std::string, Bucket, TextHash, std::equal_to<>>;

/// How a language writes.
struct Manners {
  bool verb_last = false;     // "1 Stunde gehen lassen": the verb follows its settings
  bool until_before = false;  // "kızarana kadar": what is waited for comes first
  bool decimal_comma = false;
  bool noun_first = false;          // "huile d'olive": of two names the first is the noun
  bool article_elided = false;      // "l'eau", "d'olive"
  bool compounds = false;           // "Kochpuddingpulver": the last part is the thing
  bool ending_apart = false;        // "180°C'de": an ending after an apostrophe
  std::vector<std::string> elided;  // longer words that are elided too: "dell'acqua"
};

/// The words of one language and the names its cooks give to ingredients.
struct Lexicon {
  std::string language;
  Manners manners;
  Phrases phrases;
  Phrases stems;  // beginnings of words, "knet*" in the table: kneten, knetet
  /// The phrases that begin with the word, else those of its longest known beginning.
  const Bucket* bucket(std::string_view word) const;
};

/// Whether a row of a language's table may begin so: "unit", "verb", "manner", ...
bool is_row_class(std::string_view name);
/// Whether a manner of writing is called so: "decimal_comma", ...
bool is_manner(std::string_view name);

/// The languages that are read, English first: the rows of languages.tsv. Each has a table of
/// its own name.
std::vector<std::string_view> language_names();

/// A loose measure: grams or millilitres of one, common practice.
struct LooseMeasure {
  std::string_view word;
  double grams = 0.0;
  double ml = 0.0;
  double cv = 0.0;
};

/// A word that tells in whose kitchen a recipe was written.
struct PlaceHint {
  std::string_view locale;
  double weight = 0.0;  // log-likelihood ratio
};

/// A bound on what doughs contain, per cent of flour.
struct SaneRow {
  std::string_view what;
  double low = 0.0;
  double high = 0.0;
  double usual = 0.0;
  std::string_view cause;
};

}  // namespace maslin::reading

namespace maslin {

struct Lexicons {
  explicit Lexicons(const Pantry& pantry);

  const Pantry* pantry = nullptr;
  reading::Letters letters;
  std::vector<reading::Lexicon> languages;  // the first is English
  reading::Lexicon names;                   // the pantry's own names, for every language
  std::vector<reading::LooseMeasure> loose;
  std::vector<reading::SaneRow> sane;
  /// Hints by folded phrase; several places a phrase.
  std::unordered_map<std::string, std::vector<reading::PlaceHint>, reading::TextHash,
                     std::equal_to<>>
      places;
  /// Words that tell the language: index into `languages`.
  std::unordered_map<std::string, std::vector<std::uint8_t>, reading::TextHash, std::equal_to<>>
      language_words;
  /// Every word of a name, a unit or a verb, by length: what a misspelt word may be.
  std::array<std::vector<std::string_view>, 24> vocabulary;
  std::array<std::vector<std::string_view>, 24> unit_vocabulary;  // of units and times alone

  const reading::Lexicon& language(std::string_view name) const;
  const reading::LooseMeasure* loose_measure(std::string_view word) const;
};

}  // namespace maslin
