#include "forecast/schedule.h"

#include <algorithm>
#include <cmath>

#include "forecast/embedded_table.h"
#include "forecast/piece_plan.h"
#include "forecast/step_words.h"
#include "properties/water.h"
#include "quantity/number_text.h"
#include "quantity/table.h"
#include "recipe/hot_rise.h"

namespace maslin {
namespace {

/// Steps of the method: those of every part but the ones made beforehand.
std::vector<const Step*> method_of(const Recipe& recipe) {
  std::vector<const Step*> out;
  for (const Part& part : recipe.parts) {
    const bool beforehand = part.kind == PartKind::preferment || part.kind == PartKind::soaker ||
                            part.kind == PartKind::extract;
    for (const Step& step : part.steps) {
      if (!beforehand) {
        out.push_back(&step);
      }
    }
  }
  return out;
}

ProvePlace place_of(const Step& step) {
  if (is_hot_rise(step)) {
    return ProvePlace::warm;
  }
  if (step.celsius) {
    return ProvePlace::stated;
  }
  if (step.place == "warm" || has(lower(step.text), "warm")) {
    return ProvePlace::warm;
  }
  const std::string text = lower(step.text);
  if (step.place == "cold" || has(text, "fridge") || has(text, "refrigerat")) {
    return ProvePlace::cold;
  }
  return ProvePlace::room;
}

/// In the cold for so long, a dough is left by the clock and not by its look.
constexpr double k_overnight_minutes = 240.0;

/// Warmer than any room: a place made warm.
constexpr double k_warm_from_celsius = 24.0;

/// "Cook a minute on each side in the pan": on a flame, not in an oven.
bool on_a_griddle(const std::string& text) {
  const Table words(forecast_data::embedded_table("griddle_words.tsv"));
  return row_in(words, text).has_value();
}

bool names_the_room(const Step& step) {
  const std::string text = lower(step.text + " " + step.place);
  return has(text, "room") || has(text, "counter") || has(text, "bench") || has(text, "cool");
}

/// A poolish or sponge whose steps do not say more is ripe at that: common practice.
constexpr double k_ripe_ratio = 2.5;

/// Frozen overnight, where it is not said for how long: common practice, no source.
constexpr double k_frozen_minutes = 720.0;

PlannedProve prove_of(const Step& step, bool shaped) {
  PlannedProve out;
  const Table words(forecast_data::embedded_table("until_words.tsv"));
  const std::string text = lower(step.until.empty() ? step.text : step.until);
  const auto row = row_in(words, text);
  out.volume_ratio = row ? words.number(*row, "volume_ratio") : shaped ? 1.8 : 2.0;
  out.target = !step.until.empty() ? step.until
               : row               ? "risen to " + number_text(out.volume_ratio, 1) + " times"
               : shaped            ? "risen by four fifths"
                                   : "doubled";
  out.stated_minutes = step.minutes;
  out.place = place_of(step);
  out.stated_celsius = out.place == ProvePlace::stated ? step.celsius->middle() : 0.0;
  out.frost = frost_of(step);
  if (!out.rises()) {
    const bool freezes = out.frost == Frost::freezes;
    out.place = freezes ? ProvePlace::frozen : out.place;
    out.target = step.minutes || freezes ? "the time is up" : "thawed";
    out.volume_ratio = 1.0;
    if (step.minutes || freezes) {
      out.for_minutes = step.minutes ? step.minutes->middle() : k_frozen_minutes;
    }
    return out;
  }
  if (out.place == ProvePlace::cold && step.minutes &&
      step.minutes->middle() >= k_overnight_minutes) {
    out.for_minutes = step.minutes->middle();
    out.target = "the time is up";
  }
  return out;
}

class Planner {
 public:
  Planner(const Recipe& recipe, const Kitchen& kitchen, double dough_grams, bool yeasted)
      : recipe_(recipe), kitchen_(kitchen), dough_grams_(dough_grams), yeasted_(yeasted) {}

  Schedule plan() {
    for (const Step* step : method_of(recipe_)) {
      take(*step);
    }
    for (const Part& part : recipe_.parts) {
      if (part.kind == PartKind::preferment) {
        plan_preferment(part);
      }
    }
    assume_proves();
    plan_piece();
    assume_heat();
    return std::move(out_);
  }

