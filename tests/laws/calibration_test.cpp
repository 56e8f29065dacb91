// Laws of what a forecast claims to know after something was seen: kitchens are drawn from what
// is thought of kitchens, what is seen in them from the model and people's errors, and the truth
// must then fall anywhere among the weighed draws alike (simulation-based calibration, Talts et
// al. 2018, from memory).
//
// Every kitchen is weighed with draws of its own. With one set of draws for all of them the law
// does not hold and need not: a set leans a little to some side by chance, and in every kitchen
// to the same.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "forecast/lasting.h"
#include "forecast/observe.h"
#include "support/simulated_kitchen.h"

using namespace maslin;
using namespace simulated;

namespace {

const Recipe& milk_buns() {
  static const Recipe k_buns = buns(8, 190, {18, 22});
  return k_buns;
}

/// Where the truth of one figure fell in every kitchen.
struct Fallen {
  std::string figure;
  std::vector<double> rank;  // share of the weight that lies below it
  int inside = 0;            // kitchens in which the 80 % range held it

  Fallen(std::string of, int kitchens)
      : figure(std::move(of)), rank(static_cast<std::size_t>(kitchens)) {}
};

/// The truth counts as one draw more among so many equal ones as the weights are worth, and is
/// put anywhere within its own weight: else few draws would make the ends too full.
void note_fall(const Ensemble& ensemble, const Weighing& weighing, double truth,
               std::size_t kitchen, Fallen& out) {
  const Column& column = *ensemble.column(out.figure);
  double below = 0.0;
  for (std::size_t draw = 0; draw < ensemble.draws(); ++draw) {
    below += column.values[draw] < truth ? ensemble.weight[draw] : 0.0;
  }
  const double own = 1.0 / weighing.effective_draws;
  out.rank[kitchen] = (below + own * share_of(kitchen, "rank " + out.figure)) / (1.0 + own);
  const Band band = ensemble.band(column);
  out.inside += truth >= band.p10 && truth <= band.p90 ? 1 : 0;
}

/// Of the dough and its first rise: a thermometer, one look at a time that has nothing to do with
/// the dough, and when it had doubled.
std::vector<Observation> notes_of_a_rise(const Baker& baker, std::uint64_t seed) {
  return {baker.reads(ObservationKind::dough_celsius, std::nullopt),
          baker.reads(ObservationKind::volume_ratio, 25.0 + 75.0 * share_of(seed, "look")),
          baker.doubled()};
}

/// And of the bake: when it was done.
std::vector<Observation> notes_of_a_day(const Baker& baker, std::uint64_t seed) {
  std::vector<Observation> out = notes_of_a_rise(baker, seed);
  out.push_back(baker.reads(ObservationKind::minutes_done, std::nullopt));
  return out;
}

std::vector<Fallen> fallen(int kitchens, ForecastOptions options,
                           const std::vector<std::string>& figures) {
  std::vector<std::vector<Fallen>> halves(2);
  for (std::vector<Fallen>& half : halves) {
    for (const std::string& figure : figures) {
      half.emplace_back(figure, kitchens);
    }
  }
  const ForecastSetup general = set_up(milk_buns(), {}, options);
  for_kitchens(kitchens, [&](int i) {
    const auto seed = static_cast<std::uint64_t>(200000 + i);
    const Day day = lived(milk_buns(), options, day_in_kitchen(general, seed, 31 * seed));
    ForecastOptions own = options;
    own.seed = 7 * seed + 1;  // nothing to do with where the truth came from
    ForecastSetup setup = set_up(milk_buns(), {}, own);
    ForecastRun run = run_forecast(setup);
    const Baker baker(day, setup, run.ensemble, seed);
    const std::vector<Observation> notes = options.reach == ForecastReach::rise
                                               ? notes_of_a_rise(baker, seed)
                                               : notes_of_a_day(baker, seed);
    const Weighing weighing = observe(setup, run, notes, run_forecast);
    for (Fallen& one : halves[static_cast<std::size_t>(i % 2)]) {
      note_fall(run.ensemble, weighing, day.value(one.figure), static_cast<std::size_t>(i), one);
    }
  });
  for (std::size_t n = 0; n < figures.size(); ++n) {
    halves[0][n].inside += halves[1][n].inside;
    for (std::size_t i = 1; i < halves[0][n].rank.size(); i += 2) {
      halves[0][n].rank[i] = halves[1][n].rank[i];
    }
  }
  return std::move(halves[0]);
}

double chi_square(const std::vector<double>& ranks, int bins) {
  std::vector<int> count(static_cast<std::size_t>(bins), 0);
  for (const double one : ranks) {
    ++count[static_cast<std::size_t>(std::min(bins - 1, static_cast<int>(one * bins)))];
  }
  const double expected = static_cast<double>(ranks.size()) / bins;
  double out = 0.0;
  for (const int one : count) {
    out += (one - expected) * (one - expected) / expected;
  }
  return out;
}

/// `most` is exceeded once in a hundred by chance (table of the chi-square distribution).
void check_even(const std::vector<Fallen>& all, int bins, double most) {
  for (const Fallen& one : all) {
    const double chi = chi_square(one.rank, bins);
    MESSAGE(one.figure, ": chi-square ", chi, " on ", bins - 1,
            " degrees of freedom, 80 % ranges hold ",
            static_cast<double>(one.inside) / static_cast<double>(one.rank.size()));
    CHECK(chi < most);
  }
}

/// No further than the dough has risen, which a forecast comes to in a tenth of the time.
ForecastOptions of_rise() {
  ForecastOptions out = followed_long(256);
  out.reach = ForecastReach::rise;
  out.prove_minutes_at_least = 240;
  return out;
}

const std::vector<std::string> k_of_rise{"prove/0/minutes", "prove/1/minutes", "yeast_vigour",
                                         "room_celsius"};
const std::vector<std::string> k_of_day{"prove/0/minutes", "bake/minutes",  "yeast_vigour",
                                        "room_celsius",    "oven_offset_k", "bake_pace"};

}  // namespace

