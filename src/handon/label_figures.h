// Trans fat, cholesterol, vitamin D, calcium, iron and potassium of foods: what American panels ask
// for and the pantry's composition does not hold (data/handon/label_figures.tsv).
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "pantry/ingredient.h"

namespace maslin::handon {

inline constexpr std::array<std::string_view, 6> k_figure_names{
    "trans_fat", "cholesterol", "vitamin_d", "calcium", "iron", "potassium"};

/// A figure of a food per gram of it, in the unit of its name in data/handon/label_nutrients.tsv
/// (g, mg, ug). Where nobody knows it, `low` is nothing and `high` what its fat that is not
/// saturated or its minerals beside the salt leave room for, or infinite.
struct FigureBounds {
  double low = 0.0;
  double high = 0.0;
  bool known = true;
};

class LabelFigures {
 public:
  /// From the table built into the program.
  LabelFigures();

  /// `pantry_food`: the food is one of the pantry's own, not the juice or the pulp of one.
  FigureBounds of(const Ingredient& food, std::size_t figure, bool pantry_food) const;

 private:
  using Row = std::array<std::optional<double>, k_figure_names.size()>;
  std::map<std::string, Row, std::less<>> rows_;
};

}  // namespace maslin::handon
