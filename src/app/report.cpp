#include "app/report.h"

#include <algorithm>
#include <cmath>

#include "app/report_page.h"
#include "quantity/number_text.h"
#include "recipe/recipe_text.h"

namespace maslin {
namespace {

std::string grams_text(const Line& line) {
  if (!line.weighed) {
    return "?";
  }
  return digits(line.grams.p50()) + " g";
}

std::string spread_text(const Line& line) {
  const std::string low = digits(line.grams.p10());
  const std::string high = digits(line.grams.p90());
  return !line.weighed || low == high ? "" : low + " to " + high;
}

std::string step_words(const Step& step) {
  std::string out = std::string(step_kind_name(step.kind));
  if (step.pieces) {
    out += ", " + range_text(*step.pieces) + " pieces";
  }
  if (step.piece_grams) {
    out += ", " + digits(*step.piece_grams) + " g each";
  }
  if (step.celsius) {
    // 375 °F is 190.56 °C; no dial says so.
    const Range dial{std::round(step.celsius->low), std::round(step.celsius->high)};
    out += ", " + range_text(dial) + " °C" + (step.fan ? " (from a fan setting)" : "");
  }
  if (step.minutes) {
    out += ", " + (step.minutes->low == step.minutes->high ? duration_text(step.minutes->low)
                                                           : range_text(*step.minutes) + " min");
  }
  if (!step.place.empty()) {
    out += ", " + step.place;
  }
  if (!step.until.empty()) {
    out += ", until " + step.until;
  }
  return out;
}
}  // namespace

std::string recipe_report(const Recipe& recipe, const Pantry& pantry, Colour colour) {
  Page page(colour);
  page.heading(recipe.title.empty() ? "Untitled" : recipe.title);
  page.quiet("  measures of " + (recipe.locale.empty() ? "no known country" : recipe.locale) +
             ", " + std::to_string(std::lround(100 * recipe.locale_probability)) + " % sure" +
             (recipe.pieces ? "; makes " + range_text(*recipe.pieces) : ""));
  for (const Part& part : recipe.parts) {
    page.heading(part.name.empty() ? std::string(part_kind_name(part.kind)) : part.name);
    for (const Line& line : part.lines) {
      const Ingredient* one = pantry.find(line.ingredient_id);
      const std::string name = !line.part.empty() ? "(" + line.part + ")"
                               : one != nullptr   ? one->name
                                                  : line.name + " (not known)";
      page.line(right_aligned(grams_text(line), 10) + "  " + padded(spread_text(line), 16, 1) +
                padded(name, 26, 1) + line.text);
    }
    int number = 1;
    for (const Step& step : part.steps) {
      page.quiet("  " + std::to_string(number++) + ". " + step_words(step));
    }
  }
  if (!recipe.doubts.empty()) {
    page.heading("In doubt");
  }
  for (const Doubt& doubt : recipe.doubts) {
    page.doubt(doubt.text, doubt.why);
  }
  return page.take();
}

std::string ingredient_report(const Ingredient& one, const Pantry& pantry, Colour colour) {
  Page page(colour);
  page.heading(one.name + (one.name_us != one.name ? " / " + one.name_us : ""));
  page.quiet("  " + one.id + ", " + spaced(std::string(kind_name(one.kind))) + "; source " +
             one.source);
  std::string composition;
  for (std::size_t c = 0; c < k_component_count; ++c) {
    if (one.composition.fraction[c] > 0) {
      composition += (composition.empty() ? "" : ", ") +
                     spaced(std::string(component_name(static_cast<Component>(c)))) + " " +
                     digits(100 * one.composition.fraction[c]);
    }
  }
  page.row("in 100 g", composition);
  page.row("energy", digits(one.energy_kcal_per_100g) + " kcal in 100 g");
  for (const Packing& packing : pantry.packings(one)) {
    page.row(packing.name, digits(packing.g_per_ml) + " g/mL, ±" + digits(100 * packing.cv) +
                               " %  (" + packing.source + ")");
  }
  if (!one.note.empty()) {
    page.row("note", one.note);
  }
  return page.take();
}
}  // namespace maslin
