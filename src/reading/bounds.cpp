#include "reading/bounds.h"

#include <algorithm>
#include <optional>
#include <string>

#include "recipe/limits.h"

namespace maslin::reading {
namespace {

/// Two years: longer than anything is kept or fed.
constexpr double k_longest_minutes = 1e6;
constexpr double k_coldest_celsius = -100.0;
constexpr double k_hottest_celsius = 1000.0;
constexpr double k_most_pieces_read = 10'000.0;
constexpr double k_most_piece_grams = 1e6;

/// Empties `range` unless it lies within; false when it had to.
bool within(std::optional<Range>& range, double least, double most) {
  if (!range || (range->low >= least && range->high <= most)) {
    return true;
  }
  range.reset();
  return false;
}

void keep_step(Recipe& recipe, Step& step) {
  const auto left_out = [&recipe, &step](const char* why) {
    recipe.doubts.push_back({step.text, std::string(why) + ": it is left out; say it again"});
  };
  if (!within(step.minutes, 0.0, k_longest_minutes)) {
    left_out("no step takes that long");
  }
  if (!within(step.celsius, k_coldest_celsius, k_hottest_celsius)) {
    left_out("nothing in a kitchen is so hot or cold");
  }
  if (!within(step.pieces, 0.0, k_most_pieces_read)) {
    left_out("nobody makes so many pieces");
  }
  if (step.piece_grams && !(*step.piece_grams <= k_most_piece_grams)) {
    step.piece_grams.reset();
    left_out("no piece weighs that much");
  }
}

/// The words of what stands past the first `most`, to the remarks.
template <typename Item>
void cut_to(std::vector<Item>& items, std::size_t most, Recipe& recipe) {
  for (std::size_t i = most; i < items.size(); ++i) {
    recipe.remarks.push_back(items[i].text);
  }
  items.resize(std::min(items.size(), most));
}

}  // namespace

void keep_in_bounds(Recipe& recipe) {
  for (std::size_t i = k_most_parts; i < recipe.parts.size(); ++i) {
    cut_to(recipe.parts[i].lines, 0, recipe);
    cut_to(recipe.parts[i].steps, 0, recipe);
  }
  recipe.parts.resize(std::min(recipe.parts.size(), k_most_parts));
  for (Part& part : recipe.parts) {
    cut_to(part.lines, k_most_lines, recipe);
    cut_to(part.steps, k_most_lines, recipe);
    for (Step& step : part.steps) {
      keep_step(recipe, step);
    }
  }
  within(recipe.pieces, 0.0, k_most_pieces_read);
  if (const std::optional<Tin>& tin = recipe.tin;
      tin && !(std::max({tin->length_mm, tin->width_mm, tin->depth_mm, tin->diameter_mm}) <=
               k_most_tin_mm)) {
    recipe.tin.reset();
    recipe.doubts.push_back({recipe.title, "no tin is that large: its size is left out"});
  }
}

}  // namespace maslin::reading
