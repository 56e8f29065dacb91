#include "handon/oven_fit.h"

#include <algorithm>
#include <cmath>

#include "dough/tin_fill.h"
#include "handon/altitude.h"
#include "handon/embedded_table.h"
#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin::handon {
namespace {

/// A finger between pieces that are not to touch.
constexpr double k_gap_mm = 12.0;
/// No piece is smaller, and counts stay whole numbers of an int.
constexpr double k_least_side_mm = 1.0;
constexpr double k_most_loads = 1e6;

struct Room {
  Tin tin;
  int levels = 1;
  std::string key;  // of its name in the words
};

bool has_floor(const Tin& tin) {
  return tin.diameter_mm > 0.0 || (tin.length_mm > 0.0 && tin.width_mm > 0.0);
}

double floor_mm2(const Tin& tin) {
  return tin.diameter_mm > 0.0 ? 0.785 * tin.diameter_mm * tin.diameter_mm
                               : tin.length_mm * tin.width_mm;
}

/// What such an oven holds: the table that the plan of the day goes by.
std::optional<Room> usual_room(OvenKind kind) {
  const Table table(handon_data::embedded_table("oven_room.tsv"));
  const std::string_view name = oven_kind_name(kind);
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (table.cell(row, "oven") == name) {
      Tin tin;
      tin.kind = "tray";
      tin.length_mm = table.number(row, "length_mm");
      tin.width_mm = table.number(row, "width_mm");
      tin.diameter_mm = table.number(row, "diameter_mm");
      return Room{tin, static_cast<int>(table.number(row, "levels", 1.0)),
                  "room_" + std::string(name)};
    }
  }
  return std::nullopt;
}

/// The largest flat thing of the kitchen's own, else what such an oven usually holds.
std::optional<Room> room_of(const Kitchen& kitchen) {
  const Tin* largest = nullptr;
  for (const Tin& tin : kitchen.tins) {
    const bool flat =
        tin.kind == "tray" || tin.kind == "round" || tin.kind == "free" || tin.kind.empty();
    if (flat && has_floor(tin) && (largest == nullptr || floor_mm2(tin) > floor_mm2(*largest))) {
      largest = &tin;
    }
  }
  if (largest != nullptr) {
    return Room{*largest, 1, "room_tray"};
  }
  return kitchen.oven ? usual_room(*kitchen.oven) : std::nullopt;
}

/// As many as lie side by side with a gap between them; in a round by area, 80 % of it used.
int room_for(const Tin& tin, double breadth, double gap_mm) {
  const double side = std::max(breadth + gap_mm, k_least_side_mm);
  if (tin.diameter_mm > 0.0) {
    return breadth > tin.diameter_mm
               ? 0
               : std::max(1, static_cast<int>(0.8 * floor_mm2(tin) / (side * side)));
  }
  return static_cast<int>(std::floor((tin.length_mm + gap_mm) / side)) *
         static_cast<int>(std::floor((tin.width_mm + gap_mm) / side));
}

double shorter_mm(const Tin& tin) {
  return tin.diameter_mm > 0.0 ? tin.diameter_mm : std::min(tin.length_mm, tin.width_mm);
}

std::string cm(double mm) {
  return number_text(mm / 10.0, 0) + " cm";
}

OvenFit fit_small(const Room& room, const Pieces& pieces, const CardWords& words) {
  OvenFit out;
  const bool touching = pieces.shape == "cluster" || pieces.shape == "slice";
  const double gap_mm = touching ? 0.0 : k_gap_mm;
  const double breadth = breadth_mm(pieces.grams);
  const int fit = room.levels * room_for(room.tin, breadth, gap_mm);
  if (fit < 1) {
    const double most_g = std::pow(shorter_mm(room.tin) / 22.0, 3.0);
    const double count = std::ceil(pieces.count * pieces.grams / std::max(most_g, 1.0));
    out.notes.push_back(words.say(
        "note_too_small",
        {words.number(pieces.grams, 0), cm(breadth), words.say(room.key), cm(shorter_mm(room.tin)),
         words.number(count, 0), words.number(pieces.count * pieces.grams / count, 0)}));
    out.new_count = count;
    return out;
  }
  Batch batch;
  batch.loads = static_cast<int>(std::min(std::ceil(pieces.count / fit), k_most_loads));
  batch.pieces_a_load = std::ceil(pieces.count / batch.loads);
  batch.piece_grams = pieces.grams;
  batch.words = batch.loads == 1
                    ? words.say("batch_one", {words.number(pieces.count, 0), words.say(room.key)})
                    : words.say("batch_loads",
                                {words.number(batch.loads, 0), words.number(batch.pieces_a_load, 0),
                                 words.say(room.key), words.number(fit, 0)});
  out.batch = batch;
  return out;
}

