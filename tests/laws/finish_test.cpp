// Laws every finish keeps, over recipes and kitchens drawn at random.
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "finish/cooling.h"
#include "finish/finish.h"
#include "finish/glaze.h"
#include "finish/keeping.h"
#include "finish/soak.h"
#include "finish/syrup.h"
#include "numerics/draws.h"
#include "pantry/pantry.h"

using namespace maslin;

namespace {

const Pantry& pantry() {
  static const Pantry one(embedded_pantry_tables());
  return one;
}
const FinishTables& tables() {
  static const FinishTables one = embedded_finish_tables();
  return one;
}

/// The `index`-th number between two ends for this name.
double between(const char* name, std::uint32_t index, double low, double high) {
  return low + (high - low) * draw(name_key(name), 11, index);
}

void pour(Portions& bowl, const char* id, double grams) {
  const Ingredient* found = pantry().find(id);
  REQUIRE_MESSAGE(found != nullptr, id);
  bowl.items.push_back({found, grams});
}

/// The `index`-th recipe with `factor` times its masses: dough, filling, glaze, soaker, syrup.
std::vector<FinishPart> recipe(std::uint32_t index, double factor) {
  std::vector<FinishPart> parts(5);
  parts[0].name = "dough";
  parts[0].kind = PartKind::dough;
  pour(parts[0].portions, "strong_white_flour", 500.0 * factor);
  pour(parts[0].portions, "water", between("water", index, 240.0, 360.0) * factor);
  pour(parts[0].portions, "caster_sugar", between("sugar", index, 0.0, 100.0) * factor);
  pour(parts[0].portions, "butter", between("butter", index, 0.0, 150.0) * factor);
  pour(parts[0].portions, "egg", between("egg", index, 0.0, 100.0) * factor);
  pour(parts[0].portions, "salt", between("salt", index, 4.0, 12.0) * factor);
  pour(parts[0].portions, "sultanas", between("fruit", index, 0.0, 150.0) * factor);
  parts[1].name = "filling";
  parts[1].kind = PartKind::filling;
  parts[1].place = static_cast<FillingPlace>(index % 4);
  pour(parts[1].portions, "date_paste", between("dates", index, 20.0, 300.0) * factor);
  pour(parts[1].portions, "butter", between("fill butter", index, 0.0, 100.0) * factor);
  pour(parts[1].portions, "water", between("fill water", index, 0.0, 80.0) * factor);
  parts[2].name = "glaze";
  parts[2].kind = PartKind::glaze;
  pour(parts[2].portions, "icing_sugar", between("icing", index, 80.0, 300.0) * factor);
  pour(parts[2].portions, "orange_juice", between("juice", index, 12.0, 80.0) * factor);
  parts[3].name = "soaker";
  parts[3].kind = PartKind::soaker;
  pour(parts[3].portions, "raisins", between("raisins", index, 40.0, 200.0) * factor);
  pour(parts[3].portions, "orange_juice", between("soak juice", index, 5.0, 200.0) * factor);
  parts[3].soak_hours = between("hours", index, 0.1, 24.0);
  parts[4].name = "syrup";
  parts[4].kind = PartKind::wash;
  parts[4].boiled = true;
  parts[4].yield = between("yield", index, 0.7, 1.0);
  pour(parts[4].portions, "caster_sugar", between("syrup sugar", index, 40.0, 200.0) * factor);
  pour(parts[4].portions, "lemon_juice", between("lemon", index, 1.0, 30.0) * factor);
  pour(parts[4].portions, "water", between("syrup water", index, 50.0, 150.0) * factor);
  return parts;
}

BakedPiece piece(std::uint32_t index, double factor) {
  BakedPiece out;
  out.grams = between("piece", index, 30.0, 150.0);
  out.count = factor * 12.0;
  out.dough_loss = between("loss", index, 0.08, 0.16);
  out.shape = index % 2 == 0 ? CoolingShape::ball : CoolingShape::slab;
  return out;
}

FinishUnknowns kitchen(std::uint32_t index) {
  FinishUnknowns out;
  for (const FinishUnknownRow& row : finish_unknown_rows()) {
    out.*row.place = row.distribution.quantile(Lanes(draw(name_key(row.name), 3, index)));
  }
  return out;
}

/// Masses over the whole batch; everything else must not see the size of the batch.
bool is_batch_mass(std::string_view name) {
  return name == "sheet_cm2" || (name.ends_with("_g") && !name.ends_with("_g_per_g")) ||
         name == "grams";
}

bool same(double a, double b, double tolerance) {
  return a == b ||
         std::fabs(a - b) <= tolerance * std::fmax(1.0, std::fmax(std::fabs(a), std::fabs(b)));
}

CoolingCurve bun_curve(CoolingShape shape, double radius, double film) {
  return cooling_curve({shape, radius, 0.24, 270.0, 2750.0, film});
}

}  // namespace

