#include "reading/words.h"

#include <algorithm>
#include <utility>

#include "pantry/embedded_names.h"
#include "quantity/table.h"
#include "reading/tables.h"

namespace maslin::reading {
namespace {

constexpr std::array<std::string_view, k_word_classes> k_class_names{
    "number",   "share",   "multiple", "article",  "unit",     "loose",     "time",    "span",
    "length",   "size",    "packing",  "approx",   "of",       "join",      "or",      "plus",
    "less",     "times",   "to",       "each",     "the",      "rest",      "same",    "stop",
    "fill_up",  "purpose", "note",     "part_of",  "size_of",  "thing",     "section", "part",
    "label",    "verb",    "piece",    "tin",      "until",    "scale",     "fan",     "degree",
    "oven",     "heat",    "core",     "place",    "spelling", "plain",     "with",    "correct",
    "step",     "adverb",  "lead",     "into",     "object",   "turn_down", "square",  "half_more",
    "all_else", "ordinal", "drain",    "roll_out", "roll_up",  "counted",   "spooned", "told",
    "own",      "rather",  "asks",     "name"};

static_assert(static_cast<std::size_t>(WordClass::name) + 1 == k_class_names.size());

constexpr std::array<std::pair<std::string_view, bool Manners::*>, 7> k_manners{
    {{"decimal_comma", &Manners::decimal_comma},
     {"noun_first", &Manners::noun_first},
     {"article_elided", &Manners::article_elided},
     {"compounds", &Manners::compounds},
     {"ending_apart", &Manners::ending_apart},
     {"verb_last", &Manners::verb_last},
     {"until_before", &Manners::until_before}}};

constexpr std::size_t k_shortest_stem = 3;

std::optional<WordClass> class_from(std::string_view name) {
  for (std::size_t i = 0; i < k_class_names.size(); ++i) {
    if (k_class_names[i] == name && !name.empty()) {
      return static_cast<WordClass>(i);
    }
  }
  return std::nullopt;
}

/// A phrase as the tokens of found text will have it: plain letters, singular words.
std::vector<std::string> phrase_words(const Letters& letters, std::string_view text) {
  std::vector<std::string> out;
  const bool ascii = std::none_of(text.begin(), text.end(),
                                  [](char c) { return static_cast<signed char>(c) < 0; });
  const std::string folded = folded_name(ascii ? std::string(text) : plain_text(letters, text));
  for (const std::string_view word : split(folded, ' ')) {
    out.emplace_back(word);
  }
  return out;
}

void add(Phrases& phrases, std::vector<std::string> words, Phrase phrase) {
  if (words.empty()) {
    return;
  }
  phrase.rest.assign(std::make_move_iterator(words.begin() + 1),
                     std::make_move_iterator(words.end()));
  Bucket& bucket = phrases[words.front()];
  bucket.classes.set(static_cast<std::size_t>(phrase.cls));
  // Longest first; of equals the earlier row stands first.
  const auto shorter =
      std::find_if(bucket.phrases.begin(), bucket.phrases.end(),
                   [&](const Phrase& other) { return other.rest.size() < phrase.rest.size(); });
  bucket.phrases.insert(shorter, std::move(phrase));
}

Lexicon language_from(std::string_view language, const Letters& letters, const Pantry& pantry) {
  Lexicon out;
  out.language = language;
  const Table table(embedded_table(std::string(language) + ".tsv"));
  for (std::size_t row = 0; row < table.size(); ++row) {
    const std::string_view cls_name = table.cell(row, "class");
    const std::string_view means = table.cell(row, "means");
    if (cls_name == "manner") {
      for (const auto& [name, place] : k_manners) {
        out.manners.*place = out.manners.*place || means == name;
      }
      if (means == "article_elided") {
        out.manners.elided = phrase_words(letters, table.cell(row, "words"));
      }
      continue;
    }
    const auto cls = class_from(cls_name);
    if (!cls) {
      continue;
    }
    Phrase phrase{*cls, {}, means, table.number(row, "value"), nullptr};
    if (*cls == WordClass::name) {
      phrase.ingredient = pantry.find(means);
      if (phrase.ingredient == nullptr) {
        continue;
      }
    }
    for (const std::string_view words : split(table.cell(row, "words"), '|')) {
      const bool stem = words.ends_with('*');
      std::vector<std::string> parts = phrase_words(letters, words);
      const bool many = parts.size() > 1;
      if (stem && many) {
        parts.back() += '*';  // the last word of a phrase may go on
      }
      add(stem && !many ? out.stems : out.phrases, std::move(parts), phrase);
    }
  }
  // A word that stands in the table whole also means what its beginning means.
  for (auto& [word, bucket] : out.phrases) {
    for (std::size_t length = word.size(); length >= k_shortest_stem; --length) {
      const auto stem = out.stems.find(std::string_view(word).substr(0, length));
      if (stem != out.stems.end()) {
        bucket.phrases.insert(bucket.phrases.end(), stem->second.phrases.begin(),
                              stem->second.phrases.end());
        bucket.classes |= stem->second.classes;
        break;
      }
    }
  }
  return out;
}

/// A name that reads as a little word without its accents ("thé") would be met everywhere.
bool is_little_word(const Lexicon& language, const std::vector<std::string>& words) {
  const Bucket* bucket = words.size() == 1 ? language.bucket(words.front()) : nullptr;
  constexpr std::array<WordClass, 18> k_little{
      WordClass::number, WordClass::share, WordClass::multiple, WordClass::article,
      WordClass::of,     WordClass::join,  WordClass::or_,      WordClass::plus,
      WordClass::less,   WordClass::times, WordClass::to,       WordClass::each,
      WordClass::the,    WordClass::rest,  WordClass::same,     WordClass::stop,
      WordClass::until,  WordClass::approx};
  return bucket != nullptr &&
         std::any_of(bucket->phrases.begin(), bucket->phrases.end(), [&](const Phrase& one) {
           return one.rest.empty() &&
                  std::find(k_little.begin(), k_little.end(), one.cls) != k_little.end();
         });
}

/// Adds a name unless the words have one: the first to have a name keeps it.
void add_name(Lexicon& names, std::vector<std::string> folded, const Ingredient& ingredient) {
  if (folded.empty()) {
    return;
  }
  const auto known = [&](const Phrase& other) {
    return other.cls == WordClass::name &&
           std::equal(other.rest.begin(), other.rest.end(), folded.begin() + 1, folded.end());
  };
  const Bucket& bucket = names.phrases[folded.front()];
  if (std::none_of(bucket.phrases.begin(), bucket.phrases.end(), known)) {
    add(names.phrases, std::move(folded), {WordClass::name, {}, ingredient.id, 0.0, &ingredient});
  }
}

void add_names(Lexicon& names, const Lexicon& english, const Letters& letters,
               const Pantry& pantry) {
  const auto name = [&](std::string_view words, const Ingredient& ingredient) {
    std::vector<std::string> folded = phrase_words(letters, words);
    if (!is_little_word(english, folded)) {
      add_name(names, std::move(folded), ingredient);
    }
  };
  names.phrases.reserve(4 * pantry.ingredients().size());
  // Names proper come before aliases.
  for (const Ingredient& ingredient : pantry.ingredients()) {
    name(ingredient.name, ingredient);
  }
  for (const Ingredient& ingredient : pantry.ingredients()) {
    name(ingredient.name_us, ingredient);
    name(ingredient.id, ingredient);
    for (const std::string& alias : ingredient.aliases) {
      name(alias, ingredient);
    }
  }
}

/// What cards call the ingredients in a language, behind what its own table says.
void add_card_names(Lexicon& language, const Letters& letters, const Pantry& pantry) {
  const Table table(name_data::embedded_table("ingredient_names.tsv"));
  for (std::size_t row = 0; row < table.size(); ++row) {
    const Ingredient* ingredient = pantry.find(table.cell(row, "id"));
    std::vector<std::string> folded = phrase_words(letters, table.cell(row, language.language));
    const Bucket* own = folded.size() == 1 ? language.bucket(folded.front()) : nullptr;
    const bool part = own != nullptr && own->has(WordClass::part);  // "almíbar" heads a list
    if (ingredient != nullptr && !part && !is_little_word(language, folded)) {
      add_name(language, std::move(folded), *ingredient);
    }
  }
}

using Vocabulary = std::array<std::vector<std::string_view>, 24>;

void add_vocabulary(Vocabulary& vocabulary, const Phrases& phrases,
                    std::initializer_list<WordClass> classes) {
  const auto keep = [&](std::string_view word) {
    if (word.size() >= 4 && word.size() < vocabulary.size()) {
      vocabulary[word.size()].push_back(word);
    }
  };
  for (const auto& [first, bucket] : phrases) {
    bool wanted = false;
    for (const Phrase& phrase : bucket.phrases) {
      if (std::find(classes.begin(), classes.end(), phrase.cls) != classes.end()) {
        wanted = true;
        std::for_each(phrase.rest.begin(), phrase.rest.end(), keep);
      }
    }
    if (wanted) {
      keep(first);
    }
  }
}

void sort_words(Vocabulary& vocabulary) {
  for (std::vector<std::string_view>& words : vocabulary) {
    std::sort(words.begin(), words.end());
    words.erase(std::unique(words.begin(), words.end()), words.end());
  }
}

}  // namespace

bool is_row_class(std::string_view name) {
  return name == "manner" || class_from(name).has_value();
}

bool is_manner(std::string_view name) {
  return std::any_of(k_manners.begin(), k_manners.end(),
                     [&](const auto& one) { return one.first == name; });
}

std::vector<std::string_view> language_names() {
  const Table table(embedded_table("languages.tsv"));
  std::vector<std::string_view> out;
  for (std::size_t row = 0; row < table.size(); ++row) {
    out.push_back(table.cell(row, "language"));
  }
  return out;
}

const Bucket* Lexicon::bucket(std::string_view word) const {
  if (const auto at = phrases.find(word); at != phrases.end()) {
    return &at->second;
  }
  for (std::size_t length = stems.empty() ? 0 : word.size(); length >= k_shortest_stem; --length) {
    if (const auto at = stems.find(word.substr(0, length)); at != stems.end()) {
      return &at->second;
    }
  }
  return nullptr;
}

}  // namespace maslin::reading

