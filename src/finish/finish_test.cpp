#include "finish/finish.h"

#include <doctest/doctest.h>

#include <cmath>

#include "finish/coating.h"
#include "finish/jobs.h"
#include "finish/keeping.h"
#include "pantry/pantry.h"
#include "properties/water_activity.h"

using namespace maslin;

namespace {

const FinishTables& tables() {
  static const FinishTables all = embedded_finish_tables();
  return all;
}
const Ingredient* food(const char* id) {
  static const Pantry pantry(embedded_pantry_tables());
  const Ingredient* found = pantry.find(id);
  REQUIRE_MESSAGE(found != nullptr, id);
  return found;
}
Portions bowl(std::initializer_list<std::pair<const char*, double>> lines) {
  Portions out;
  for (const auto& [id, grams] : lines) {
    out.items.push_back({food(id), grams});
  }
  return out;
}
FinishPart part(const char* name, PartKind kind, Portions portions) {
  FinishPart out;
  out.name = name;
  out.kind = kind;
  out.portions = std::move(portions);
  return out;
}

FinishPart dough() {
  return part("dough", PartKind::dough,
              bowl({{"strong_white_flour", 500.0},
                    {"whole_milk", 280.0},
                    {"caster_sugar", 60.0},
                    {"butter", 60.0},
                    {"egg", 50.0},
                    {"salt", 8.0}}));
}
FinishPart icing(double juice_g) {
  return part("glaze", PartKind::glaze, bowl({{"icing_sugar", 200.0}, {"orange_juice", juice_g}}));
}

double value(const FinishForecast& forecast, const char* what, const char* name,
             const char* figure_name) {
  const FinishEntry* entry = forecast.entry(what, name);
  REQUIRE_MESSAGE(entry != nullptr, what);
  const FinishFigure* found = figure(*entry, figure_name);
  REQUIRE_MESSAGE(found != nullptr, figure_name);
  return found->value[0];
}

}  // namespace

TEST_CASE("an orange glaze on sweet buns is forecast whole") {
  const FinishForecast forecast =
      finish_parts(tables(), {dough(), icing(30.0)}, BakedPiece{}, FinishUnknowns{});
  CHECK(forecast.problems.empty());
  const FinishEntry* glaze = forecast.entry("glaze", "glaze");
  REQUIRE(glaze != nullptr);
  REQUIRE(glaze->term.has_value());
  CHECK(tables().terms[static_cast<std::size_t>((*glaze->term)[0])].id == "coat");
  CHECK(value(forecast, "glaze", "glaze", "liquid_for_drizzle_g") > 30.0);
  CHECK(value(forecast, "glaze", "glaze", "liquid_for_line_g") < 30.0);
  const double after = value(forecast, "glaze", "glaze", "glaze_after_minutes");
  CHECK(after > 15.0);
  CHECK(after < 40.0);
  CHECK(value(forecast, "keeping", "", "fresh_days") > 1.0);
  CHECK(value(forecast, "keeping", "", "fresh_days_in_fridge") <
        value(forecast, "keeping", "", "fresh_days"));
}

TEST_CASE("the amounts named for a term give that term when used") {
  const FinishForecast first =
      finish_parts(tables(), {icing(30.0)}, BakedPiece{}, FinishUnknowns{});
  const double drizzle = value(first, "glaze", "glaze", "liquid_for_drizzle_g");
  const FinishForecast second =
      finish_parts(tables(), {icing(drizzle)}, BakedPiece{}, FinishUnknowns{});
  CHECK(value(second, "glaze", "glaze", "viscosity_pa_s") ==
        doctest::Approx(tables().term("drizzle")->target_pa_s).epsilon(1e-3));
}

TEST_CASE("a glaze with no liquid is one clear sentence") {
  const FinishForecast forecast = finish_parts(
      tables(), {dough(), part("icing", PartKind::glaze, bowl({{"icing_sugar", 200.0}}))},
      BakedPiece{}, FinishUnknowns{});
  REQUIRE(forecast.problems.size() == 1);
  CHECK(forecast.problems[0].where == "icing");
  CHECK(forecast.problems[0].what == "it has no liquid");
  CHECK(forecast.problems[0].mend.find("15 g") != std::string::npos);
  CHECK(forecast.entry("glaze", "icing") == nullptr);
  CHECK(forecast.entry("cooling", "") != nullptr);
}

