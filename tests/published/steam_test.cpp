// Water and steam against an independent implementation of IAPWS-IF97, 0 to 100 degrees:
// tests/published/steam.tsv.
#include <doctest/doctest.h>

#include <fstream>
#include <iterator>
#include <string>

#include "bake/cell_physics.h"
#include "bake/column_flux.h"
#include "properties/water.h"
#include "quantity/number_text.h"
#include "quantity/table.h"
#include "support/book.h"

using namespace maslin;

namespace {

constexpr std::string_view k_source = "python3-iapws 1.5.2, IAPWS-IF97";

book::Figure figure(const char* what, double celsius, std::string_view unit) {
  return {"water", std::string(what) + " at " + number_text(celsius, 2) + " C", unit, k_source,
          book::Mark::computed};
}

}  // namespace

TEST_CASE("Water and steam agree with IAPWS-IF97 from freezing to boiling") {
  std::ifstream file(std::string(MASLIN_SOURCE_DIR) + "/tests/published/steam.tsv");
  const std::string text((std::istreambuf_iterator<char>(file)), {});
  const Table table(text);
  REQUIRE(table.size() == 21);
  for (std::size_t i = 0; i < table.size(); ++i) {
    const double celsius = table.number(i, "celsius");
    const Lanes kelvin = celsius + k_zero_celsius_k;
    const double pressure = table.number(i, "pressure_pa");
    const double evaporation = table.number(i, "evaporation_kj_per_kg");
    book::against(figure("saturation pressure", celsius, "Pa"), saturation_pressure_pa(kelvin)[0],
                  book::near_share(pressure, 1e-3));
    book::against(figure("heat of evaporation", celsius, "kJ/kg"),
                  latent_heat_j_per_kg(kelvin)[0] / 1000.0, book::near_share(evaporation, 1e-3));
    if (pressure > 700.0) {
      book::against(figure("boiling point under its saturation pressure", celsius, "C"),
                    boiling_point_k(pressure)[0] - k_zero_celsius_k, book::near(celsius, 0.02));
    }
    // The bake's own short forms.
    Lanes unused;
    book::against(figure("saturation pressure in the bake", celsius, "Pa"),
                  exp(log_saturation(kelvin, unused))[0], book::near_share(pressure, 1.2e-3));
    book::against(figure("heat of evaporation in the bake", celsius, "kJ/kg"),
                  (heat_of_vapour(kelvin) - heat_of_water(kelvin))[0] / 1000.0,
                  book::near_share(evaporation, 1e-3));
  }
}
