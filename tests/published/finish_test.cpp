// Finishes and keeping against published and derived figures: tests/published/finish.tsv.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <functional>
#include <map>
#include <sstream>
#include <string>

#include "finish/coating.h"
#include "finish/cooling.h"
#include "finish/glaze.h"
#include "finish/keeping.h"
#include "finish/soak.h"
#include "finish/syrup.h"
#include "numerics/trigonometry.h"
#include "pantry/pantry.h"
#include "properties/solution_activity.h"
#include "properties/sucrose.h"
#include "quantity/table.h"
#include "support/book.h"

using namespace maslin;

namespace {

struct Row {
  std::string text_a;
  double a = 0.0;
  double b = 0.0;
  double c = 0.0;
};

const FinishTables& tables() {
  static const FinishTables all = embedded_finish_tables();
  return all;
}

const Pantry& pantry() {
  static const Pantry all(embedded_pantry_tables());
  return all;
}

/// The icing sugar and juice of the derived table: 3 % starch; sucrose alone in the juice.
GlazeMix icing_sugar(double grams) {
  GlazeMix mix;
  mix.crystals_g = 0.97 * grams;
  mix.starch_g = 0.03 * grams;
  return mix;
}
GlazeMix juice(double grams, double sugar_fraction) {
  GlazeMix mix;
  mix.water_g = grams * (1.0 - sugar_fraction);
  mix.sucrose_g = grams * sugar_fraction;
  return mix;
}
GlazeState glaze(double juice_g, double celsius, double sugar_fraction = 0.1,
                 double packing_limit = 0.68) {
  FinishUnknowns unknowns;
  unknowns.packing_limit = packing_limit;
  return glaze_state(icing_sugar(100.0) + juice(juice_g, sugar_fraction), celsius, unknowns);
}

double one_solute_activity(Component what, double pct) {
  std::array<Lanes, k_component_count> grams{};
  grams[static_cast<std::size_t>(what)] = pct;
  grams[static_cast<std::size_t>(Component::water)] = 100.0 - pct;
  return dissolved_water_activity(grams)[0];
}

CoolingBody bun(double grams, double film) {
  return {CoolingShape::ball, ball_radius_m(grams, 270.0), 0.24, 270.0, 2750.0, film};
}
double cooled_minutes(const Row& row, std::array<Lanes, k_cooling_modes> CoolingCurve::* where) {
  const CoolingCurve curve = cooling_curve(bun(row.a, row.c));
  return minutes_until(curve, curve.*where, (row.b - 22.0) / (96.0 - 22.0))[0];
}
/// First root from the rate of a body of unit size and diffusivity.
CoolingCurve unit_curve(CoolingShape shape, double biot) {
  return cooling_curve({shape, 1.0, 1.0, 1.0, 1.0, biot});
}

Portions portions_of(const char* id, double grams) {
  const Ingredient* found = pantry().find(id);
  REQUIRE_MESSAGE(found != nullptr, id);
  return {{{found, grams}}};
}

double soaked_share(const Row& row) {
  const Soak soak{portions_of("raisins", 100.0), portions_of("water", 100.0 * row.a), row.c, row.b};
  return soak_fruit(tables(), soak, FinishUnknowns{}).taken_up_g[0] / (99.9 * row.a);
}

GlazeState thick(double viscosity, double yield) {
  GlazeState state;
  state.viscosity_pa_s = viscosity;
  state.yield_pa = yield;
  state.kg_m3 = 1480.0;
  state.water_activity = 0.85;
  state.water_fraction = 0.12;
  return state;
}

/// "mould_days" as "mould days".
std::string words(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

using Quantity = std::function<double(const Row&)>;

std::map<std::string, Quantity> sugar_quantities() {
  return {
      {"saturation_pct", [](const Row& r) { return 100.0 * sucrose_saturation(r.a)[0]; }},
      {"saturation_g_per_100_g_water",
       [](const Row& r) { return 100.0 * sucrose_saturation_per_water(r.a)[0]; }},
      {"viscosity_mpa_s",
       [](const Row& r) { return 1e3 * sucrose_solution_pa_s(0.01 * r.a, r.b)[0]; }},
      {"glucose_viscosity_mpa_s",
       [](const Row& r) {
         return 1e3 * sucrose_solution_pa_s(sucrose_equal_in_viscosity(0.0, 0.01 * r.a), r.b)[0];
       }},
      {"honey_pa_s",
       [](const Row& r) {
         return sucrose_solution_pa_s(sucrose_equal_in_viscosity(0.0, 1.0 - 0.01 * r.a), r.b)[0];
       }},
      {"density_kg_m3", [](const Row& r) { return sugar_solution_kg_m3(0.01 * r.a, r.b)[0]; }},
      {"boiling_rise_k",
       [](const Row& r) { return boiling_rise_k(tables(), {100.0 - r.a, r.a, 0.0})[0]; }},
      {"boiling_rise_simple_k",
       [](const Row& r) { return boiling_rise_k(tables(), {100.0 - r.a, 0.0, r.a})[0]; }},
      {"sucrose_activity",
       [](const Row& r) { return one_solute_activity(Component::sucrose, r.a); }},
      {"sucrose_molal_activity",
       [](const Row& r) { return norrish_water_activity(1e-3 * r.a, 6.47)[0]; }},
      {"glucose_activity",
       [](const Row& r) { return one_solute_activity(Component::glucose, r.a); }},
      {"sodium_chloride_activity",
       [](const Row& r) { return salt_water_activity(k_sodium_chloride, r.a)[0]; }},
      {"potassium_chloride_activity",
       [](const Row& r) { return salt_water_activity(k_potassium_chloride, r.a)[0]; }},
      {"potassium_sulphate_activity",
       [](const Row& r) { return salt_water_activity(k_potassium_sulphate, r.a)[0]; }},
      {"pantry_activity",
       [](const Row& r) {
         const Portions food = portions_of(r.text_a.c_str(), 100.0);
         return part_water_activity(food, food.grams_of(Component::water))[0];
       }},
  };
}

std::map<std::string, Quantity> piece_quantities() {
  return {
      {"mould_days",
       [](const Row& r) { return mould_free_days(tables().keeping, 0.01 * r.a, r.b)[0]; }},
      {"cooling_surface_minutes",
       [](const Row& r) { return cooled_minutes(r, &CoolingCurve::surface); }},
      {"cooling_mean_minutes", [](const Row& r) { return cooled_minutes(r, &CoolingCurve::mean); }},
      {"cooling_centre_minutes",
       [](const Row& r) { return cooled_minutes(r, &CoolingCurve::centre); }},
      {"thawing_hours",
       [](const Row& r) {
         return thawing_hours(bun(r.a, r.c), 0.38, -18.0, tables().keeping.freezing_point_celsius,
                              r.b)[0];
       }},
      {"ball_root",
       [](const Row& r) {
         return std::sqrt(unit_curve(CoolingShape::ball, r.a).rate_per_s[0][0]);
       }},
      {"ball_coefficient",
       [](const Row& r) { return unit_curve(CoolingShape::ball, r.a).centre[0][0]; }},
      {"slab_root",
       [](const Row& r) {
         return std::sqrt(unit_curve(CoolingShape::slab, r.a).rate_per_s[0][0]);
       }},
      {"slab_coefficient",
       [](const Row& r) { return unit_curve(CoolingShape::slab, r.a).centre[0][0]; }},
      {"soak_uptake_share", soaked_share},
      {"crumb_diffusivity_median",
       [](const Row&) { return FinishUnknowns{}.crumb_diffusivity_m2_s[0]; }},
      {"cut_celsius", [](const Row&) { return tables().keeping.cut_celsius; }},
  };
}

/// Chocolate of so much fat, g per 100 g, no water.
CoatingState chocolate(double fat_g) {
  return coating_state({fat_g, 0.0, 100.0 - fat_g, 0.0, 100.0}, FinishUnknowns{});
}

std::map<std::string, Quantity> glaze_quantities() {
  return {
      {"chocolate_plastic_pa_s", [](const Row& r) { return chocolate(r.a).plastic_pa_s[0]; }},
      {"chocolate_yield_pa", [](const Row& r) { return chocolate(r.a).yield_pa[0]; }},
      {"glaze_grains", [](const Row& r) { return glaze(r.a, r.b).grains[0]; }},
      {"glaze_pa_s", [](const Row& r) { return glaze(r.a, r.b).viscosity_pa_s[0]; }},
      {"glaze_kg_m3", [](const Row& r) { return glaze(r.a, r.b).kg_m3[0]; }},
      {"water_glaze_pa_s", [](const Row& r) { return glaze(r.a, r.b, 0.0).viscosity_pa_s[0]; }},
      {"glaze_pa_s_by_packing",
       [](const Row& r) { return glaze(15.0, 20.0, 0.1, r.a).viscosity_pa_s[0]; }},
      {"glaze_juice_for",
       [](const Row& r) {
         const GlazeHalves halves{icing_sugar(100.0), juice(1.0, 0.1)};
         return 1.0 / balance_glaze(halves, r.a, 20.0, FinishUnknowns{}).dry_factor[0];
       }},
      {"drying_kg_m2_h",
       [](const Row& r) {
         FinishUnknowns unknowns;
         unknowns.room_celsius = r.a;
         unknowns.humidity_pct = r.b;
         return 3600.0 * drying_flux_kg_m2_s(0.85, unknowns)[0];
       }},
      {"yield_film_mm",
       [](const Row& r) {
         return glaze_flow(thick(1e-6, r.a), FinishUnknowns{}, {r.b, 30.0, 2.0, 60.0}).film_mm[0];
       }},
      {"draining_film_mm",
       [](const Row& r) { return glaze_flow(thick(r.a, 0.0), FinishUnknowns{}).film_mm[0]; }},
      {"line_half_width_mm",
       [](const Row& r) { return 0.5 * glaze_flow(thick(r.a, 0.0), FinishUnknowns{}).line_mm[0]; }},
      {"stopped_half_width_mm",
       [](const Row& r) {
         return 0.5 * glaze_flow(thick(0.01, r.a), FinishUnknowns{}).line_mm[0];
       }},
  };
}

}  // namespace

TEST_CASE("finishes meet the published and derived figures") {
  std::ifstream file(std::string(MASLIN_SOURCE_DIR) + "/tests/published/finish.tsv");
  REQUIRE(file.good());
  std::stringstream text;
  text << file.rdbuf();
  const std::string body = text.str();
  const Table table(body);
  REQUIRE(table.size() > 100);
  std::map<std::string, Quantity> quantities = sugar_quantities();
  quantities.merge(piece_quantities());
  quantities.merge(glaze_quantities());
  for (std::size_t i = 0; i < table.size(); ++i) {
    const std::string name(table.cell(i, "quantity"));
    const auto quantity = quantities.find(name);
    REQUIRE_MESSAGE(quantity != quantities.end(), name);
    const Row row{std::string(table.cell(i, "a")), table.number(i, "a"), table.number(i, "b"),
                  table.number(i, "c")};
    const double value = table.number(i, "value");
    const double tolerance =
        table.number(i, "tolerance") * (table.cell(i, "kind") == "rel" ? std::fabs(value) : 1.0);
    const double got = quantity->second(row);
    std::string what = words(name);
    for (const char* argument : {"a", "b", "c"}) {
      what += table.cell(i, argument).empty() ? "" : " " + std::string(table.cell(i, argument));
    }
    const std::string_view source = table.cell(i, "source");
    book::against({"finish", what, table.cell(i, "unit"), source, book::mark_in(source),
                   table.cell(i, "miss")},
                  got, book::near(value, tolerance));
  }
}