namespace maslin {

using namespace reading;

Lexicons::Lexicons(const Pantry& the_pantry)
    : pantry(&the_pantry), letters(reading::embedded_table("letters.tsv")) {
  for (const std::string_view language : language_names()) {
    languages.push_back(language_from(language, letters, the_pantry));
    if (languages.size() > 1) {
      add_card_names(languages.back(), letters, the_pantry);
    }
  }
  add_names(names, languages.front(), letters, the_pantry);
  const Table loose_table(reading::embedded_table("loose.tsv"));
  for (std::size_t row = 0; row < loose_table.size(); ++row) {
    loose.push_back({loose_table.cell(row, "word"), loose_table.number(row, "grams"),
                     loose_table.number(row, "ml"), loose_table.number(row, "cv")});
  }
  const Table sane_table(reading::embedded_table("sane.tsv"));
  for (std::size_t row = 0; row < sane_table.size(); ++row) {
    sane.push_back({sane_table.cell(row, "what"), sane_table.number(row, "low"),
                    sane_table.number(row, "high"), sane_table.number(row, "usual"),
                    sane_table.cell(row, "cause")});
  }
  const Table place_table(reading::embedded_table("places.tsv"));
  for (std::size_t row = 0; row < place_table.size(); ++row) {
    for (const std::string_view words : split(place_table.cell(row, "words"), '|')) {
      places[folded_name(plain_text(letters, words))].push_back(
          {place_table.cell(row, "locale"), place_table.number(row, "weight")});
    }
  }
  const Table language_table(reading::embedded_table("languages.tsv"));
  for (std::size_t row = 0; row < language_table.size(); ++row) {
    for (std::size_t i = 0; i < languages.size(); ++i) {
      for (const std::string_view word :
           split(languages[i].language == language_table.cell(row, "language")
                     ? language_table.cell(row, "words")
                     : std::string_view(),
                 ' ')) {
        language_words[plain_text(letters, word)].push_back(static_cast<std::uint8_t>(i));
      }
    }
  }
  const Phrases& english = languages.front().phrases;
  add_vocabulary(vocabulary, english,
                 {WordClass::name, WordClass::unit, WordClass::time, WordClass::verb,
                  WordClass::section, WordClass::part});
  add_vocabulary(vocabulary, names.phrases, {WordClass::name});
  add_vocabulary(unit_vocabulary, english, {WordClass::unit, WordClass::time, WordClass::loose});
  sort_words(vocabulary);
  sort_words(unit_vocabulary);
}

const Lexicon& Lexicons::language(std::string_view name) const {
  for (const Lexicon& one : languages) {
    if (one.language == name) {
      return one;
    }
  }
  return languages.front();
}

const LooseMeasure* Lexicons::loose_measure(std::string_view word) const {
  for (const LooseMeasure& one : loose) {
    if (one.word == word) {
      return &one;
    }
  }
  return nullptr;
}

Words::Words(const Pantry& pantry) : lexicons_(std::make_unique<Lexicons>(pantry)) {}
Words::~Words() = default;
Words::Words(Words&&) noexcept = default;
Words& Words::operator=(Words&&) noexcept = default;

}  // namespace maslin
