// Food labels: rounding, percentages, servings, energy and tolerances against the rules
// (tests/published/labels.tsv), and published nutrition through the whole label.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <functional>
#include <sstream>
#include <string>

#include "handon/label.h"
#include "handon/label_list.h"
#include "handon/label_nutrition.h"
#include "handon/label_rounding.h"
#include "handon/label_tables.h"
#include "published/nutrition_kit.h"
#include "quantity/number_text.h"
#include "quantity/table.h"
#include "support/book.h"
#include "support/larder.h"

using namespace maslin;
using namespace maslin::handon;

namespace {

const LabelTables& tables() {
  static const LabelTables all;
  return all;
}

struct Row {
  LabelRules rules = LabelRules::eu;
  std::string nutrient;
  double a = 0.0;
  double b = 0.0;
  std::string expected;
  book::Figure figure;
};

std::string table_text() {
  std::ifstream file(MASLIN_SOURCE_DIR "/tests/published/labels.tsv");
  std::stringstream out;
  out << file.rdbuf();
  return out.str();
}

/// Calls `check` with every row of the kind.
void each(const char* kind, const std::function<void(const Row&)>& check) {
  const std::string text = table_text();
  const Table table(text);
  int rows = 0;
  for (std::size_t i = 0; i < table.size(); ++i) {
    if (table.cell(i, "kind") != kind) {
      continue;
    }
    ++rows;
    Row row;
    row.rules = label_rules_from(table.cell(i, "rules")).value();
    row.nutrient = table.cell(i, "nutrient");
    row.a = table.number(i, "a");
    row.b = table.number(i, "b");
    row.expected = table.cell(i, "expected");
    const std::string what = std::string(kind) + " " + std::string(table.cell(i, "rules")) + " " +
                             row.nutrient + " " + std::string(table.cell(i, "a"));
    const std::string_view source = table.cell(i, "source");
    row.figure = {"labels", what, "", source, book::mark_in(source)};
    check(row);
  }
  CHECK(rows > 0);
}

void said(const Row& row, const std::string& got) {
  CHECK_MESSAGE(book::as_noted(row.figure, got, row.expected, got == row.expected), row.figure.what,
                ": ", got, " against ", row.expected);
}

const NutrientRow& nutrient_row(LabelRules rules, const std::string& nutrient) {
  const auto& rows = tables().nutrients(rules);
  return *std::find_if(rows.begin(), rows.end(),
                       [&](const NutrientRow& row) { return row.nutrient == nutrient; });
}

Recipe baked(const char* title, std::vector<Line> lines) {
  Recipe out;
  out.title = title;
  out.pieces = Range{10, 10};
  out.parts.push_back({PartKind::dough, "dough", std::move(lines), {}, point(1.0)});
  Step bake;
  bake.kind = StepKind::bake;
  out.parts[0].steps.push_back(bake);
  return out;
}

Label label(const Recipe& recipe, LabelRules rules, double loss_pct) {
  LabelRequest request;
  request.rules = rules;
  request.draws.draws = 8;
  request.bake_loss_pct = {loss_pct};
  return label_of(recipe, whole_pantry(), request);
}

const LabelNutrient& nutrient(const Label& label, const std::string& name) {
  return *std::find_if(label.nutrients.begin(), label.nutrients.end(),
                       [&](const LabelNutrient& one) { return one.nutrient == name; });
}

}  // namespace

TEST_CASE("figures are declared in the steps of the rules") {
  each("declared", [](const Row& row) { said(row, declared(row.rules, row.nutrient, row.a)); });
}

TEST_CASE("a percentage is of the finished product, or grams for 100 g") {
  each("quantity", [](const Row& row) { said(row, quantity_declared(row.a, row.b)); });
}

TEST_CASE("a serving is so many pieces") {
  each("serving",
       [](const Row& row) { said(row, number_text(pieces_of_serving(row.a, row.b), 2)); });
}

TEST_CASE("reference amounts follow what the product is called") {
  each("reference", [](const Row& row) {
    const Recipe recipe =
        baked(row.nutrient.c_str(), {weighed_line("plain_flour", 500), weighed_line("water", 300)});
    const Label out = label(recipe, LabelRules::us, 10.0);
    REQUIRE(out.serving.has_value());
    const auto& servings = tables().servings();
    const auto at = std::find_if(servings.begin(), servings.end(), [&](const ServingRow& one) {
      return one.category == out.serving->category;
    });
    said(row, number_text(at->grams, 0));
  });
}

TEST_CASE("what an adult has in a day is the rules'") {
  each("daily", [](const Row& row) {
    said(row, number_text(nutrient_row(row.rules, row.nutrient).daily.value_or(0.0), 0));
  });
}

