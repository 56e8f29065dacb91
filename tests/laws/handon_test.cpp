// Laws of a carried recipe, over random recipes and unequal kitchens: the card is complete, every
// measure holds what it says within its stated error, and the plain-text card reads back to the
// same recipe within rounding.
#include "handon/handon.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <cmath>
#include <string>
#include <vector>

#include "handon/card_text.h"
#include "handon/carried_lines.h"
#include "handon/household.h"
#include "pantry/pantry.h"
#include "reading/reading.h"
#include "support/all_cases.h"

using namespace maslin;
using namespace maslin::handon;

namespace {

const Pantry& pantry() {
  static const Pantry k_pantry(embedded_pantry_tables());
  return k_pantry;
}
const Words& reading_words() {
  static const Words k_words(pantry());
  return k_words;
}

Line line_of(const std::string& id, double number, const std::string& unit,
             const std::string& locale) {
  const Ingredient& one = *pantry().find(id);
  Line line;
  line.ingredient_id = id;
  line.name = one.name;
  line.found = {Range{number, number}, unit, "", ""};
  const auto weight = pantry().weigh(one, point(number), unit, "", "", locale);
  line.weighed = weight.has_value();
  line.grams = weight.value_or(point(0.0));
  line.text = one.name;
  return line;
}

double quarters(int low, int high) {
  return *rc::gen::inRange(low, high) / 4.0;
}

Part any_dough(const std::string& locale) {
  Part dough;
  dough.name = "dough";
  const auto flour = *rc::gen::element<std::string>("plain_flour", "strong_white_flour",
                                                    "wholemeal_flour", "white_spelt_flour");
  const double cups = quarters(8, 33);
  dough.lines.push_back(line_of(flour, cups, "cup", locale));
  const auto liquid = *rc::gen::element<std::string>("water", "whole_milk", "buttermilk",
                                                     "oat_milk", "orange_juice");
  dough.lines.push_back(line_of(liquid, *rc::gen::inRange(60, 90) * cups, "g", locale));
  dough.lines.push_back(
      line_of(*rc::gen::element<std::string>("instant_yeast", "active_dry_yeast", "fresh_yeast"),
              *rc::gen::inRange(2, 10) / 4.0, "tsp", locale));
  dough.lines.push_back(line_of("salt", *rc::gen::inRange(2, 9) / 4.0, "tsp", locale));
  for (const char* id : {"granulated_sugar", "honey", "brown_sugar_light", "cardamom"}) {
    if (*rc::gen::inRange(0, 3) == 0) {
      dough.lines.push_back(line_of(id, *rc::gen::inRange(1, 9) / 2.0, "tbsp", locale));
    }
  }
  for (const char* id : {"butter", "vegetable_oil", "pumpkin_puree"}) {
    if (*rc::gen::inRange(0, 2) == 0) {
      dough.lines.push_back(line_of(id, quarters(1, 4), "cup", locale));
    }
  }
  if (*rc::gen::inRange(0, 2) == 0) {
    dough.lines.push_back(line_of("egg", *rc::gen::inRange(1, 4), "piece", locale));
  }
  return dough;
}

Step step_of(StepKind kind, double minutes, const std::string& until) {
  Step step;
  step.kind = kind;
  step.until = until;
  if (minutes > 0.0) {
    step.minutes = Range{minutes, minutes};
  }
  return step;
}

Recipe any_recipe() {
  Recipe recipe;
  recipe.title = "Saturday buns";
  recipe.locale = *rc::gen::element<std::string>("us", "uk", "au");
  const double pieces = *rc::gen::inRange(1, 25);
  recipe.pieces = Range{pieces, pieces};
  Part dough = any_dough(recipe.locale);
  if (*rc::gen::inRange(0, 2) == 0) {
    Part filling;
    filling.kind = PartKind::filling;
    filling.name = "filling";
    filling.lines.push_back(line_of(*rc::gen::element<std::string>("dates", "raisins", "walnuts"),
                                    quarters(1, 9), "cup", recipe.locale));
    recipe.parts.push_back(filling);
  }
  dough.steps.push_back(step_of(StepKind::knead, 5.0 * *rc::gen::inRange(1, 4), ""));
  dough.steps.push_back(step_of(StepKind::prove, 15.0 * *rc::gen::inRange(0, 7), "doubled"));
  dough.steps.back().place = *rc::gen::element<std::string>("", "warm", "cold");
  dough.steps.push_back(step_of(StepKind::divide, 0.0, ""));
  dough.steps.back().pieces = recipe.pieces;
  dough.steps.push_back(step_of(StepKind::prove, 10.0 * *rc::gen::inRange(1, 6), "puffy"));
  dough.steps.push_back(step_of(StepKind::bake, 5.0 * *rc::gen::inRange(2, 9), "golden"));
  const double celsius = 10.0 * *rc::gen::inRange(16, 24);
  dough.steps.back().celsius = Range{celsius, celsius};
  recipe.parts.insert(recipe.parts.begin(), dough);
  return recipe;
}

Kitchen kitchen_of(const std::string& json) {
  const KitchenDocument document = kitchen_from_json(json);
  REQUIRE(document.problems.empty());
  return document.kitchen;
}

const std::vector<Kitchen>& kitchens() {
  static const std::vector<Kitchen> k_kitchens{
      kitchen_of(R"({"name":"high plateau","country":"us","room_celsius":17,"humidity_pct":40,
        "altitude_m":2600,"oven":{"kind":"charcoal_drum"},
        "measures":[{"name":"mug","ml":280},{"name":"spoon","ml":12}],
        "yeast":{"kind":"active_dry","age_months":8}})"),
      kitchen_of(R"({"name":"jar and spoon","room_celsius":36,"fridge":false,
        "oven":{"kind":"pot"},"measures":[{"name":"jar","ml":370},{"name":"spoon","ml":9}]})"),
      kitchen_of(R"({"name":"cups","country":"us","oven":{"kind":"fan"},
        "tins":[{"kind":"tray","length_mm":300,"width_mm":200}]})"),
      kitchen_of(R"({"name":"scale","country":"uk","room_celsius":14,"measures":["scale"]})"),
      kitchen_of(R"({"name":"pan","country":"tr","oven":{"kind":"none"},
        "equipment":["lidded_pan","steamer"],
        "at_hand":["plain flour","lard","granulated sugar","salt","whole milk powder",
          "active dry yeast"]})"),
      kitchen_of(R"({"name":"nothing told"})"),
      kitchen_of(R"({"name":"steamer","oven":{"kind":"steamer"},"altitude_m":1200,
        "measures":[{"name":"glass","ml":200},{"name":"spoon","ml":15}]})"),
      kitchen_of(R"({"name":"toaster","country":"us","oven":{"kind":"toaster"},"power_hours":4})")};
  return k_kitchens;
}