TEST_CASE("doubling a recipe doubles its masses and nothing else") {
  for (std::uint32_t i = 0; i < 24; ++i) {
    const FinishUnknowns unknowns = kitchen(i);
    const FinishForecast once = finish_parts(tables(), recipe(i, 1.0), piece(i, 1.0), unknowns);
    const FinishForecast twice = finish_parts(tables(), recipe(i, 2.0), piece(i, 2.0), unknowns);
    REQUIRE(once.entries.size() == twice.entries.size());
    for (std::size_t e = 0; e < once.entries.size(); ++e) {
      REQUIRE(once.entries[e].figures.size() == twice.entries[e].figures.size());
      for (std::size_t f = 0; f < once.entries[e].figures.size(); ++f) {
        const FinishFigure& a = once.entries[e].figures[f];
        const FinishFigure& b = twice.entries[e].figures[f];
        // A teaspoon is a teaspoon in any batch.
        if (a.name == "viscosity_with_teaspoon_more_pa_s") {
          continue;
        }
        const double factor = is_batch_mass(a.name) ? 2.0 : 1.0;
        CHECK_MESSAGE(same(factor * a.value[0], b.value[0], 1e-6), once.entries[e].what, " ",
                      a.name, " ", a.value[0], " ", b.value[0]);
      }
    }
  }
}

TEST_CASE("a lane gives what eight equal lanes give") {
  std::vector<FinishUnknowns> single;
  FinishUnknowns mixed;
  for (std::uint32_t lane = 0; lane < k_lane_count; ++lane) {
    single.push_back(kitchen(lane));
    for (const FinishUnknownRow& row : finish_unknown_rows()) {
      (mixed.*row.place).set(lane, (single.back().*row.place)[0]);
    }
  }
  const FinishForecast all = finish_parts(tables(), recipe(1, 1.0), piece(1, 1.0), mixed);
  for (std::uint32_t lane = 0; lane < k_lane_count; ++lane) {
    const FinishForecast one = finish_parts(tables(), recipe(1, 1.0), piece(1, 1.0), single[lane]);
    REQUIRE(one.entries.size() == all.entries.size());
    for (std::size_t e = 0; e < one.entries.size(); ++e) {
      for (std::size_t f = 0; f < one.entries[e].figures.size(); ++f) {
        // Searches stop when every lane has arrived: a lane may be carried a little further.
        CHECK_MESSAGE(same(one.entries[e].figures[f].value[lane],
                           all.entries[e].figures[f].value[lane], 1e-6),
                      one.entries[e].what, " ", one.entries[e].figures[f].name);
      }
    }
  }
}

