// reading: found text to a weighed recipe. A text is cut into lines, each line into
// tokens; headings open parts, ingredient lines become amounts and names, method
// lines become steps; whose kitchen it was written in is inferred from its words; each
// amount becomes a distribution of grams; what was not sure becomes a doubt. The
// grammar is here, the words of each language are tables in data/reading/. Nothing of
// the text is lost: every line that is not blank ends as the title, a heading, an
// ingredient, a step or a remark.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "pantry/pantry.h"
#include "recipe/recipe.h"
#include "recipe/recipe_json.h"

namespace maslin {

struct Lexicons;

/// The words of every language, joined with the pantry's names. Built once from the
/// embedded tables (a few milliseconds), then shared by any number of readings; keeps
/// a pointer to the pantry, which must outlive it.
class Words {
 public:
  explicit Words(const Pantry& pantry);
  ~Words();
  Words(Words&&) noexcept;
  Words& operator=(Words&&) noexcept;
  Words(const Words&) = delete;
  Words& operator=(const Words&) = delete;

  const Lexicons& lexicons() const { return *lexicons_; }

 private:
  std::unique_ptr<Lexicons> lexicons_;
};

struct ReadOptions {
  std::string name;      // where it was found: address or file; goes to Recipe::found_at
  std::string locale;    // whose measures: us, uk, au, eu, old_uk, ...; empty = infer
  std::string language;  // of data/reading/languages.tsv: en, es, ...; empty = infer
};

/// A recipe, or the one thing that kept it from being read.
struct Reading {
  Recipe recipe;
  std::string language = "en";
  std::optional<Problem> problem;
};

/// The tin or tray that a phrase names with its size: "a 23 x 13 cm loaf tin", "2 lb loaf
/// tin"; nothing when it names none.
std::optional<Tin> tin_in_words(std::string_view words_of_tin, const Words& words,
                                std::string_view language = "en");

/// Largest text that is read, bytes. A recipe is a few kilobytes; a book is not one.
inline constexpr std::size_t k_longest_text = 2'000'000;

/// Reads recipe text of any style, captions included. Never throws; bad UTF-8 is
/// replaced. A text that is empty, binary or too long gives a problem and no recipe.
Reading read_text(std::string_view text, const Pantry& pantry, const Words& words,
                  const ReadOptions& options);

}  // namespace maslin
