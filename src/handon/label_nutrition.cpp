#include "handon/label_nutrition.h"

#include <algorithm>
#include <cmath>

#include "handon/label_rounding.h"
#include "quantity/number_text.h"

namespace maslin::handon {
namespace {

/// Salt in the pantry is sodium x 2.54 (molar masses); labels say sodium x 2.5, 1169/2011 Annex I.
constexpr double k_salt_per_sodium = 2.54;
constexpr double k_label_salt_per_sodium = 2.5;

/// Energy of a gram, 1169/2011 Annex XIV (from memory), in kJ and kcal. American and Codex labels
/// go by kcal alone: 4, 4, 9 and 7, 21 CFR 101.9(c)(1)(i)(B) and CXG 2-1985 3.3.1 (from memory).
struct Factor {
  double kj;
  double kcal;
};
constexpr Factor k_carbohydrate{17.0, 4.0};
constexpr Factor k_protein{17.0, 4.0};
constexpr Factor k_fat{37.0, 9.0};
constexpr Factor k_alcohol{29.0, 7.0};
constexpr Factor k_organic_acid{13.0, 3.0};
constexpr Factor k_fibre{8.0, 2.0};
constexpr Factor k_polyol{10.0, 2.4};

/// Sugars that were put in rather than grown or milked in: 21 CFR 101.9(c)(6)(iii), by the kind of
/// food. Juice counts as grown in unless it is concentrated.
double added_sugars_of(const Ingredient& food) {
  const Composition& c = food.composition;
  const double simple = c[Component::sucrose] + c[Component::glucose] + c[Component::fructose] +
                        c[Component::maltose];
  switch (food.kind) {
    case IngredientKind::sugar:
    case IngredientKind::syrup:
    case IngredientKind::topping:
    case IngredientKind::preserve:
    case IngredientKind::drink:
    case IngredientKind::chocolate:
      return simple;
    case IngredientKind::dairy:
      return c[Component::sucrose];
    default:
      return 0.0;
  }
}

struct Carbohydrate {
  double available = 0.0;
  double polyols = 0.0;
  double polyol_kcal = 0.0;
};

/// By difference, so what the protein of the label takes more, the carbohydrate has less.
Carbohydrate carbohydrate_of(const Ingredient& food, double more_protein,
                             const LabelTables& tables) {
  const Composition& c = food.composition;
  const double other = c[Component::other_carbohydrate];
  Carbohydrate out;
  out.available = std::max(0.0, c.sugars() + c[Component::starch] + other - more_protein);
  if (tables.is_polyol(food)) {
    out.polyols = std::min(other, out.available);
    out.polyol_kcal = out.polyols * tables.other_carbohydrate_kcal_per_g(food);
  }
  return out;
}

void add_energy(const Ingredient& food, LabelRules rules, const Carbohydrate& carbohydrate,
                double protein, NutrientFigures& out) {
  const Composition& c = food.composition;
  const double rest = carbohydrate.available - carbohydrate.polyols;
  if (rules == LabelRules::us) {
    const double total =
        carbohydrate.available + c[Component::fibre] + c[Component::acid] - carbohydrate.polyols;
    out["energy_kcal"] = k_protein.kcal * protein + k_carbohydrate.kcal * total +
                         carbohydrate.polyol_kcal + k_fat.kcal * c[Component::fat] +
                         k_alcohol.kcal * c[Component::alcohol];
    return;
  }
  const double fibre = rules == LabelRules::codex ? 0.0 : c[Component::fibre];
  const auto sum = [&](double Factor::* unit) {
    return k_protein.*unit * protein + k_carbohydrate.*unit * rest +
           k_fat.*unit * c[Component::fat] + k_fibre.*unit * fibre +
           k_alcohol.*unit * c[Component::alcohol] + k_organic_acid.*unit * c[Component::acid];
  };
  out["energy_kcal"] = sum(&Factor::kcal) + carbohydrate.polyol_kcal;
  out["energy_kj"] = sum(&Factor::kj) + carbohydrate.polyol_kcal * k_polyol.kj / k_polyol.kcal;
}

/// One nutrient of every food of every group, per gram.
using PerGram = std::vector<std::vector<FigureBounds>>;

PerGram per_gram(const LabelContents& contents, const LabelTables& tables, LabelRules rules,
                 const std::string& nutrient) {
  const auto figure = std::find(k_figure_names.begin(), k_figure_names.end(), nutrient);
  PerGram out;
  for (const FoodGroup& group : contents.groups) {
    out.emplace_back();
    for (const FoodAmount& food : group.foods) {
      if (figure != k_figure_names.end()) {
        const auto which = static_cast<std::size_t>(figure - k_figure_names.begin());
        out.back().push_back(
            tables.figures().of(*food.ingredient, which, food.ingredient->id == food.named->id));
        continue;
      }
      const NutrientFigures figures = nutrients_of(*food.ingredient, 1.0, tables, rules);
      const auto at = figures.find(nutrient);
      const double each = at == figures.end() ? 0.0 : at->second;
      out.back().push_back({each, each, true});
    }
  }
  return out;
}

/// The figure of every draw, per 100 g finished, with what is known or with the most there can be.
std::vector<double> per_100(const LabelContents& contents, const PerGram& of_gram,
                            double FigureBounds::* bound) {
  std::vector<double> out(contents.draws(), 0.0);
  for (std::size_t g = 0; g < contents.groups.size(); ++g) {
    const FoodGroup& group = contents.groups[g];
    for (std::size_t f = 0; f < group.foods.size(); ++f) {
      const double each = of_gram[g][f].*bound;
      for (std::size_t d = 0; d < out.size(); ++d) {
        // Nothing of a food holds nothing, however much it might.
        out[d] += group.foods[f].grams[d] > 0.0 ? each * group.foods[f].grams[d] : 0.0;
      }
    }
  }
  for (std::size_t d = 0; d < out.size(); ++d) {
    out[d] *= contents.finished_grams[d] > 0.0 ? 100.0 / contents.finished_grams[d] : 0.0;
  }
  return out;
}

std::vector<double> times(const std::vector<double>& a, const std::vector<double>& b,
                          double factor) {
  std::vector<double> out(a.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    out[i] = a[i] * b[i] * factor;
  }
  return out;
}

std::vector<std::string> not_known_in(const LabelContents& contents, const PerGram& of_gram) {
  std::vector<std::string> out;
  for (std::size_t g = 0; g < contents.groups.size(); ++g) {
    for (std::size_t f = 0; f < contents.groups[g].foods.size(); ++f) {
      const FoodAmount& food = contents.groups[g].foods[f];
      const std::string& name = food.named->name;
      if (!of_gram[g][f].known && mean_of(food.grams) > 0.0 &&
          std::find(out.begin(), out.end(), name) == out.end()) {
        out.push_back(name);
      }
    }
  }
  return out;
}

/// The figure where the most there can be is declared as what is known; else what it is at least.
std::string declared_between(const std::vector<RoundingRow>& steps, double low, double high) {
  std::string figure = declared_by(steps, low);
  if (low == high || (std::isfinite(high) && declared_by(steps, high) == figure)) {
    return figure;
  }
  const std::string least = at_least_by(steps, low);
  return least.empty() ? "" : "at least " + least;
}

std::optional<LabelServing> american_serving(const LabelContents& contents,
                                             const LabelTables& tables, const std::string& title,
                                             double sugar_pct_flour, double piece_grams) {
  const std::string folded = " " + folded_name(title) + " ";
  for (const ServingRow& row : tables.servings()) {
    const bool named = row.word.empty() || folded.find(" " + row.word + " ") != std::string::npos;
    if (!named || (row.rich_pct_flour && sugar_pct_flour < *row.rich_pct_flour)) {
      continue;
    }
    LabelServing out;
    out.category = row.category;
    out.pieces = pieces_of_serving(piece_grams, row.grams);
    const bool one_loaf = contents.pieces < 2.0 && piece_grams > 2.0 * row.grams;
    if (one_loaf) {
      // A loaf is cut: the household measure is what comes closest to the reference amount.
      out.pieces = 0.0;
      out.grams = row.grams;
      out.words = "1 slice (" + number_text(row.grams, 0) + " g)";
      return out;
    }
    out.grams = out.pieces * piece_grams;
    out.words = number_text(out.pieces, 0) + (out.pieces > 1.5 ? " pieces (" : " piece (") +
                number_text(out.grams, 0) + " g)";
    return out;
  }
  return std::nullopt;
}

double sugar_pct_flour(const LabelContents& contents) {
  double sugar = 0.0;
  double flour = 0.0;
  for (const FoodGroup& group : contents.groups) {
    for (const FoodAmount& food : group.foods) {
      const double grams = mean_of(food.grams);
      sugar += grams * added_sugars_of(*food.ingredient);
      flour += food.ingredient->kind == IngredientKind::flour ? grams : 0.0;
    }
  }
  return flour > 0.0 ? 100.0 * sugar / flour : 0.0;
}

/// One line of the declaration.
LabelNutrient line_of(const LabelContents& contents, const LabelTables& tables, LabelRules rules,
                      const NutrientRow& row, const PerGram& of_gram,
                      const std::optional<LabelServing>& serving) {
  LabelNutrient one;
  one.nutrient = row.nutrient;
  one.words = row.words;
  one.unit = row.unit;
  const std::vector<double> weight(contents.draws(), 1.0);
  const std::vector<double> hundred = per_100(contents, of_gram, &FigureBounds::low);
  const std::vector<double> most = per_100(contents, of_gram, &FigureBounds::high);
  const std::vector<double> piece = times(hundred, contents.finished_grams, 0.01 / contents.pieces);
  one.per_100_grams = mean_of(hundred);
  one.per_100_grams_range = band_of(hundred, weight);
  one.per_piece = mean_of(piece);
  one.per_piece_range = band_of(piece, weight);
  const double serving_grams = serving ? serving->grams : 100.0;
  one.per_serving = serving && serving->pieces > 0.0 ? one.per_piece * serving->pieces
                                                     : one.per_100_grams * serving_grams / 100.0;
  const double low = one.per_100_grams;
  const double high = mean_of(most);
  // How much more there can be, in the same proportion whatever it is given for.
  const double room = low > 0.0 ? high / low : 1.0;
  const auto most_of = [&](double figure) {
    return high == low ? figure : low > 0.0 ? figure * room : high;
  };
  const std::vector<RoundingRow>& steps = tables.rounding(rules, row.nutrient);
  one.declared_per_100_grams = declared_between(steps, low, high);
  one.declared_per_piece = declared_between(steps, one.per_piece, most_of(one.per_piece));
  one.declared_per_serving = declared_between(steps, one.per_serving, most_of(one.per_serving));
  const bool sure = one.declared_per_serving == declared_by(steps, one.per_serving);
  if (!sure) {
    one.not_known_for = not_known_in(contents, of_gram);
  }
  const bool micro = row.nutrient == "vitamin_d" || row.nutrient == "calcium" ||
                     row.nutrient == "iron" || row.nutrient == "potassium";
  if (row.daily && sure) {
    const double pct = 100.0 * one.per_serving / *row.daily;
    one.daily_pct = micro ? figure_of(declared_by(tables.rounding(rules, "micronutrient"), pct))
                          : std::floor(pct + 0.5);
  }
  double within = 0.0;
  for (const double value : hundred) {
    // A sample that would be declared alike agrees: "0" stands for all below its first step.
    const bool alike = declared_by(steps, value) == declared_by(steps, low);
    within += alike || within_tolerance(row.tolerance, declared_by(steps, low), value) ? 1.0 : 0.0;
  }
  one.chance_within_tolerance =
      within / static_cast<double>(std::max<std::size_t>(hundred.size(), 1));
  return one;
}

}  // namespace

NutrientFigures nutrients_of(const Ingredient& food, double grams, const LabelTables& tables,
                             LabelRules rules) {
  const Composition& c = food.composition;
  const bool american = rules == LabelRules::us;
  const double protein = c[Component::protein] * (american ? 1.0 : tables.protein_factor(food));
  const Carbohydrate carbohydrate = carbohydrate_of(food, protein - c[Component::protein], tables);
  const double sodium = c[Component::salt] / k_salt_per_sodium;
  NutrientFigures out;
  out["fat"] = c[Component::fat];
  out["saturates"] = c[Component::saturated];
  out["carbohydrate"] = american ? carbohydrate.available + c[Component::fibre] + c[Component::acid]
                                 : carbohydrate.available;
  out["sugars"] = c.sugars();
  out["added_sugars"] = added_sugars_of(food);
  out["fibre"] = c[Component::fibre];
  out["protein"] = protein;
  out["salt"] = sodium * k_label_salt_per_sodium;
  out["sodium"] = 1000.0 * sodium;
  add_energy(food, rules, carbohydrate, protein, out);
  for (auto& [name, value] : out) {
    value *= grams;
  }
  return out;
}

Declaration declaration_of(const LabelContents& contents, const LabelTables& tables,
                           LabelRules rules, const std::string& title) {
  Declaration out;
  const double piece_grams = mean_of(contents.finished_grams) / contents.pieces;
  if (rules == LabelRules::us) {
    out.serving = american_serving(contents, tables, title, sugar_pct_flour(contents), piece_grams);
  } else if (contents.pieces >= 2.0) {
    out.serving =
        LabelServing{"1 piece (" + number_text(piece_grams, 0) + " g)", 1.0, piece_grams, ""};
  }
  for (const NutrientRow& row : tables.nutrients(rules)) {
    const PerGram of_gram = per_gram(contents, tables, rules, row.nutrient);
    out.nutrients.push_back(line_of(contents, tables, rules, row, of_gram, out.serving));
  }
  return out;
}

}  // namespace maslin::handon