TEST_CASE("every figure is a number, and shares lie between nothing and all") {
  for (std::uint32_t i = 0; i < 64; ++i) {
    const FinishForecast forecast =
        finish_parts(tables(), recipe(i, 1.0), piece(i, 1.0), kitchen(i));
    CHECK(forecast.problems.empty());
    for (const FinishEntry& entry : forecast.entries) {
      for (const FinishFigure& each : entry.figures) {
        INFO(entry.what, " ", each.name, " ", each.value[0]);
        CHECK(!std::isnan(each.value[0]));
        if (each.name.starts_with("chance_") || each.name.ends_with("_fraction") ||
            each.name.ends_with("_share") || each.name.ends_with("water_activity")) {
          CHECK(each.value[0] >= 0.0);
          CHECK(each.value[0] <= 1.0);
        } else if (each.name != "water_to_crumb_in_a_day_g") {
          CHECK(each.value[0] >= 0.0);
        }
      }
    }
  }
}

TEST_CASE("empty, vast and absurd input gives numbers or sentences") {
  const double masses[] = {0.0, 1e-6, 1.0, 1e7};
  const double rooms[] = {0.0, 20.0, 60.0};
  for (const double mass : masses) {
    for (const double room : rooms) {
      for (const double humidity : {0.0, 55.0, 100.0}) {
        FinishUnknowns unknowns;
        unknowns.room_celsius = room;
        unknowns.humidity_pct = humidity;
        unknowns.altitude_m = 5000.0;
        BakedPiece one;
        one.grams = mass;
        one.count = mass;
        one.dough_loss = 0.9;
        one.core_celsius = room;
        const FinishForecast forecast = finish_parts(tables(), recipe(1, mass), one, unknowns);
        for (const FinishEntry& entry : forecast.entries) {
          for (const FinishFigure& each : entry.figures) {
            CHECK_MESSAGE(!std::isnan(each.value[0]), entry.what, " ", each.name);
          }
        }
      }
    }
  }
  const double nan = std::nan("");
  FinishUnknowns unknowns;
  unknowns.humidity_pct = nan;
  CHECK(finish_parts(tables(), recipe(1, 1.0), piece(1, 1.0), unknowns).problems.size() == 1);
  CHECK(finish_parts(tables(), recipe(1, nan), piece(1, 1.0), kitchen(1)).problems.size() >= 5);
  BakedPiece odd;
  odd.core_celsius = -300.0;
  odd.grams = -1.0;
  CHECK(finish_parts(tables(), recipe(1, 1.0), odd, kitchen(1)).problems.size() == 2);
  CHECK(finish_parts(tables(), {}, BakedPiece{}, kitchen(1)).problems.empty());
}

TEST_CASE("a cooling piece loses through its surface what its mean loses") {
  // d mean/dt = -(h A/V)/(rho c) surface, exactly, for each term of the series.
  for (const CoolingShape shape : {CoolingShape::ball, CoolingShape::slab}) {
    for (double film = 2.0; film < 60.0; film *= 1.7) {
      const double size = 0.04;
      const CoolingCurve curve = bun_curve(shape, size, film);
      const double area_per_volume = (shape == CoolingShape::ball ? 3.0 : 1.0) / size;
      for (std::size_t n = 0; n < k_cooling_modes; ++n) {
        const double lost = (curve.rate_per_s[n] * curve.mean[n])[0];
        const double through = film * area_per_volume / (270.0 * 2750.0) * curve.surface[n][0];
        CHECK(lost == doctest::Approx(through).epsilon(1e-9));
      }
    }
  }
}

TEST_CASE("six terms stand for the whole series soon after the start") {
  // The ball against sixty terms, roots by bisection with the C library.
  for (const double biot : {0.1, 0.5, 2.4, 5.0, 10.0}) {
    const CoolingCurve curve = cooling_curve({CoolingShape::ball, 1.0, 1.0, 1.0, 1.0, biot});
    for (const double fourier : {0.01, 0.02, 0.05, 0.2}) {
      double surface = 0.0;
      double mean = 0.0;
      double centre = 0.0;
      for (int n = 0; n < 60; ++n) {
        double low = n * M_PI;
        double high = (n + 1) * M_PI;
        for (int step = 0; step < 200; ++step) {
          const double z = 0.5 * (low + high);
          const double f =
              (n % 2 == 0 ? -1.0 : 1.0) * (z * std::cos(z) + (biot - 1.0) * std::sin(z));
          (f < 0.0 ? low : high) = z;
        }
        const double z = 0.5 * (low + high);
        const double hollow = std::sin(z) - z * std::cos(z);
        const double c = 4.0 * hollow / (2.0 * z - std::sin(2.0 * z)) * std::exp(-z * z * fourier);
        centre += c;
        surface += c * std::sin(z) / z;
        mean += 3.0 * c * hollow / (z * z * z);
      }
      CHECK(series_at(curve, curve.surface, fourier)[0] == doctest::Approx(surface).epsilon(1e-3));
      CHECK(series_at(curve, curve.mean, fourier)[0] == doctest::Approx(mean).epsilon(1e-3));
      if (fourier >= 0.02) {
        CHECK(series_at(curve, curve.centre, fourier)[0] == doctest::Approx(centre).epsilon(1e-3));
      }
    }
  }
}

