#include "reading/reading.h"

#include <algorithm>
#include <cmath>

#include "reading/bounds.h"
#include "reading/doubts.h"
#include "reading/fragments.h"
#include "reading/gather.h"
#include "reading/heading.h"
#include "reading/layout.h"
#include "reading/places.h"
#include "reading/resolve.h"
#include "reading/step_reader.h"
#include "reading/step_text.h"
#include "reading/uses.h"
#include "reading/weigh.h"
#include "reading/words.h"

namespace maslin {
namespace {

using namespace reading;

std::optional<Problem> unreadable(std::string_view text) {
  if (text.size() > k_longest_text) {
    return Problem{"text", "it is longer than 2 MB", "give one recipe, not a book"};
  }
  if (trimmed(text).empty()) {
    return Problem{"text", "it is empty", "give the recipe as text"};
  }
  // Text has no NUL; a picture or a program has many control bytes.
  const auto control = [](char c) { return (c >= 0 && c < 9) || (c > 13 && c < 32 && c != 27); };
  const auto bad = std::count_if(text.begin(), text.end(), control);
  if (text.find('\0') != std::string_view::npos ||
      static_cast<std::size_t>(bad) * 50 > text.size()) {
    return Problem{"text", "it is not text", "give the recipe as text, a saved page or captions"};
  }
  return std::nullopt;
}

/// The language whose small words the text uses most.
std::string_view language_of(std::string_view text, const Lexicons& lexicons) {
  std::vector<std::size_t> hits(lexicons.languages.size(), 0);
  const std::string plain = plain_text(lexicons.letters, text.substr(0, 4000));
  std::string word;
  for (const char c : plain + " ") {
    if (c >= 'a' && c <= 'z') {
      word += c;
      continue;
    }
    if (const auto at = lexicons.language_words.find(word); at != lexicons.language_words.end()) {
      for (const std::uint8_t language : at->second) {
        ++hits[language];
      }
    }
    word.clear();
  }
  const auto most = std::max_element(hits.begin(), hits.end());
  return lexicons.languages[static_cast<std::size_t>(most - hits.begin())].language;
}

bool is_yeasted(const Draft& draft) {
  for (const DraftPart& part : draft.parts) {
    for (const DraftLine& line : part.lines) {
      if (line.ingredient != nullptr && line.ingredient->kind == IngredientKind::yeast) {
        return true;
      }
    }
  }
  for (const Text& text : draft.texts) {
    for (std::size_t i = 0; i < text.size(); ++i) {
      const Match name = match_name(text, i);
      if (name && name.phrase->ingredient->kind == IngredientKind::yeast) {
        return !text.lexicon->language.empty() && text[i - (i > 0 ? 1 : 0)].word != "no";
      }
    }
  }
  return false;
}

Part finished(DraftPart& draft, StepContext& context, std::vector<Doubt>& doubts) {
  Part part;
  part.kind = draft.kind;
  part.name = draft.name;
  for (DraftLine& line : draft.lines) {
    doubts.insert(doubts.end(), line.doubts.begin(), line.doubts.end());
    for (std::string* words : {&line.line.text, &line.line.name, &line.line.note}) {
      std::replace(words->begin(), words->end(), '\n', ' ');  // captions
    }
    part.lines.push_back(std::move(line.line));
  }
  for (const DraftStep& step : draft.steps) {
    for (Step& one : read_steps(*step.text, step.from, step.to, context)) {
      std::replace(one.text.begin(), one.text.end(), '\n', ' ');
      std::replace(one.until.begin(), one.until.end(), '\n', ' ');
      part.steps.push_back(std::move(one));
    }
  }
  return part;
}

/// "Divide in 2 … shape each into 12": so few are lots of the pieces named later.
bool are_lots(const Range& few, const Range& pieces) {
  return few.high <= k_most_lots && pieces.low >= 2.0 * few.high &&
         std::fmod(pieces.low, few.low) == 0.0;
}

/// The yield and the dividing step say the same: what one leaves out the other tells.
void settle_pieces(Recipe& recipe) {
  bool said = false;
  bool from_step = false;
  bool baked = false;
  Step* divide = nullptr;
  for (Part& part : recipe.parts) {
    for (Step& step : part.steps) {
      said = said || step.pieces.has_value();
      if (step.pieces && !recipe.pieces && step.pieces->low >= 2.0) {
        recipe.pieces = step.pieces;
        from_step = true;
      } else if (step.pieces && from_step && !baked && are_lots(*recipe.pieces, *step.pieces)) {
        recipe.pieces = step.pieces;
      }
      baked = baked || step.kind == StepKind::bake;
      if (step.kind == StepKind::divide && divide == nullptr) {
        divide = &step;
      }
    }
  }
  if (!said && divide != nullptr) {
    divide->pieces = recipe.pieces;
  }
}

/// "leave it til its double, 9 buns, 180 fan": how many it makes, in a clause of its own.
std::optional<Range> pieces_in_clause(const Draft& draft) {
  for (const DraftPart& part : draft.parts) {
    for (const DraftStep& step : part.steps) {
      std::size_t from = step.from;
      for (std::size_t i = step.from; i <= step.to; ++i) {
        const bool cut = i == step.to || (*step.text)[i].is(',') || (*step.text)[i].is('.') ||
                         (*step.text)[i].is(';') || (*step.text)[i].fresh;
        if (!cut) {
          continue;
        }
        if (const auto pieces = count_of_pieces(*step.text, {from, i}, true)) {
          return pieces;
        }
        from = (*step.text)[i].fresh ? i : i + 1;
      }
    }
  }
  return std::nullopt;
}

/// Steps that may name the tin the dough goes into; a pan to boil in is none.
bool may_name_tin(StepKind kind) {
  return kind != StepKind::boil && kind != StepKind::soak && kind != StepKind::strain &&
         kind != StepKind::fry;
}

/// The tin that the steps say it is baked in.
std::optional<Tin> tin_of_steps(const Recipe& recipe, const Lexicons& lexicons,
                                const Lexicon& lexicon) {
  for (const Part& part : recipe.parts) {
    for (const Step& step : part.steps) {
      const bool number = step.text.find_first_of("0123456789") != std::string::npos;
      if (!number || !may_name_tin(step.kind)) {
        continue;
      }
      const Text text = tokenise(step.text, lexicons, lexicon);
      if (auto tin = read_tin(text, 0, text.size())) {
        return tin;
      }
    }
  }
  return std::nullopt;
}

Recipe finish(Draft draft, const std::vector<PlaceShare>& places, const ReadOptions& options) {
  Recipe recipe;
  recipe.title = draft.title;
  recipe.found_at = options.name;
  recipe.locale = places.empty() ? "uk" : places.front().locale;
  recipe.locale_probability = places.empty() ? 0.0 : places.front().probability;
  recipe.pieces = draft.pieces;
  recipe.tin = draft.tin;
  recipe.remarks = draft.remarks;
  recipe.doubts = draft.doubts;
  StepContext context;
  context.yeasted = is_yeasted(draft);
  context.american = recipe.locale == "us";
  for (DraftPart& part : draft.parts) {
    if (!part.lines.empty() || !part.steps.empty()) {
      recipe.parts.push_back(finished(part, context, recipe.doubts));
    }
  }
  settle_pieces(recipe);
  if (!recipe.pieces) {
    recipe.pieces = pieces_in_clause(draft);
    settle_pieces(recipe);
  }
  if (recipe.parts.empty()) {
    Part dough;
    dough.name = "dough";
    recipe.parts.push_back(dough);
  }
  return recipe;
}

}  // namespace

std::optional<Tin> tin_in_words(std::string_view words_of_tin, const Words& words,
                                std::string_view language) {
  const Lexicons& lexicons = words.lexicons();
  const Text text = tokenise(words_of_tin, lexicons, lexicons.language(language));
  return read_tin(text, 0, text.size());
}

Reading read_text(std::string_view text, const Pantry& pantry, const Words& words,
                  const ReadOptions& options) {
  Reading out;
  out.problem = unreadable(text);
  if (out.problem) {
    return out;
  }
  const Lexicons& lexicons = words.lexicons();
  const std::string whole = valid_utf8(text);
  out.language =
      options.language.empty() ? std::string(language_of(whole, lexicons)) : options.language;
  const Lexicon& lexicon = lexicons.language(out.language);
  Draft draft = gather(cut_lines(whole), lexicons, lexicon);
  std::vector<PlaceShare> places = infer_places(draft, lexicons, lexicon);
  const std::string& said = options.locale.empty() ? draft.locale : options.locale;
  if (!said.empty()) {
    places = {{said, 1.0}};
  }
  resolve(draft, places, lexicons);
  weigh_draft(draft, places, lexicons);
  out.recipe = finish(std::move(draft), places, options);
  if (!out.recipe.tin) {
    out.recipe.tin = tin_of_steps(out.recipe, lexicons, lexicon);
  }
  const bool any = std::any_of(out.recipe.parts.begin(), out.recipe.parts.end(),
                               [](const Part& part) { return !part.lines.empty(); });
  if (!any) {
    out.problem = Problem{"text", "no ingredient could be read from it",
                          "give the list of ingredients with their amounts"};
    return out;
  }
  place_by_steps(out.recipe, lexicons, lexicon);
  cool_what_is_baked(out.recipe);
  keep_in_bounds(out.recipe);
  doubt(out.recipe, pantry, lexicons);
  return out;
}

}  // namespace maslin