/// A loaf against the tin it would go in.
OvenFit fit_loaf(const Kitchen& kitchen, const Pieces& pieces, const DoughState& dough,
                 const CardWords& words) {
  OvenFit out;
  const Tin* tin = nullptr;
  for (const Tin& one : kitchen.tins) {
    const bool deep = one.kind == "loaf" || one.kind == "ring" || one.kind == "round";
    if (deep && tin_volume_ml(one) > 0.0 &&
        (tin == nullptr || tin_volume_ml(one) > tin_volume_ml(*tin))) {
      tin = &one;
    }
  }
  if (tin == nullptr) {
    return out;
  }
  const TinFill fill = fill_of(fill_ranges(), *tin, dough, pieces.grams);
  Batch batch{1, pieces.count, pieces.grams, {}};
  if (fill.verdict == FillVerdict::too_much) {
    const double tins = std::ceil(pieces.grams * pieces.count / (1.1 * fill.wanted_g));
    out.notes.push_back(
        words.say("note_tin_much", {words.number(fill.tin_ml, 0), words.number(fill.wanted_g, 0),
                                    words.number(pieces.grams, 0), words.number(tins, 0),
                                    words.number(pieces.grams * pieces.count / tins, 0)}));
    batch.loads = static_cast<int>(std::min(tins, k_most_loads));
    batch.pieces_a_load = 1.0;
    batch.piece_grams = pieces.grams * pieces.count / tins;
  } else if (fill.verdict == FillVerdict::too_little) {
    out.notes.push_back(
        words.say("note_tin_little", {words.number(fill.tin_ml, 0), words.number(fill.wanted_g, 0),
                                      words.number(pieces.grams, 0)}));
  }
  out.batch = batch;
  return out;
}

/// Seconds a hand bears: 550 F less 50 F a second (a Dutch-oven page, read; hands differ).
std::string hand_seconds(double celsius, const CardWords& words) {
  const double seconds = std::clamp((550.0 - (celsius * 1.8 + 32.0)) / 50.0, 1.0, 8.0);
  const double low = std::max(1.0, std::floor(seconds));
  return words.range(low, low + 1.0, 0);
}

std::string flour_colour(double celsius) {
  return celsius < 165.0   ? "flour_colour_pale"
         : celsius < 200.0 ? "flour_colour_light"
                           : "flour_colour_dark";
}

}  // namespace

double breadth_mm(double grams) {
  return 22.0 * std::cbrt(grams);
}

OvenFit fit_oven(const Kitchen& kitchen, const Pieces& pieces, const DoughState& dough,
                 const CardWords& words) {
  if (pieces.shape == "tin_loaf" || pieces.shape == "ring") {
    return fit_loaf(kitchen, pieces, dough, words);
  }
  const auto room = room_of(kitchen);
  if (!room || pieces.shape == "sheet" || pieces.grams <= 0.0) {
    return {};
  }
  return fit_small(*room, pieces, words);
}

std::optional<BakeAdvice> advice_for(std::string_view when, const CardWords& words,
                                     std::initializer_list<std::string> with) {
  const Table table(handon_data::embedded_table("bake_advice.tsv"));
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (table.cell(row, "when") == when) {
      return BakeAdvice{std::string(table.cell(row, "about")),
                        words.filled(std::string(table.cell(row, words.column())), with),
                        std::string(table.cell(row, "source"))};
    }
  }
  return std::nullopt;
}

std::vector<BakeAdvice> bake_advice(const Kitchen& kitchen, std::optional<double> celsius,
                                    std::optional<double> core_celsius, const CardWords& words) {
  std::vector<BakeAdvice> out;
  const auto all_of = [&](const std::string& when) {
    const Table table(handon_data::embedded_table("bake_advice.tsv"));
    for (std::size_t row = 0; row < table.size(); ++row) {
      if (table.cell(row, "when") == when) {
        out.push_back({std::string(table.cell(row, "about")),
                       std::string(table.cell(row, words.column())),
                       std::string(table.cell(row, "source"))});
      }
    }
  };
  const OvenKind kind = kitchen.oven.value_or(OvenKind::conventional);
  all_of("oven:" + std::string(oven_kind_name(kind)));
  const bool steamed = kind == OvenKind::steamer;
  for (const std::string& thing : kitchen.equipment) {
    if (thing != oven_kind_name(kind)) {
      all_of("equipment:" + thing);
    }
  }
  const bool fire =
      kind == OvenKind::charcoal_drum || kind == OvenKind::pot || kind == OvenKind::wood;
  const auto add = [&out](std::optional<BakeAdvice> advice) {
    if (advice) {
      out.push_back(std::move(*advice));
    }
  };
  if (fire && celsius) {
    const auto colour = advice_for(flour_colour(*celsius), words, {});
    add(advice_for("no_thermostat", words,
                   {hand_seconds(*celsius, words), words.oven_degrees(*celsius),
                    colour ? colour->words : std::string()}));
  }
  add(advice_for(steamed ? "steamed" : "no_thermometer", words, {}));
  if (core_celsius) {
    constexpr double k_high_m = 1000.0;
    const double boils = boiling_celsius(kitchen.altitude_m.value_or(0.0));
    // Where water boils little above the aim, the figure of the lowlands is never reached.
    const bool near = kitchen.altitude_m.value_or(0.0) > k_high_m && boils - *core_celsius < 4.0;
    add(advice_for(near ? "thermometer_high" : "thermometer", words,
                   {words.degrees(*core_celsius), words.degrees(boils)}));
  }
  return out;
}

}  // namespace maslin::handon
