#include "reading/found.h"

#include "reading/layout.h"
#include "reading/markup.h"
#include "reading/page.h"
#include "reading/structured.h"

namespace maslin {
namespace {

using namespace reading;

Reading refused(std::string what, std::string mend) {
  Reading out;
  out.problem = Problem{"input", std::move(what), std::move(mend)};
  return out;
}

}  // namespace

Reading read_found(std::string_view found, const Pantry& pantry, const Words& words,
                   const ReadOptions& options) {
  if (found.size() > k_longest_page) {
    return refused("it is longer than 4 MB", "give one recipe, not a book");
  }
  const std::string_view start = trimmed(found.substr(0, 4000));
  if (start.starts_with("%PDF")) {
    return refused("it is a PDF", "copy its text, or save it as text");
  }
  if ((start.starts_with('{') || start.starts_with('[')) && found.find("Recipe") < found.size()) {
    if (const auto recipe = recipe_in_json(found)) {
      ReadOptions said = options;
      said.language = said.language.empty() ? recipe->language : said.language;
      return read_text(as_recipe_text(*recipe), pantry, words, said);
    }
  }
  if (looks_like_page(start)) {
    const std::string text = page_text(found);
    if (text.size() <= k_longest_text && !trimmed(text).empty()) {
      return read_text(text, pantry, words, options);
    }
    return refused("the page has no text of a recipe", "copy the recipe's own text");
  }
  return read_text(found, pantry, words, options);
}

}  // namespace maslin
