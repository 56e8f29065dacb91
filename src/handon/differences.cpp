#include "handon/differences.h"

#include <cmath>

#include "handon/altitude.h"

namespace maslin::handon {
namespace {

/// A figure that a model could not give, or only for some of the draws, is not compared.
bool known(const Band& band) {
  return std::isfinite(band.p10) && std::isfinite(band.p50) && std::isfinite(band.p90);
}

class Comparison {
 public:
  explicit Comparison(const CardWords& words) : words_(words) {}

  /// Adds it when the medians differ by more than `beyond` of the larger, or `at_least` units.
  void add(const std::string& what, const std::string& unit, const Band& home, const Band& there,
           double beyond, double at_least, int decimals) {
    const double by = std::fabs(there.p50 - home.p50);
    if (!known(home) || !known(there) || by < at_least ||
        by < beyond * std::max(std::fabs(home.p50), std::fabs(there.p50))) {
      return;
    }
    add_words(what, unit, home, there, one(home, unit, decimals), one(there, unit, decimals));
  }
  void add_minutes(const std::string& what, const Band& home, const Band& there, Watched watched) {
    const double by = std::fabs(there.p50 - home.p50);
    if (known(home) && known(there) && by >= 1.5 && by >= 0.08 * std::max(home.p50, there.p50)) {
      add_words(what, words_.say("unit_min"), home, there, minutes_words(home, watched, words_),
                minutes_words(there, watched, words_));
    }
  }
  void add_words(const std::string& what, const std::string& unit, const Band& home,
                 const Band& there, const std::string& home_words, const std::string& there_words) {
    out.push_back(
        {what, unit, home, there, words_.say("becomes", {what, home_words, there_words})});
  }

  std::vector<Difference> out;

 private:
  std::string one(const Band& band, const std::string& unit, int decimals) const {
    return words_.range(band.p10, band.p90, decimals) + (unit == "%" ? " %" : " " + unit);
  }