TEST_CASE("after a rise was looked at the truth falls evenly among the weighed draws") {
  check_even(fallen(160, of_rise(), k_of_rise), 5, 13.28);
}

TEST_CASE("after a day's notes the truth falls evenly among the weighed draws") {
  check_even(fallen(48, followed_long(128), k_of_day), 3, 9.21);
}

TEST_SUITE_BEGIN("slow");

TEST_CASE("2 000 rises: the truth falls evenly among the weighed draws" * doctest::skip()) {
  const std::vector<Fallen> all = fallen(2000, of_rise(), k_of_rise);
  check_even(all, 10, 21.67);
  for (const Fallen& one : all) {
    CHECK(one.inside >= 0.75 * 2000);
    CHECK(one.inside <= 0.85 * 2000);
  }
}

TEST_CASE("400 kitchens: the truth falls evenly among the weighed draws" * doctest::skip()) {
  check_even(fallen(400, followed_long(256), k_of_day), 10, 21.67);
}

TEST_CASE("200 kitchens: what lasts is known as well as it claims" * doctest::skip()) {
  // After three days what lasts of each unknown lies about its mean with the spread that the
  // kitchen's lessons say: squares over variances have a mean of 1, give or take 0.1, for 200.
  constexpr int k_kitchens = 200;
  const ForecastOptions options = followed_long(256);
  const ForecastSetup general = set_up(milk_buns(), {}, options);
  std::vector<std::vector<double>> off(k_kitchens), narrowed(k_kitchens);
  std::vector<std::string> names;
  for_kitchens(k_kitchens, [&](int i) {
    const auto at = static_cast<std::size_t>(i);
    const auto seed = static_cast<std::uint64_t>(300000 + i);
    Kitchen kitchen;
    Lasting lasting;
    for (std::uint64_t trial = 0; trial <= 3; ++trial) {
      const std::uint64_t today = 31 * seed + trial;
      ForecastOptions own = options;
      own.seed = 7 * today + 1;
      ForecastSetup setup = set_up(milk_buns(), kitchen, own);
      lasting = lasting_of(setup);
      if (trial == 3) {
        break;
      }
      const Day day = lived(milk_buns(), options, day_in_kitchen(general, seed, today));
      ForecastRun run = run_forecast(setup);
      const Baker baker(day, setup, run.ensemble, today);
      const Weighing weighing = observe(setup, run, notes_of_a_day(baker, today), run_forecast);
      kitchen.learnt = lessons_after(setup, weighing);
    }
    for (std::size_t n = 0; n < lasting.size(); ++n) {
      const Unknown& unknown = general.unknowns[general.scores.unknown[lasting.score[n]]];
      const double middle = general.scores.mean[lasting.score[n]];
      const double sd = std::sqrt(lasting.covariance.at(n, n));
      off[at].push_back((middle + lasting_off(unknown, seed) - lasting.mean[n]) / sd);
      narrowed[at].push_back(sd / (unknown.prior.b * std::sqrt(1.0 - unknown.day)));
    }
    if (i == 0) {
      names = lasting.name;
    }
  });
  for (std::size_t n = 0; n < names.size(); ++n) {
    double mean = 0.0, square = 0.0, width = 0.0;
    for (std::size_t i = 0; i < k_kitchens; ++i) {
      mean += off[i][n] / k_kitchens;
      square += off[i][n] * off[i][n] / k_kitchens;
      width += narrowed[i][n] / k_kitchens;
    }
    if (width > 0.95) {
      continue;  // nothing was learnt of it
    }
    MESSAGE(names[n], ": off by ", mean, " on the mean, mean square ", square, ", narrowed to ",
            width);
    // Three and a half standard errors: there are about ten of these.
    CHECK(std::fabs(mean) < 0.25);
    CHECK(square > 0.65);
    CHECK(square < 1.35);
  }
}

TEST_SUITE_END();