/// Every line and step of the carried recipe stands on the card, once.
void check_complete(const Card& card) {
  RC_ASSERT(card.problem.empty());
  RC_ASSERT(card.parts.size() == card.recipe.parts.size());
  for (std::size_t p = 0; p < card.parts.size(); ++p) {
    RC_ASSERT(card.parts[p].lines.size() == card.recipe.parts[p].lines.size());
    std::size_t steps = 0;
    for (const CardStep& step : card.parts[p].steps) {
      RC_ASSERT(step.step == steps);
      RC_ASSERT(!step.words.empty());
      steps += step.steps;
    }
    RC_ASSERT(steps == card.recipe.parts[p].steps.size());
    for (const CardLine& line : card.parts[p].lines) {
      RC_ASSERT(!line.name.empty());
      RC_ASSERT(!line.amount.words.empty());
    }
  }
}

/// The counts add up to the grams said, which err from those wanted by what is said; where it
/// matters by no more than 4 %, or a note says which and by how much.
void check_measures(const Card& card) {
  for (const CardPart& part : card.parts) {
    for (const CardLine& line : part.lines) {
      if (line.amount.way != AmountWay::measures) {
        continue;
      }
      const Line& recipe_line = card.recipe.parts[part.part].lines[line.line];
      const Ingredient& one = *pantry().find(recipe_line.ingredient_id);
      const std::string packing = line.amount.packing.empty() ? "level" : line.amount.packing;
      double grams = 0.0;
      for (const MeasureCount& count : line.amount.counts) {
        RC_ASSERT(count.count > 0.0);
        RC_ASSERT(!by_spoon_alone(one) || count.ml <= 30.0);
        grams += count.count * count.ml * pantry().packing(one, packing)->g_per_ml;
      }
      RC_LOG() << line.name << ": " << line.amount.words << " for " << line.grams << " g\n";
      RC_ASSERT(std::fabs(grams - line.amount.grams) < 1e-6 * grams);
      const double error_pct = 100.0 * (grams - line.grams) / line.grams;
      RC_ASSERT(std::fabs(error_pct - line.amount.error_pct) < 1e-6);
      bool said = false;
      for (const std::string& note : card.notes) {
        said = said || note.find(line.amount.words) != std::string::npos;
      }
      RC_ASSERT(care_for(one) == Care::free || std::fabs(error_pct) <= k_exact_limit_pct || said);
    }
  }
}