TEST_CASE("air over 100 % and a room below freezing are refused in a sentence each") {
  FinishUnknowns unknowns;
  unknowns.humidity_pct = 101.0;
  unknowns.room_celsius = -4.0;
  const FinishForecast forecast =
      finish_parts(tables(), {dough(), icing(30.0)}, BakedPiece{}, unknowns);
  REQUIRE(forecast.problems.size() == 2);
  CHECK(forecast.problems[0].what == "the humidity is outside 0 to 100 %");
  CHECK(forecast.problems[1].what.find("-4 C") != std::string::npos);
  CHECK(forecast.entries.empty());
}

TEST_CASE("a cream-cheese filling is to be chilled, a jam is not") {
  FinishPart cheese =
      part("filling", PartKind::filling, bowl({{"cream_cheese", 200.0}, {"caster_sugar", 40.0}}));
  FinishPart jam = part("jam", PartKind::filling, bowl({{"jam", 200.0}}));
  const FinishForecast forecast =
      finish_parts(tables(), {dough(), cheese, jam}, BakedPiece{}, FinishUnknowns{});
  bool cheese_chilled = false;
  bool jam_chilled = false;
  for (const FinishCaution& caution : forecast.cautions) {
    if (caution.id == "chill_perishable" && caution.applies[0] > 0.5) {
      cheese_chilled = cheese_chilled || caution.part == "filling";
      jam_chilled = jam_chilled || caution.part == "jam";
      CHECK(caution.text.find("local food codes") != std::string::npos);
    }
  }
  CHECK(cheese_chilled);
  CHECK(!jam_chilled);
}

TEST_CASE("jam runs from a roll, date paste and an egg custard stay where they are") {
  // FAO Bulletin 119 and common practice: pectin melts near 95 C, fibre and egg do not.
  FinishPart jam = part("jam", PartKind::filling, bowl({{"jam", 200.0}}));
  FinishPart dates = part("dates", PartKind::filling, bowl({{"date_paste", 200.0}}));
  FinishPart custard = part("custard", PartKind::filling,
                            bowl({{"whole_milk", 200.0}, {"egg", 50.0}, {"cornflour", 20.0}}));
  const FinishForecast forecast =
      finish_parts(tables(), {dough(), jam, dates, custard}, BakedPiece{}, FinishUnknowns{});
  CHECK(value(forecast, "filling", "jam", "chance_runs_out") == 1.0);
  CHECK(value(forecast, "filling", "dates", "chance_runs_out") == 0.0);
  CHECK(value(forecast, "filling", "dates", "chance_boils_out") == 0.0);
  CHECK(value(forecast, "filling", "custard", "chance_runs_out") == 0.0);
}

TEST_CASE("the steps say where the filling goes") {
  const auto place = [](const char* text) {
    Recipe recipe;
    Step step;
    step.text = text;
    recipe.parts.resize(1);
    recipe.parts[0].steps = {step};
    return filling_place(tables(), recipe);
  };
  CHECK(place("Roll up and cut into 12 slices.") == FillingPlace::rolled);
  CHECK(place("Spread with the paste, fold in three and cut into strips.") == FillingPlace::folded);
  CHECK(place("put filling over half, fold and seal") == FillingPlace::folded);
  CHECK(place("put a teaspoon of jam in each and pinch shut") == FillingPlace::enclosed);
  CHECK(place("press a hollow into each and fill") == FillingPlace::open);
  CHECK(!place("Fold the dough every half hour. Bake.").has_value());
}

TEST_CASE("what stands under one heading is told apart by its jobs") {
  const FinishPart all = part("to finish", PartKind::topping,
                              bowl({{"egg", 50.0},
                                    {"almonds_blanched", 20.0},
                                    {"dark_chocolate", 100.0},
                                    {"butter", 20.0},
                                    {"icing_sugar", 120.0},
                                    {"lemon_juice", 20.0}}));
  const std::vector<FinishPart> jobs = jobs_of(all);
  REQUIRE(jobs.size() == 4);
  CHECK(jobs[0].kind == PartKind::wash);
  CHECK(jobs[0].baked);
  CHECK(jobs[2].portions.items.size() == 2);
  CHECK(jobs[3].portions.items.size() == 2);
  CHECK(jobs[3].name != jobs[2].name);
  std::vector<FinishPart> parts = jobs;
  parts.push_back(dough());
  const FinishForecast forecast = finish_parts(tables(), parts, BakedPiece{}, FinishUnknowns{});
  CHECK(forecast.problems.empty());
  CHECK(forecast.entry("wash", jobs[0].name) != nullptr);
  CHECK(forecast.entry("coating", jobs[2].name) != nullptr);
  CHECK(forecast.entry("glaze", jobs[3].name) != nullptr);
  for (const FinishCaution& one : forecast.cautions) {
    CHECK_MESSAGE(one.id != "raw_egg", "the wash goes through the oven");
  }
}

