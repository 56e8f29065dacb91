#include "handon/label_figures.h"

#include <algorithm>
#include <limits>

#include "handon/embedded_table.h"
#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin::handon {
namespace {

constexpr double k_per_100_g = 0.01;
constexpr double k_mg_a_gram = 1000.0;

bool holds_animal(const Ingredient& food) {
  return std::any_of(food.allergens.begin(), food.allergens.end(), [](const std::string& one) {
    return one == "milk" || one == "egg" || one == "fish" || one == "crustacean" ||
           one == "mollusc";
  });
}

/// The most that the food has room for.
double room_for(const Ingredient& food, std::string_view figure) {
  const Composition& c = food.composition;
  if (figure == "trans_fat") {
    return std::max(0.0, c[Component::fat] - c[Component::saturated]);
  }
  if (figure == "calcium" || figure == "iron" || figure == "potassium") {
    return k_mg_a_gram * std::max(0.0, c[Component::minerals] - c[Component::salt]);
  }
  return std::numeric_limits<double>::infinity();
}

}  // namespace

LabelFigures::LabelFigures() {
  constexpr std::array<const char*, k_figure_names.size()> k_columns{
      "trans", "cholesterol", "vitamin_d", "calcium", "iron", "potassium"};
  const Table table(handon_data::embedded_table("label_figures.tsv"));
  for (std::size_t i = 0; i < table.size(); ++i) {
    Row& row = rows_[std::string(table.cell(i, "id"))];
    for (std::size_t f = 0; f < k_columns.size(); ++f) {
      row[f] = number_from(table.cell(i, k_columns[f]));
    }
  }
}

FigureBounds LabelFigures::of(const Ingredient& food, std::size_t figure, bool pantry_food) const {
  const auto cell = [&](const std::string& key) -> std::optional<double> {
    const auto row = rows_.find(key);
    return row == rows_.end() ? std::nullopt : row->second[figure];
  };
  std::optional<double> value = pantry_food ? cell(food.id) : std::nullopt;
  if (!value && !holds_animal(food)) {
    value = cell(kind_key(food));
  }
  if (value) {
    return {*value * k_per_100_g, *value * k_per_100_g, true};
  }
  const double most = room_for(food, k_figure_names[figure]);
  return {0.0, most, most <= 0.0};
}

}  // namespace maslin::handon