TEST_CASE("a bigger piece, a warmer room and a still tray each take longer to cool") {
  const auto minutes = [](double radius, double room, double film) {
    const CoolingCurve curve = bun_curve(CoolingShape::ball, radius, film);
    return minutes_until(curve, curve.centre, (40.0 - room) / (96.0 - room))[0];
  };
  for (double radius = 0.02; radius < 0.08; radius += 0.005) {
    CHECK(minutes(radius + 0.002, 21.0, 14.0) > minutes(radius, 21.0, 14.0));
    CHECK(minutes(radius, 26.0, 14.0) > minutes(radius, 21.0, 14.0));
    CHECK(minutes(radius, 21.0, 10.0) > minutes(radius, 21.0, 14.0));
  }
  CHECK(std::isinf(minutes(0.04, 41.0, 14.0)));
}

TEST_CASE("what the series says at a time, the time to that says again") {
  for (const CoolingShape shape : {CoolingShape::ball, CoolingShape::slab}) {
    const CoolingCurve curve = bun_curve(shape, 0.04, 14.0);
    for (double minutes = 5.0; minutes < 120.0; minutes += 7.0) {
      for (const auto& where : {curve.surface, curve.mean}) {
        const Lanes share = series_at(curve, where, 60.0 * minutes);
        CHECK(minutes_until(curve, where, share)[0] == doctest::Approx(minutes).epsilon(1e-4));
      }
    }
  }
}

TEST_CASE("soaking loses no water and no sugar, and never takes more than is there") {
  for (std::uint32_t i = 0; i < 64; ++i) {
    Soak soak;
    pour(soak.fruit, i % 2 == 0 ? "raisins" : "dried_apricots", 100.0);
    pour(soak.liquid, i % 3 == 0 ? "water" : "orange_juice", between("liquid", i, 1.0, 300.0));
    soak.celsius = between("celsius", i, 5.0, 60.0);
    double before = -1.0;
    for (double hours = 0.0; hours <= 48.0; hours += 3.0) {
      soak.hours = hours;
      const Soaked out = soak_fruit(tables(), soak, FinishUnknowns{});
      CHECK(out.taken_up_g[0] >= before - 1e-9);
      CHECK(out.taken_up_g[0] <= soak.liquid.grams_of(Component::water)[0] + 1e-9);
      CHECK(out.left_g[0] - out.leaked_g[0] + out.taken_up_g[0] ==
            doctest::Approx(soak.liquid.total_grams()[0]).epsilon(1e-9));
      before = out.taken_up_g[0];
    }
  }
}

TEST_CASE("wetter and warmer moulds sooner, warmer above freezing stales later") {
  const KeepingModel& model = tables().keeping;
  for (double activity = 0.75; activity < 0.89; activity += 0.01) {
    for (double celsius = 16.0; celsius < 30.0; celsius += 1.0) {
      const double days = mould_free_days(model, activity, celsius)[0];
      CHECK(mould_free_days(model, activity + 0.01, celsius)[0] < days);
      // The two lines cross at 0.931: below it warmth always costs days.
      CHECK(mould_free_days(model, activity, celsius + 0.5)[0] < days);
    }
  }
  CHECK(std::isinf(mould_free_days(model, 0.55, 21.0)[0]));
  const FinishUnknowns unknowns;
  for (double celsius = 0.0; celsius < 38.0; celsius += 2.0) {
    CHECK(fresh_days(model, 1.0, celsius + 2.0, unknowns)[0] >
          fresh_days(model, 1.0, celsius, unknowns)[0]);
  }
}