TEST_CASE("the panel's vitamins and minerals are said as shares of a day in the rules' steps") {
  each("percent", [](const Row& row) {
    const double daily = nutrient_row(row.rules, row.nutrient).daily.value_or(1.0);
    said(row, declared(row.rules, "micronutrient", 100.0 * row.a / daily));
  });
}

TEST_CASE("what a panel asks of a food is what the composition table says") {
  each("food", [](const Row& row) {
    const std::size_t space = row.nutrient.find(' ');
    const Ingredient* food = whole_pantry().find(row.nutrient.substr(0, space));
    REQUIRE(food != nullptr);
    const auto name =
        std::find(k_figure_names.begin(), k_figure_names.end(), row.nutrient.substr(space + 1));
    REQUIRE(name != k_figure_names.end());
    const FigureBounds bounds =
        tables().figures().of(*food, static_cast<std::size_t>(name - k_figure_names.begin()), true);
    CHECK(bounds.known);
    book::against(row.figure, 100.0 * bounds.low, book::near(row.a, 1e-6 * row.a));
  });
}

TEST_CASE("no figure of a panel is given that the foods do not bear out") {
  const auto with = [](const char* id, double grams) {
    return label(baked("rolls", {weighed_line("plain_flour", 500), weighed_line("water", 300),
                                 weighed_line(id, grams)}),
                 LabelRules::us, 10.0);
  };
  // Everything known: no food is named, and a share of the day goes along.
  const Label plain = with("whole_milk", 60);
  CHECK(nutrient(plain, "calcium").not_known_for.empty());
  CHECK(nutrient(plain, "calcium").daily_pct.has_value());
  CHECK(nutrient(plain, "cholesterol").declared_per_serving == "0");
  // An egg powder substitute from memory: its minerals are not known, its cholesterol neither.
  const Label odd = with("egg_replacer", 60);
  const LabelNutrient& potassium = nutrient(odd, "potassium");
  REQUIRE(potassium.not_known_for.size() == 1);
  CHECK(potassium.not_known_for.front() == whole_pantry().find("egg_replacer")->name);
  CHECK(potassium.declared_per_serving.rfind("at least ", 0) == 0);
  CHECK_FALSE(potassium.daily_pct.has_value());
  // At least what the flour brings: 107 mg in 100 g (SR28 20481, read), 50 g a piece.
  CHECK(potassium.per_serving == doctest::Approx(53.5).epsilon(0.02));
  CHECK(std::any_of(odd.asks.begin(), odd.asks.end(), [](const std::string& ask) {
    return ask.find("Potassium") != std::string::npos &&
           ask.find("not known for") != std::string::npos;
  }));
  // A pinch of it can hold no more than the rounding hides.
  CHECK(nutrient(with("egg_replacer", 0.1), "potassium").not_known_for.empty());
}

TEST_CASE("samples agree with a declared figure within the tolerance and not beyond") {
  each("tolerance", [](const Row& row) {
    const std::string& tolerance = nutrient_row(row.rules, row.nutrient).tolerance;
    constexpr double k_hair = 1e-6;
    const auto agrees = [&](double value) {
      return within_tolerance(tolerance, row.expected, value);
    };
    const bool good = agrees(row.a + k_hair) && agrees(row.b - k_hair) && !agrees(row.a - k_hair) &&
                      !agrees(row.b + k_hair);
    CHECK_MESSAGE(book::as_noted(row.figure, good ? "as stated" : "otherwise", "as stated", good),
                  row.figure.what);
  });
}

TEST_CASE("a gram of each nutrient gives the rules' energy") {
  each("energy", [](const Row& row) {
    Ingredient pure;
    pure.id = "pure";
    for (std::size_t i = 0; i < k_component_count; ++i) {
      if (component_name(static_cast<Component>(i)) == row.nutrient) {
        pure.composition.fraction[i] = 1.0;
      }
    }
    const NutrientFigures out = nutrients_of(pure, 1.0, tables(), row.rules);
    book::against(row.figure, out.at("energy_kcal"), book::near(row.b, 1e-9));
    if (row.a > 0.0) {
      book::against(row.figure, out.at("energy_kj"), book::near(row.a, 1e-9));
    }
  });
}

TEST_CASE("sugar alcohols have their own energy") {
  each("polyol", [](const Row& row) {
    const Ingredient* food = whole_pantry().find(row.nutrient);
    REQUIRE(food != nullptr);
    const double polyol = food->composition[Component::other_carbohydrate];
    REQUIRE(polyol > 0.9);
    const NutrientFigures out = nutrients_of(*food, 1.0 / polyol, tables(), row.rules);
    book::against(row.figure, out.at("energy_kcal"), book::near(row.b, 0.02));
    book::against(row.figure, out.at("energy_kj"), book::near(row.a, 0.1));
  });
}

