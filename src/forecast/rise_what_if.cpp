#include "forecast/rise_what_if.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "quantity/number_text.h"

namespace maslin {
namespace {

constexpr std::uint32_t k_most_draws = 128;
constexpr double k_never_reached = 0.02;

struct Dose {
  double factor;
  const char* what;
};
constexpr Dose k_doses[] = {{0.5, "half the yeast"},
                            {0.75, "three quarters of the yeast"},
                            {1.5, "half as much yeast again"},
                            {2.0, "twice the yeast"}};
constexpr const char* k_kinds[] = {"fresh_yeast", "active_dry_yeast", "instant_yeast",
                                   "osmotolerant_yeast"};
constexpr double k_rooms_celsius[] = {16.0, 20.0, 24.0, 28.0, 34.0};

class WhatIfs {
 public:
  WhatIfs(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
          ForecastOptions options)
      : recipe_(recipe), kitchen_(kitchen), pantry_(pantry), options_(std::move(options)) {
    options_.draws = std::min(options_.draws, k_most_draws);
  }

  RiseWhatIfs all(std::optional<double> wanted_minutes) {
    const RiseDraws draws = rise_with(recipe_, kitchen_, pantry_, options_, {});
    out_.problem = draws.problem;
    if (!out_.problem.empty()) {
      return std::move(out_);
    }
    out_.as_it_is = summed(draws, WhatIfGroup::yeast_dose, "as it is");
    if (out_.as_it_is.chance_reached < k_never_reached || out_.as_it_is.yeast_grams <= 0.0) {
      out_.problem = "No weighed yeast makes this dough rise, so there is nothing to change in it.";
      return std::move(out_);
    }
    doses();
    kinds();
    rooms();
    sugar();
    wanted(wanted_minutes ? wanted_minutes : stated(draws.schedule));
    return std::move(out_);
  }

 private:
  static std::optional<double> stated(const Schedule& schedule) {
    double out = 0.0;
    for (const PlannedProve& prove : schedule.proves) {
      if (!prove.stated_minutes) {
        return std::nullopt;
      }
      out += prove.stated_minutes->middle();
    }
    return out > 0.0 ? std::optional(out) : std::nullopt;
  }

  static RiseWhatIf summed(const RiseDraws& draws, WhatIfGroup group, std::string what) {
    RiseWhatIf out;
    out.group = group;
    out.what = std::move(what);
    const std::vector<double> minutes = rise_minutes(draws.ensemble);
    out.minutes = band_of(minutes, draws.ensemble.weight);
    double reached = 0.0;
    for (std::size_t i = 0; i < minutes.size(); ++i) {
      reached += std::isfinite(minutes[i]) ? draws.ensemble.weight[i] : 0.0;
    }
    out.chance_reached = minutes.empty() ? 0.0 : reached;
    out.yeast_grams = draws.yeast_grams;
    return out;
  }

  RiseWhatIf& add(WhatIfGroup group, std::string what, const RiseChange& change) {
    RiseWhatIf one =
        summed(rise_with(recipe_, kitchen_, pantry_, options_, change), group, std::move(what));
    one.room_celsius = change.room_celsius;
    one.prove_celsius = change.prove_celsius;
    out_.others.push_back(std::move(one));
    return out_.others.back();
  }

  void doses() {
    for (const Dose& dose : k_doses) {
      RiseChange change;
      change.yeast_factor = dose.factor;
      add(WhatIfGroup::yeast_dose, dose.what, change);
    }
  }

  bool holds(const std::string& id) const {
    for (const Part& part : recipe_.parts) {
      for (const Line& line : part.lines) {
        if (line.ingredient_id == id) {
          return true;
        }
      }
    }
    return false;
  }

  void kinds() {
    for (const char* id : k_kinds) {
      const Ingredient* one = pantry_.find(id);
      if (one != nullptr && !holds(id)) {
        RiseChange change;
        change.yeast_id = id;
        add(WhatIfGroup::yeast_kind, one->name + ", bought new", change);
      }
    }
  }

  void rooms() {
    // Of the same few draws that the search goes by.
    const double now = middle_rise_minutes(recipe_, kitchen_, pantry_, {});
    for (const double celsius : k_rooms_celsius) {
      RiseChange change;
      change.room_celsius = celsius;
      RiseWhatIf& one =
          add(WhatIfGroup::room, "a room at " + number_text(celsius, 0) + " °C", change);
      if (const auto dose = yeast_factor_for(recipe_, kitchen_, pantry_, now, change);
          dose && near(dose->reached, now)) {
        one.same_time_yeast_grams = dose->value * out_.as_it_is.yeast_grams;
      }
    }
  }

  bool sweet() const {
    const Part* dough = recipe_.dough();
    return std::any_of(dough->lines.begin(), dough->lines.end(), [this](const Line& line) {
      const Ingredient* one = pantry_.find(line.ingredient_id);
      return one != nullptr && line.weighed && line.grams.p50() > 0.0 &&
             (one->kind == IngredientKind::sugar || one->kind == IngredientKind::syrup);
    });
  }

  void sugar() {
    if (recipe_.dough() == nullptr || !sweet()) {
      return;
    }
    RiseChange half;
    half.sugar_factor = 0.5;
    add(WhatIfGroup::sugar, "half of the sugar into filling or glaze", half);
    RiseChange none;
    none.sugar_factor = 0.0;
    add(WhatIfGroup::sugar, "all of the sugar into filling or glaze", none);
  }

  static bool near(double reached, double wanted) {
    return std::fabs(reached - wanted) <= 0.05 * wanted;
  }

  void wanted(const std::optional<double>& minutes) {
    if (!minutes) {
      return;
    }
    const std::string time = number_text(*minutes, 0) + " minutes";
    if (const auto dose = yeast_factor_for(recipe_, kitchen_, pantry_, *minutes);
        dose && near(dose->reached, *minutes)) {
      RiseChange change;
      change.yeast_factor = dose->value;
      add(WhatIfGroup::wanted_time, "in " + time + " by the yeast", change);
    }
    if (const auto heat = prove_celsius_for(recipe_, kitchen_, pantry_, *minutes);
        heat && near(heat->reached, *minutes)) {
      RiseChange change;
      change.prove_celsius = heat->value;
      add(WhatIfGroup::wanted_time,
          "in " + time + " by proving at " + number_text(heat->value, 0) + " °C", change);
    }
  }

  const Recipe& recipe_;
  const Kitchen& kitchen_;
  const Pantry& pantry_;
  ForecastOptions options_;
  RiseWhatIfs out_;
};

}  // namespace

std::string_view what_if_group_name(WhatIfGroup group) {
  constexpr std::string_view k_names[] = {"yeast_dose", "yeast_kind", "room", "sugar",
                                          "wanted_time"};
  return k_names[static_cast<std::size_t>(group)];
}

RiseWhatIfs rise_what_ifs(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
                          ForecastOptions options, std::optional<double> wanted_minutes) {
  return WhatIfs(recipe, kitchen, pantry, std::move(options)).all(wanted_minutes);
}

}  // namespace maslin
