#include "reading/reading.h"

#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin {

struct Lexicons {
  const Pantry* pantry = nullptr;
};

Words::Words(const Pantry& pantry) : lexicons_(std::make_unique<Lexicons>()) {
  lexicons_->pantry = &pantry;
}
Words::~Words() = default;
Words::Words(Words&&) noexcept = default;
Words& Words::operator=(Words&&) noexcept = default;

namespace {

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t' || text.front() == '\r')) {
    text.remove_prefix(1);
  }
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r')) {
    text.remove_suffix(1);
  }
  return text;
}

/// "500 g strong white flour": a number, perhaps a unit, a name.
std::optional<Line> ingredient_line(std::string_view text, const Pantry& pantry,
                                    const std::string& locale) {
  std::size_t digits = 0;
  while (digits < text.size() && ((text[digits] >= '0' && text[digits] <= '9') ||
                                  (digits > 0 && text[digits] == '.'))) {
    ++digits;
  }
  const auto value = number_from(text.substr(0, digits));
  if (!value) {
    return std::nullopt;
  }
  std::string_view rest = trimmed(text.substr(digits));
  Line line;
  line.text = text;
  line.found.number = Range{*value, *value};
  const std::size_t space = rest.find(' ');
  std::string unit(rest.substr(0, space));
  if (unit.size() > 1 && unit.back() == 's' && unit != "tbsps") {
    unit.pop_back();
  }
  if (grams_in(unit) > 0 || pantry.measure(unit, locale)) {
    line.found.unit = unit;
    rest = space == std::string_view::npos ? std::string_view() : trimmed(rest.substr(space));
  }
  const Ingredient* ingredient = pantry.best_match(rest);
  if (ingredient == nullptr) {
    return std::nullopt;
  }
  line.name = rest;
  line.ingredient_id = ingredient->id;
  if (const auto grams = pantry.weigh(*ingredient, point(*value), line.found.unit, "", "", locale)) {
    line.grams = *grams;
    line.weighed = true;
  }
  return line;
}

}  // namespace

Reading read_text(std::string_view text, const Pantry& pantry, const Words&,
                  const ReadOptions& options) {
  Reading out;
  if (text.size() > k_longest_text) {
    out.problem = {"text", "it is longer than 2 MB", "give one recipe, not a book"};
    return out;
  }
  if (trimmed(text).empty() || text.find('\0') != std::string_view::npos) {
    out.problem = {"text", "there is no text in it", "give the recipe as text"};
    return out;
  }
  out.recipe.found_at = options.name;
  out.recipe.locale = options.locale.empty() ? "uk" : options.locale;
  Part dough;
  dough.name = "dough";
  for (const std::string_view whole : split(text, '\n')) {
    const std::string_view found = trimmed(whole);
    if (found.empty()) {
      continue;
    }
    if (out.recipe.title.empty()) {
      out.recipe.title = found;
    } else if (auto line = ingredient_line(found, pantry, out.recipe.locale)) {
      dough.lines.push_back(*line);
    } else {
      out.recipe.remarks.emplace_back(found);
    }
  }
  out.recipe.parts.push_back(dough);
  return out;
}

}  // namespace maslin
