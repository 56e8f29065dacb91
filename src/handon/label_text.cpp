// A label in lines to read, and as a document.
#include <algorithm>

#include "handon/label.h"
#include "quantity/column_text.h"
#include "quantity/number_text.h"
#include "recipe/json.h"

namespace maslin::handon {
namespace {

std::string with_unit(const std::string& figure, const std::string& unit) {
  return unit.empty() ? figure : figure + " " + unit;
}

/// The piece or serving; 100 g alone when there is none.
std::string declared_here(const Label& label, const LabelNutrient& one) {
  const bool by_piece = label.serving && label.serving->pieces == 1.0;
  const std::string& figure = by_piece ? one.declared_per_piece : one.declared_per_serving;
  return figure.empty() ? "not known" : with_unit(figure, one.unit);
}

std::string range_of(const LabelNutrient& one) {
  const auto digits = one.per_100_grams_range.p90 < 10.0 ? 2 : 0;
  const std::string low = number_text(one.per_100_grams_range.p10, digits);
  const std::string high = number_text(one.per_100_grams_range.p90, digits);
  const std::string band = low == high ? low : low + "–" + high;
  return one.not_known_for.empty() ? band : one.per_100_grams > 0.0 ? band + " or more" : "";
}

void nutrition_text(const Label& label, std::string& out) {
  constexpr std::size_t k_name = 24;
  constexpr std::size_t k_figure = 16;
  const bool american = label.rules == LabelRules::us;
  out += "\nNutrition" + std::string(american ? " Facts" : "") + "\n";
  out += padded("", k_name, 1);
  if (!american) {
    out += padded("per 100 g", k_figure, 1);
  }
  if (label.serving) {
    out += padded((american ? "Serving size " : "per ") + label.serving->words, k_figure, 1) + "  ";
  }
  out += "(range per 100 g)\n";
  for (const LabelNutrient& one : label.nutrients) {
    std::string row = padded(one.words, k_name, 1);
    if (!american) {
      row += padded(with_unit(one.declared_per_100_grams, one.unit), k_figure, 1);
    }
    if (label.serving) {
      row += padded(declared_here(label, one), k_figure, 1);
      row += padded(
          one.daily_pct ? number_text(*one.daily_pct, 0) + (american ? "% DV" : " % RI") : "", 8,
          1);
    }
    out += row + range_of(one) + "\n";
  }
}

Json band_json(const Band& band) {
  return {{"p10", rounded(band.p10)}, {"p50", rounded(band.p50)}, {"p90", rounded(band.p90)}};
}

Json ingredient_json(const LabelIngredient& one) {
  Json out{{"name", one.name},
           {"mixed_grams", rounded(one.mixed_grams)},
           {"mixed_pct", rounded(one.mixed_pct)},
           {"quantity", one.quantity.empty() ? Json() : Json(one.quantity)},
           {"allergens", one.allergens},
           {"of", Json::array()}};
  for (const LabelIngredient& inner : one.of) {
    out["of"].push_back(ingredient_json(inner));
  }
  return out;
}

Json nutrient_json(const LabelNutrient& one) {
  return {{"nutrient", one.nutrient},
          {"words", one.words},
          {"unit", one.unit},
          {"per_100_grams", rounded(one.per_100_grams)},
          {"per_100_grams_range", band_json(one.per_100_grams_range)},
          {"per_piece", rounded(one.per_piece)},
          {"per_piece_range", band_json(one.per_piece_range)},
          {"per_serving", rounded(one.per_serving)},
          {"declared_per_100_grams", one.declared_per_100_grams},
          {"declared_per_piece", one.declared_per_piece},
          {"declared_per_serving", one.declared_per_serving},
          {"not_known_for", one.not_known_for},
          {"daily_pct", one.daily_pct ? Json(*one.daily_pct) : Json()},
          {"chance_within_tolerance", rounded(one.chance_within_tolerance)}};
}

}  // namespace

std::string label_text(const Label& label) {
  std::string out = label.title.empty() ? "Label\n" : label.title + "\n";
  out += number_text(label.finished_grams.p50, 0) + " g finished";
  if (label.pieces > 1.5) {
    out += ", " + number_text(label.pieces, 0) + " pieces of " +
           number_text(label.piece_grams.p50, 0) + " g";
  }
  if (label.bake_loss_pct.p90 > 0.0) {
    out += ", " + number_text(label.bake_loss_pct.p50, 1) + " % lost in the oven";
  }
  out += "\n\nIngredients: " + label.list + "\n";
  if (!label.contains.empty()) {
    out += label.contains + "\n";
  }
  nutrition_text(label, out);
  if (!label.asks.empty()) {
    out += "\nStill to be found out:\n";
    for (const std::string& ask : label.asks) {
      out += "- " + ask + "\n";
    }
  }
  out += "\n";
  for (const std::string& note : label.notes) {
    out += "- " + note + "\n";
  }
  return out;
}

std::string label_to_json(const Label& label) {
  Json out{{"title", label.title},
           {"rules", std::string(label_rules_name(label.rules))},
           {"pieces", rounded(label.pieces)},
           {"finished_grams", band_json(label.finished_grams)},
           {"piece_grams", band_json(label.piece_grams)},
           {"bake_loss_pct", band_json(label.bake_loss_pct)},
           {"list", label.list},
           {"contains", label.contains},
           {"allergens", label.allergens},
           {"ingredients", Json::array()},
           {"serving", Json()},
           {"nutrition", Json::array()},
           {"asks", label.asks},
           {"notes", label.notes}};
  for (const LabelIngredient& one : label.ingredients) {
    out["ingredients"].push_back(ingredient_json(one));
  }
  if (label.serving) {
    out["serving"] = {{"words", label.serving->words},
                      {"pieces", rounded(label.serving->pieces)},
                      {"grams", rounded(label.serving->grams)},
                      {"category", label.serving->category}};
  }
  for (const LabelNutrient& one : label.nutrients) {
    out["nutrition"].push_back(nutrient_json(one));
  }
  return json_text(out);
}

}  // namespace maslin::handon
