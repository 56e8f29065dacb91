#include "forecast/schedule.h"

#include <algorithm>
#include <cmath>

#include "forecast/embedded_table.h"
#include "properties/water.h"
#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin {
namespace {

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return out;
}

bool has(const std::string& text, std::string_view word) {
  return text.find(word) != std::string::npos;
}

/// The row of a word table whose word stands in the text; nothing if none does.
std::optional<std::size_t> row_in(const Table& table, const std::string& text) {
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (has(text, table.cell(row, "word"))) {
      return row;
    }
  }
  return std::nullopt;
}

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

bool names_the_room(const Step& step) {
  const std::string text = lower(step.text + " " + step.place);
  return has(text, "room") || has(text, "counter") || has(text, "bench") || has(text, "cool");
}

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
  out.stated_celsius = step.celsius ? step.celsius->middle() : 0.0;
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
    PlannedProve one = prove_of(step, shaped_);
    one.gas_kept_before = out_.proves.empty() ? 1.0 : std::min(kept_, 0.87);
    one.in_pieces = shaped_;
    one.name = out_.proves.empty() ? "first prove"
               : shaped_           ? "prove after shaping"
                                   : "prove " + std::to_string(out_.proves.size() + 1);
    if (!out_.proves.empty() && one.place == ProvePlace::room && !names_the_room(step)) {
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
    // Another way of baking after the first ("or fry them") is not a further stage.
    if (heated_ && way != out_.bake.way) {
      return;
    }
    out_.bake.way = way;
    out_.bake.until = step.until.empty() ? out_.bake.until : step.until;
    if (step.celsius) {
      out_.bake.heats.push_back({step.celsius->middle(), step.minutes});
      heated_ = heated_ || step.minutes.has_value();
    } else if (step.minutes) {
      if (out_.bake.heats.empty() || out_.bake.heats.back().minutes) {
        const double before = out_.bake.heats.empty() ? 0.0 : out_.bake.heats.back().celsius;
        out_.bake.heats.push_back({before, step.minutes});
      } else {
        out_.bake.heats.back().minutes = step.minutes;
      }
      heated_ = true;
    }
  }

  void plan_preferment(const Part& part) {
    PlannedProve rest;
    rest.name = part.name;
    rest.target = "ripe";
    rest.volume_ratio = 2.0;
    rest.stated_minutes = Range{720.0, 720.0};
    for (const Step& step : part.steps) {
      if (step.minutes && (step.kind == StepKind::prove || step.kind == StepKind::rest)) {
        rest.stated_minutes = step.minutes;
        rest.place = place_of(step);
        rest.stated_celsius = step.celsius ? step.celsius->middle() : 0.0;
      }
    }
    out_.preferment_rest = rest;
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
    PlannedBake& bake = out_.bake;
    std::string text = lower(recipe_.title);
    for (const Step* step : method_of(recipe_)) {
      text += '\n';
      text += lower(step->text);
    }
    const Table words(forecast_data::embedded_table("piece_words.tsv"));
    const auto title_row = row_in(words, lower(recipe_.title));
    const auto row = title_row ? title_row : row_in(words, text);
    double usual = 75.0;
    if (row) {
      bake.shape = piece_shape_from(words.cell(*row, "shape")).value_or(PieceShape::bun);
      bake.bakeware = words.cell(*row, "bakeware");
      bake.neighbours = words.number(*row, "neighbours");
      usual = words.number(*row, "grams", usual);
    }
    bake.tin = recipe_.tin;
    if (bake.tin) {
      take_tin(*bake.tin);
    }
    if (pieces_ > 0) {
      bake.pieces = pieces_;
    } else if (recipe_.pieces && recipe_.pieces->middle() > 0) {
      bake.pieces = recipe_.pieces->middle();
    } else if (bake.piece_grams) {
      bake.pieces = std::max(1.0, std::round(dough_grams_ / *bake.piece_grams));
    } else {
      bake.pieces = std::max(1.0, std::round(dough_grams_ / usual));
      doubt("how many pieces", "not said; taken as " + number_text(bake.pieces, 0) + " of about " +
                                   number_text(dough_grams_ / bake.pieces, 0) + " g");
    }
    // "1 loaf" in a recipe for rolls and the like: one piece of more than 250 g is a loaf.
    if (dough_grams_ / bake.pieces > 250.0 && bake.shape == PieceShape::bun) {
      bake.shape = PieceShape::hearth;
    }
    if (bake.shape == PieceShape::tin_loaf && dough_grams_ / bake.pieces < 160.0) {
      bake.shape = PieceShape::bun;
      bake.bakeware = "tray";
    }
  }

  void take_tin(const Tin& tin) {
    PlannedBake& bake = out_.bake;
    const bool several = pieces_ > 1 || (recipe_.pieces && recipe_.pieces->middle() > 1);
    if (tin.kind == "loaf" && !several) {
      bake.shape = PieceShape::tin_loaf;
      bake.bakeware = "tin";
    } else if (tin.kind == "ring" && !several) {
      bake.shape = PieceShape::ring;
      bake.bakeware = "tin";
    } else if ((tin.kind == "round" || tin.kind == "tray" || tin.kind == "loaf") && several &&
               bake.shape == PieceShape::bun) {
      // Do they touch? They do when the tin gives each less than its own breadth of room.
      const double each =
          dough_grams_ /
          std::max(1.0, std::max(pieces_, recipe_.pieces ? recipe_.pieces->middle() : 1.0));
      const double area = tin.diameter_mm > 0 ? 0.785 * tin.diameter_mm * tin.diameter_mm
                                              : tin.length_mm * tin.width_mm;
      const double pieces = dough_grams_ / each;
      // A risen bun of m grams is about 2.2 m^(1/3) cm across: common practice, no source.
      const double breadth = 22.0 * std::cbrt(each);
      if (area > 0 && area / pieces < breadth * breadth) {
        bake.shape = PieceShape::cluster;
        bake.neighbours = 3.0;
      }
    }
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
  bool heated_ = false;
  double pieces_ = 0.0;
};

}  // namespace

Schedule schedule_of(const Recipe& recipe, const Kitchen& kitchen, double dough_grams,
                     bool yeasted) {
  return Planner(recipe, kitchen, std::max(dough_grams, 1.0), yeasted).plan();
}

}  // namespace maslin