TEST_CASE(
    "a bigger, wetter or colder piece thaws later, in warmer air sooner, in a freezer never") {
  const auto hours = [](double grams, double water, double frozen, double room) {
    const CoolingBody body{
        CoolingShape::ball, ball_radius_m(grams, 270.0), 0.24, 270.0, 2750.0, 9.0};
    return thawing_hours(body, water, frozen, -6.0, room)[0];
  };
  for (double grams = 30.0; grams < 900.0; grams *= 1.5) {
    for (double room = 4.0; room < 32.0; room += 4.0) {
      const double here = hours(grams, 0.38, -18.0, room);
      CHECK(here > 0.0);
      CHECK(hours(1.5 * grams, 0.38, -18.0, room) > here);
      CHECK(hours(grams, 0.42, -18.0, room) > here);
      CHECK(hours(grams, 0.38, -22.0, room) > here);
      CHECK(hours(grams, 0.38, -18.0, room + 4.0) < here);
    }
    CHECK(std::isinf(hours(grams, 0.38, -18.0, -7.0)));
  }
}

TEST_CASE("firming is first order in what is left to firm") {
  const KeepingModel& model = tables().keeping;
  for (double celsius = 0.0; celsius < 35.0; celsius += 5.0) {
    const double end = firmness_ratio(model, 1.0, 1e6, celsius)[0];
    const auto left = [&](double days) {
      return (end - firmness_ratio(model, 1.0, days, celsius)[0]) / (end - 1.0);
    };
    CHECK(left(3.0) == doctest::Approx(left(1.0) * left(2.0)).epsilon(1e-9));
  }
}

TEST_CASE("fat, sugar, egg and scalded flour never firm a crumb") {
  const KeepingModel& model = tables().keeping;
  const double lean = firming_share(model, {})[0];
  CHECK(lean == 1.0);
  CHECK(firming_share(model, {5.0, 0.0, 0.0, 0.0})[0] < lean);
  CHECK(firming_share(model, {0.0, 10.0, 0.0, 0.0})[0] < lean);
  CHECK(firming_share(model, {0.0, 0.0, 10.0, 0.0})[0] < lean);
  CHECK(firming_share(model, {0.0, 0.0, 0.0, 0.1})[0] < lean);
}

TEST_CASE("more sugar boils hotter, a higher kitchen boils cooler") {
  double before = -1.0;
  for (double fraction = 0.0; fraction < 0.9; fraction += 0.01) {
    const double rise = boiling_rise_k(tables(), {1.0 - fraction, fraction, 0.0})[0];
    CHECK(rise > before);
    CHECK(boiling_rise_k(tables(), {1.0 - fraction, 0.0, fraction})[0] >= rise);
    before = rise;
  }
  for (double altitude = 0.0; altitude < 4000.0; altitude += 250.0) {
    CHECK(water_boils_celsius(altitude + 250.0)[0] < water_boils_celsius(altitude)[0]);
  }
}

TEST_CASE("a damper room sets a glaze later") {
  FinishUnknowns unknowns;
  GlazeMix mix;
  mix.crystals_g = 97.0;
  mix.starch_g = 3.0;
  mix.water_g = 15.0;
  double before = 0.0;
  for (double humidity = 10.0; humidity < 84.0; humidity += 4.0) {
    unknowns.humidity_pct = humidity;
    const GlazeState state = glaze_state(mix, 21.0, unknowns);
    const double minutes = glaze_flow(state, unknowns).skin_minutes[0];
    CHECK(minutes > before);
    before = minutes;
  }
}
