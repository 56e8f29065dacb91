#include "finish/finish.h"

#include <doctest/doctest.h>

#include <cmath>

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

TEST_CASE("reading the isotherm backwards gives the water it was asked with") {
  for (double x = 0.05; x < 2.0; x += 0.05) {
    CHECK(polymer_water_at(polymer_water_activity(x, 298.15))[0] ==
          doctest::Approx(x).epsilon(1e-6));
  }
}