  const CardWords& words_;
};

Band flat(double value) {
  return {value, value, value};
}

const Band* keeping_figure(const ForecastSummary& of, std::string_view name) {
  for (const FinishSummary& keeping : of.keeping) {
    if (!keeping.part.empty()) {
      continue;
    }
    for (const auto& [figure, band] : keeping.figures) {
      if (figure == name) {
        return &band;
      }
    }
  }
  return nullptr;
}

void compare_air(Comparison& comparison, const Kitchen& from, const Kitchen& to,
                 const CardWords& words) {
  const double home_m = from.altitude_m.value_or(0.0);
  const double there_m = to.altitude_m.value_or(0.0);
  if (std::fabs(there_m - home_m) < 300.0) {
    return;
  }
  const double boils_home = boiling_celsius(home_m);
  const double boils_there = boiling_celsius(there_m);
  comparison.add_words(words.say("water_boils"), "°C", flat(boils_home), flat(boils_there),
                       words.degrees(boils_home), words.degrees(boils_there));
  const double swells = 100.0 * gas_swells_by(home_m, there_m);
  comparison.add_words(words.say("gas_swells"), "%", flat(100.0), flat(swells), "100 %",
                       words.number(swells, 0) + " %");
}

void compare_rises(Comparison& comparison, const ForecastSummary& home,
                   const ForecastSummary& there, const CardWords& words) {
  for (std::size_t i = 0; i < std::min(home.proves.size(), there.proves.size()); ++i) {
    const bool last = i > 0 && i + 1 == there.proves.size();
    const std::string what = i == 0 ? words.say("first_rise")
                             : last ? words.say("last_rise")
                                    : words.say("rise_number", {std::to_string(i + 1)});
    comparison.add_minutes(what, home.proves[i].minutes, there.proves[i].minutes, Watched::dough);
  }
}

void compare_bakes(Comparison& comparison, const BakeSummary& home, const BakeSummary& there,
                   const CardWords& words) {
  comparison.add_minutes(words.say("in_oven"), home.minutes, there.minutes, Watched::oven);
  const Band& core_home = home.done.core_celsius;
  const Band& core_there = there.done.core_celsius;
  if (std::fabs(core_home.p50 - core_there.p50) > 0.4) {
    comparison.add_words(words.say("core_done"), "°C", core_home, core_there,
                         words.degrees(core_home.p50), words.degrees(core_there.p50));
  }
  const Band& lost = there.done.weight_loss_pct;
  if (lost.p50 < 0.0) {
    comparison.add_words(
        words.say("lost_in_bake"), "%", home.done.weight_loss_pct, lost,
        words.range(home.done.weight_loss_pct.p10, home.done.weight_loss_pct.p90, 0) + " %",
        words.say("takes_up", {words.range(-lost.p90, -lost.p10, 0)}));
  } else {
    comparison.add(words.say("lost_in_bake"), "%", home.done.weight_loss_pct, lost, 0.06, 0.7, 0);
  }
  if (home.done.crust.empty() || there.done.crust.empty() ||
      home.done.crust.front().first == there.done.crust.front().first) {
    return;
  }
  const auto crust = [&words](const BakeSummary& of) {
    std::string name = of.done.crust.front().first;
    for (char& c : name) {
      c = c == ' ' ? '_' : c;
    }
    return words.say("crust_" + name);
  };
  comparison.add_words(words.say("crust"), "L*", home.done.lightness, there.done.lightness,
                       crust(home), crust(there));
}

}  // namespace

double clock_minutes(double minutes, Watched watched) {
  const double coarse_from = watched == Watched::dough ? 15.0 : 30.0;
  const double to = minutes >= coarse_from ? 5.0 : 1.0;
  return std::max(1.0, std::round(minutes / to) * to);
}

Range clock_range(const Band& minutes, Watched watched) {
  constexpr double k_most_times = 3.0;
  return {clock_minutes(minutes.p10, watched),
          clock_minutes(std::min(minutes.p90, k_most_times * minutes.p50), watched)};
}

std::string minutes_words(const Band& minutes, Watched watched, const CardWords& words) {
  const auto [low, high] = clock_range(minutes, watched);
  if (low < 120.0) {
    return words.range(low, high, 0) + " " + words.say("unit_min");
  }
  const auto clock = [&words](double of) {
    const double hours = std::floor(of / 60.0);
    const double rest = of - 60.0 * hours;
    return words.number(hours, 0) + " " + words.say("unit_hour") +
           (rest > 0.0 ? " " + words.number(rest, 0) : "");
  };
  return low == high ? clock(low) : clock(low) + "–" + clock(high);
}

std::vector<Difference> differences_of(const ForecastSummary& home, const ForecastSummary& there,
                                       const Kitchen& from, const Kitchen& to,
                                       const CardWords& words) {
  Comparison comparison(words);
  compare_air(comparison, from, to, words);
  if (home.dough && there.dough) {
    comparison.add(words.say("feel"), "%", home.dough->effective_hydration,
                   there.dough->effective_hydration, 0.02, 2.5, 0);
  }
  compare_rises(comparison, home, there, words);
  if (home.bake && there.bake) {
    compare_bakes(comparison, *home.bake, *there.bake, words);
  }
  for (const auto& [figure, key] :
       {std::pair("fresh_days", "soft_days"), std::pair("mould_free_days", "no_mould_days")}) {
    const Band* at_home = keeping_figure(home, figure);
    const Band* away = keeping_figure(there, figure);
    if (at_home != nullptr && away != nullptr) {
      comparison.add(words.say(key), words.say("unit_days"), *at_home, *away, 0.1, 0.3, 1);
    }
  }
  return std::move(comparison.out);
}

std::vector<CardTime> times_of(const ForecastSummary& there, const CardWords& words) {
  std::vector<CardTime> out;
  for (std::size_t i = 0; i < there.proves.size(); ++i) {
    const ProveSummary& prove = there.proves[i];
    const std::string target = words.until_text(prove.target);
    const bool last = i > 0 && i + 1 == there.proves.size();
    out.push_back({i == 0 ? words.say("first_rise")
                   : last ? words.say("last_rise")
                          : words.say("rise_number", {std::to_string(i + 1)}),
                   prove.minutes, minutes_words(prove.minutes, Watched::dough, words),
                   target.empty() ? words.say("until_times", {words.number(prove.target_ratio, 1)})
                                  : target});
  }
  if (there.bake) {
    out.push_back({words.say("in_oven"), there.bake->minutes,
                   minutes_words(there.bake->minutes, Watched::oven, words), ""});
  }
  return out;
}

}  // namespace maslin::handon