 private:
  void take(const Step& step) {
    switch (step.kind) {
      case StepKind::knead:
        out_.kneaded = true;
        out_.knead_minutes = step.minutes ? step.minutes->middle() : out_.knead_minutes;
        out_.machine = out_.machine || has(lower(step.text), "mixer") ||
                       has(lower(step.text), "machine") || has(lower(step.text), "hook");
        break;
      case StepKind::fold:
        kept_ = std::min(kept_, 0.87);
        break;
      case StepKind::divide:
      case StepKind::shape:
      case StepKind::fill:
        // Shaping before anything has risen only forms the mixed dough.
        // Each handling presses out about half, to a quarter in all.
        if (!out_.proves.empty()) {
          kept_ = std::max(0.25, 0.5 * kept_);
          shaped_ = true;
        }
        formed_ = true;
        if (step.pieces) {
          pieces_ = step.pieces->middle();
        }
        if (step.piece_grams) {
          out_.bake.piece_grams = step.piece_grams;
        }
        break;
      case StepKind::prove:
        add_prove(step);
        break;
      case StepKind::bake:
        add_heat(step, PlannedBake::Way::oven);
        break;
      case StepKind::steam:
        add_heat(step, PlannedBake::Way::steam);
        break;
      case StepKind::fry:
        add_heat(step, PlannedBake::Way::fry);
        break;
      default:
        break;
    }
  }

  void add_prove(const Step& step) {
    if (heated_) {
      return;
    }
    if (is_hot_rise(step)) {
      doubt(step.text, "yeast dies at " + number_text(step.celsius->middle(), 0) +
                           " °C: the rise is taken as in a warm place");
    }
    PlannedProve one = prove_of(step, shaped_);
    // Frozen as it was shaped, and thawed as it was frozen: no hand presses anything out.
    const bool after_frost = !out_.proves.empty() && !out_.proves.back().rises();
    one.gas_kept_before = out_.proves.empty()                             ? 1.0
                          : (after_frost || !one.rises()) && kept_ == 1.0 ? 1.0
                                                                          : std::min(kept_, 0.87);
    // Frozen before any rise: what was formed is what goes into the freezer.
    shaped_ = shaped_ || (formed_ && !one.rises());
    one.in_pieces = shaped_;
    one.name = one.frost == Frost::freezes ? "in the freezer"
               : one.frost == Frost::thaws ? "thawing"
               : rises_ == 0               ? "first prove"
               : shaped_                   ? "prove after shaping"
                                           : "prove " + std::to_string(rises_ + 1);
    rises_ += one.rises() ? 1U : 0U;
    if (one.frost == Frost::freezes && !step.minutes) {
      doubt("how long it is frozen is not said", "taken as overnight, twelve hours");
    }
    if (one.rises() && !after_frost && !out_.proves.empty() && one.place == ProvePlace::room &&
        !names_the_room(step)) {
      stay_where_it_was(one, out_.proves.back());
    }
    out_.proves.push_back(one);
    kept_ = 1.0;
  }

  /// A method that says where the dough first rose and no more means the same warm place.
  static void stay_where_it_was(PlannedProve& one, const PlannedProve& before) {
    if (before.place == ProvePlace::warm ||
        (before.place == ProvePlace::stated && before.stated_celsius > k_warm_from_celsius)) {
      one.place = before.place;
      one.stated_celsius = before.stated_celsius;
    }
  }

  void add_heat(const Step& step, PlannedBake::Way way) {
    const std::string text = lower(step.text);
    if (way != PlannedBake::Way::steam && !step.celsius && on_a_griddle(text)) {
      way = PlannedBake::Way::griddle;
    }
    // Another way of baking after the first ("or fry them"), or the same in another oven, is not
    // a further stage.
    const bool other_oven = has(text, "convection") || has(text, "fan oven");
    if (heated_ && (way != out_.bake.way || other_oven)) {
      return;
    }
    // The minutes in which an oven gets hot are none of the bake's.
    const std::optional<Range> minutes =
        has(text, "heat the oven") || has(text, "preheat") ? std::nullopt : step.minutes;
    out_.bake.way = way;
    out_.bake.until = step.until.empty() ? out_.bake.until : step.until;
    if (step.celsius) {
      out_.bake.heats.push_back({step.celsius->middle(), minutes});
      heated_ = heated_ || minutes.has_value();
    } else if (minutes) {
      if (out_.bake.heats.empty() || out_.bake.heats.back().minutes) {
        const double before = out_.bake.heats.empty() ? 0.0 : out_.bake.heats.back().celsius;
        out_.bake.heats.push_back({before, minutes});
      } else {
        out_.bake.heats.back().minutes = minutes;
      }
      heated_ = true;
    }
  }

  void plan_preferment(const Part& part) {
    const Table until(forecast_data::embedded_table("until_words.tsv"));
    PlannedProve rest;
    rest.name = part.name;
    rest.target = "ripe";
    rest.volume_ratio = k_ripe_ratio;
    rest.stated_minutes = Range{720.0, 720.0};
    for (const Step& step : part.steps) {
      if (step.minutes && (step.kind == StepKind::prove || step.kind == StepKind::rest)) {
        rest.stated_minutes = step.minutes;
        rest.place = place_of(step);
        rest.stated_celsius = rest.place == ProvePlace::stated ? step.celsius->middle() : 0.0;
      }
      const auto row = step.until.empty() ? std::nullopt : row_in(until, lower(step.until));
      rest.volume_ratio = row ? until.number(*row, "volume_ratio") : rest.volume_ratio;
    }
    out_.preferments.push_back({static_cast<std::size_t>(&part - recipe_.parts.data()), rest});
  }