TEST_CASE("European protein is nitrogen times 6.25: flour of 10.0 g by 5.7 has 11.0 g") {
  // Regulation (EU) 1169/2011 Annex I; SR28's factor for white wheat flour is 5.70 (read).
  Ingredient flour = *whole_pantry().find("plain_flour");
  flour.composition[Component::protein] = 0.10;
  const NutrientFigures eu = nutrients_of(flour, 100.0, tables(), LabelRules::eu);
  const NutrientFigures us = nutrients_of(flour, 100.0, tables(), LabelRules::us);
  const book::Figure figure{"labels", "protein of wheat flour at N x 6.25", "g",
                            "1169/2011 Annex I", book::Mark::derived};
  book::against(figure, eu.at("protein"), book::near(11.0, 0.05));
  CHECK(us.at("protein") == doctest::Approx(10.0));
  // By difference: what protein gains, carbohydrate loses; American carbohydrate holds the fibre.
  CHECK(eu.at("carbohydrate") + eu.at("protein") + eu.at("fibre") ==
        doctest::Approx(us.at("carbohydrate") + us.at("protein")));
}

TEST_CASE("European salt is sodium times 2.5") {
  // Regulation (EU) 1169/2011 Annex I; SR28 02047: 38 758 mg of sodium in 100 g of salt (read).
  const NutrientFigures salt =
      nutrients_of(*whole_pantry().find("salt"), 100.0, tables(), LabelRules::eu);
  const book::Figure figure{"labels", "salt in 100 g of table salt", "g", "1169/2011 Annex I",
                            book::Mark::derived};
  book::against(figure, salt.at("salt"), book::near(96.9, 0.3));
}

TEST_CASE("published portions come through the label, whatever the oven takes") {
  int met = 0;
  int judged = 0;
  int whole = 0;
  for (const nutrition_kit::Published& published : nutrition_kit::all_published()) {
    if (!(published.portions > 0.0)) {
      continue;
    }
    Recipe recipe = published.recipe;
    recipe.parts[0].name = "dough";
    recipe.title = published.name;
    recipe.pieces = Range{published.portions, published.portions};
    const Label raw = label(recipe, LabelRules::us, 0.0);
    const Label out = label(recipe, LabelRules::us, 11.0);
    REQUIRE_MESSAGE(out.problem.empty(), published.name, ": ", out.problem);
    int here = 0;
    int here_met = 0;
    for (const nutrition_kit::Printed& printed : published.printed) {
      const std::map<std::string, std::string> names{{"energy_kcal", "energy_kcal"},
                                                     {"protein_g", "protein"},
                                                     {"fat_g", "fat"},
                                                     {"saturates_g", "saturates"},
                                                     {"carbohydrate_total_g", "carbohydrate"},
                                                     {"fibre_g", "fibre"},
                                                     {"sodium_mg", "sodium"},
                                                     {"cholesterol_mg", "cholesterol"},
                                                     {"calcium_mg", "calcium"},
                                                     {"iron_mg", "iron"},
                                                     {"potassium_mg", "potassium"}};
      const auto name = names.find(printed.nutrient);
      if (name == names.end() || !printed.judged) {
        continue;
      }
      const LabelNutrient& ours = nutrient(out, name->second);
      if (!ours.not_known_for.empty()) {
        continue;  // a lower bound is no figure
      }
      // Only water leaves: a piece holds what it held, 100 g hold more.
      CHECK(ours.per_piece == doctest::Approx(nutrient(raw, name->second).per_piece));
      CHECK(ours.per_100_grams ==
            doctest::Approx(nutrient(raw, name->second).per_100_grams / 0.89));
      const double off = std::fabs(ours.per_piece - printed.value);
      const bool good = off <= std::max(0.1 * printed.value, printed.half_digit);
      judged += 1;
      met += good ? 1 : 0;
      here += 1;
      here_met += good ? 1 : 0;
      if (!good) {
        MESSAGE(published.name, " ", printed.nutrient, ": ", ours.per_piece, " against ",
                printed.value);
      }
    }
    whole += here >= 4 && here == here_met ? 1 : 0;
  }
  MESSAGE("judged figures met: ", met, " of ", judged, "; portions met whole: ", whole);
  const book::Figure figure{"labels", "published portions met whole, within 10 %", "recipes",
                            "tests/published/nutrition/README.md", book::Mark::read};
  book::against(figure, whole, book::at_least(3));
}