void check_reads_back(const Card& card) {
  const std::string text = card_to_text(card, pantry());
  const Reading reading = read_text(text, pantry(), reading_words(), {});
  RC_LOG() << text;
  RC_ASSERT(!reading.problem.has_value());
  const Recipe& back = reading.recipe;
  RC_ASSERT(back.title == card.recipe.title);
  RC_ASSERT(back.locale == card.recipe.locale);
  RC_ASSERT(back.pieces == card.recipe.pieces);
  RC_ASSERT(back.parts.size() == card.recipe.parts.size());
  for (std::size_t p = 0; p < back.parts.size(); ++p) {
    const Part& was = card.recipe.parts[p];
    const Part& is = back.parts[p];
    RC_ASSERT(is.kind == was.kind);
    RC_ASSERT(is.lines.size() == was.lines.size());
    for (std::size_t i = 0; i < is.lines.size(); ++i) {
      RC_LOG() << is.lines[i].text << "\n";
      RC_ASSERT(is.lines[i].ingredient_id == was.lines[i].ingredient_id);
      // Counted things are weighed anew by their portions; the rest is what is written.
      RC_ASSERT(std::fabs(is.lines[i].grams.p50() - was.lines[i].grams.p50()) <=
                0.005 * was.lines[i].grams.p50() + 0.005);
    }
    RC_ASSERT(is.steps.size() == was.steps.size());
    for (std::size_t i = 0; i < is.steps.size(); ++i) {
      RC_LOG() << is.steps[i].text << "\n";
      RC_ASSERT(is.steps[i].kind == was.steps[i].kind);
      RC_ASSERT(is.steps[i].minutes == was.steps[i].minutes);
      RC_ASSERT(is.steps[i].pieces == was.steps[i].pieces);
      RC_ASSERT(is.steps[i].until == was.steps[i].until);
      RC_ASSERT(is.steps[i].celsius.has_value() == was.steps[i].celsius.has_value());
      if (was.steps[i].celsius) {
        RC_ASSERT(std::fabs(is.steps[i].celsius->low - was.steps[i].celsius->low) < 0.06);
      }
    }
  }
}

}  // namespace

TEST_CASE("any recipe carried to any of eight kitchens is complete, measured and reads back") {
  int carried = 0;
  const auto carried_everywhere = [&carried] {
    const Recipe recipe = any_recipe();
    for (const Kitchen& kitchen : kitchens()) {
      if (!all_cases() && !*rc::gen::weightedElement<bool>({{1, true}, {3, false}})) {
        continue;  // the usual check carries each recipe to two or so
      }
      CarryRequest request;
      request.to = kitchen;
      request.language = *rc::gen::element<std::string>("", "en-GB", "en-US");
      request.forecast = {1, 8};
      // Forecasts take a while: one in seven.
      ++carried;
      request.settle =
          *rc::gen::weightedElement<Settle>({{1, Settle::by_forecast}, {6, Settle::as_written}});
      const Card card = carry(recipe, pantry(), request);
      RC_LOG() << kitchen.name << "\n";
      check_complete(card);
      check_measures(card);
      check_reads_back(card);
    }
  };
  // A hundred recipes each time.
  CHECK(rc::check(carried_everywhere));
  CHECK(rc::check(carried_everywhere));
  CHECK(carried >= (all_cases() ? 1600 : 300));
}