  void assume_proves() {
    if (out_.proves.empty() && !yeasted_) {
      doubt(
          "no yeast is in the dough",
          "nothing rises before the oven; what baking powder or soda lifts in it is not forecast");
      return;
    }
    if (out_.proves.empty()) {
      PlannedProve first;
      first.name = "first prove";
      first.target = "doubled";
      PlannedProve second;
      second.name = "prove after shaping";
      second.target = "risen by four fifths";
      second.volume_ratio = 1.8;
      second.gas_kept_before = 0.5;
      second.in_pieces = true;
      out_.proves = {first, second};
      doubt("no rising is described",
            "taken as one rise to double and one after shaping to 1.8 times, at room temperature");
    }
  }

  void plan_piece() {
    PieceHints hints;
    hints.title = lower(recipe_.title);
    for (const Step* step : method_of(recipe_)) {
      hints.steps += lower(step->text) + "\n";
    }
    hints.by_steps = pieces_;
    hints.by_yield = recipe_.pieces ? recipe_.pieces->middle() : 0.0;
    hints.dough_grams = dough_grams_;
    hints.tin = recipe_.tin;
    for (const PlannedHeat& heat : out_.bake.heats) {
      hints.oven_minutes += heat.minutes ? heat.minutes->middle() : 0.0;
    }
    std::vector<Doubt> assumed = plan_piece_by(hints, out_.bake);
    out_.doubts.insert(out_.doubts.end(), assumed.begin(), assumed.end());
  }

  void assume_heat() {
    PlannedBake& bake = out_.bake;
    if (kitchen_.oven == OvenKind::none && bake.way == PlannedBake::Way::oven) {
      doubt("the kitchen has no oven", "the bake is computed for one; see hand-on for other ways");
    }
    if (kitchen_.oven == OvenKind::steamer && bake.way == PlannedBake::Way::oven) {
      bake.way = PlannedBake::Way::steam;
      doubt("the kitchen has a steamer and no oven", "the pieces are steamed, and stay white");
    }
    if (bake.way == PlannedBake::Way::steam) {
      set_to_boiling();
      return;
    }
    const double usual = bake.shape == PieceShape::flat ? 230.0 : 190.0;
    if (bake.heats.empty()) {
      bake.heats.push_back({usual, std::nullopt});
      if (bake.way == PlannedBake::Way::oven) {
        doubt("the oven", "no temperature is given; taken as " + number_text(usual, 0) + " °C");
      }
    }
    for (PlannedHeat& heat : bake.heats) {
      if (heat.celsius <= 0) {
        heat.celsius = usual;
        if (bake.way == PlannedBake::Way::oven) {
          doubt("the oven", "no temperature is given; taken as " + number_text(usual, 0) + " °C");
        }
      }
    }
    // A setting without a time before others ("heat the oven to 230, bake at 200 for 30").
    while (bake.heats.size() > 1 && !bake.heats.front().minutes) {
      bake.heats.erase(bake.heats.begin());
    }
  }

  /// Steam is as hot as water boils there, whatever an oven was set to.
  void set_to_boiling() {
    std::vector<PlannedHeat>& heats = out_.bake.heats;
    if (heats.empty()) {
      heats.push_back({});
    }
    const Lanes pressure = pressure_at_altitude_pa(kitchen_.altitude_m.value_or(0.0));
    for (PlannedHeat& heat : heats) {
      heat.celsius = boiling_point_k(pressure)[0] - k_zero_celsius_k;
    }
    while (heats.size() > 1 && !heats.front().minutes) {
      heats.erase(heats.begin());
    }
  }

  void doubt(std::string text, std::string why) {
    out_.doubts.push_back({std::move(text), std::move(why)});
  }

  const Recipe& recipe_;
  const Kitchen& kitchen_;
  double dough_grams_ = 0.0;
  bool yeasted_ = true;
  Schedule out_;
  double kept_ = 1.0;
  bool shaped_ = false;
  bool formed_ = false;  // shaped before anything rose
  bool heated_ = false;
  double pieces_ = 0.0;
  std::size_t rises_ = 0;  // among the proves
};

}  // namespace

Schedule schedule_of(const Recipe& recipe, const Kitchen& kitchen, double dough_grams,
                     bool yeasted) {
  return Planner(recipe, kitchen, std::max(dough_grams, 1.0), yeasted).plan();
}

}  // namespace maslin