TEST_CASE("what is one thing stays one") {
  for (const Portions& one :
       {bowl({{"icing_sugar", 200.0}, {"orange_juice", 30.0}}),
        bowl({{"icing_sugar", 100.0}, {"cocoa_powder", 10.0}, {"water", 15.0}}),
        bowl({{"dark_chocolate", 60.0}, {"butter", 40.0}, {"icing_sugar", 80.0}}),
        bowl({{"ground_almonds", 80.0}, {"caster_sugar", 80.0}, {"egg_white", 40.0}}),
        bowl({{"egg_white", 35.0}, {"icing_sugar", 200.0}})}) {
    const std::vector<FinishPart> jobs = jobs_of(part("top", PartKind::topping, one));
    REQUIRE(jobs.size() == 1);
    CHECK(jobs[0].portions.items.size() == one.items.size());
    CHECK(jobs[0].name == "top");
  }
}

TEST_CASE("chocolate thins with oil to what is asked, seizes with a spoon of water, takes cream") {
  const auto state = [](const Portions& portions) {
    return coating_state(coating_mix(portions), FinishUnknowns{});
  };
  const CoatingMix plain = coating_mix(bowl({{"dark_chocolate", 100.0}}));
  const double oil = oil_to_reach_g(plain, 3.0, FinishUnknowns{})[0];
  CHECK(oil > 1.0);
  CHECK(state(bowl({{"dark_chocolate", 100.0}, {"vegetable_oil", oil}})).viscosity_pa_s[0] ==
        doctest::Approx(3.0).epsilon(0.02));
  CHECK(state(bowl({{"dark_chocolate", 100.0}, {"water", 5.0}})).seizes[0] == 1.0);
  CHECK(state(bowl({{"dark_chocolate", 100.0}, {"butter", 20.0}})).seizes[0] == 0.0);
  CHECK(state(bowl({{"dark_chocolate", 100.0}, {"double_cream", 80.0}})).ganache[0] == 1.0);
  CHECK(state(bowl({{"dark_chocolate", 100.0}, {"butter", 20.0}})).sets_below_celsius[0] <
        state(bowl({{"dark_chocolate", 100.0}})).sets_below_celsius[0]);
}

TEST_CASE("a thick wall of dough keeps a runny filling in") {
  FinishPart jam = part("jam", PartKind::filling, bowl({{"jam", 150.0}}));
  jam.place = FillingPlace::enclosed;
  const FinishForecast forecast =
      finish_parts(tables(), {dough(), jam}, BakedPiece{}, FinishUnknowns{});
  CHECK(value(forecast, "filling", "jam", "wall_mm") > 4.0);
  CHECK(value(forecast, "filling", "jam", "chance_runs_out") == 0.0);
}

TEST_CASE("a boiled fruit filling says where it sets as jam, lower in the mountains") {
  FinishPart jam =
      part("jam", PartKind::filling, bowl({{"strawberry", 500.0}, {"granulated_sugar", 450.0}}));
  jam.boiled = true;
  FinishUnknowns unknowns;
  const FinishForecast low = finish_parts(tables(), {jam}, BakedPiece{}, unknowns);
  unknowns.altitude_m = 2600.0;
  const FinishForecast high = finish_parts(tables(), {jam}, BakedPiece{}, unknowns);
  // Sea level 104-105 C: Cruess and McNair, read.
  CHECK(value(low, "syrup", "jam", "jam_sets_celsius") > 103.5);
  CHECK(value(low, "syrup", "jam", "jam_sets_celsius") < 106.5);
  CHECK(value(high, "syrup", "jam", "jam_sets_celsius") <
        value(low, "syrup", "jam", "jam_sets_celsius") - 7.0);
  CHECK(value(low, "syrup", "jam", "jam_sets_at_g") < 950.0);
}

TEST_CASE("sugar that stays in crystals does not dry a filling on paper") {
  // Butter, sugar and a little water: the syrup is saturated, near 0.85, however much sugar.
  const Portions some = bowl({{"water", 20.0}, {"granulated_sugar", 50.0}});
  const Portions much = bowl({{"water", 20.0}, {"granulated_sugar", 500.0}});
  CHECK(
      part_water_activity(some, some.grams_of(Component::water))[0] ==
      doctest::Approx(part_water_activity(much, much.grams_of(Component::water))[0]).epsilon(0.02));
}

TEST_CASE("reading the isotherm backwards gives the water it was asked with") {
  for (double x = 0.05; x < 2.0; x += 0.05) {
    CHECK(polymer_water_at(polymer_water_activity(x, 298.15))[0] ==
          doctest::Approx(x).epsilon(1e-6));
  }
}
