#include "forecast/bake_what_if.h"

#include <array>
#include <cmath>

#include "bake/one_lane.h"
#include "bake/what_if.h"
#include "forecast/bake_picture.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

constexpr double k_dry_loss_pct = 12.0;
constexpr double k_fridge_k = 277.15;
constexpr double k_freezer_celsius = -18.0;
constexpr double k_cooling_minutes = 120.0;  // of what was par-baked, on its tray
constexpr double k_par_cooler_k = 40.0;      // par-baked pale; common practice, no source
constexpr double k_hot_through_k = 333.15;   // of what is baked a second time; common practice
/// A smaller and a larger tin or tray, of the sides: a fifth less bottom, a fifth more.
constexpr double k_smaller = 0.9;
constexpr double k_larger = 1.1;
constexpr double k_fan_cooler_k = 20.0;  // common practice, no source
/// Two full trays take twice the heat out of the air, and it comes back half as fast: common
/// practice, no source; what they shade of one another is not followed.
constexpr double k_two_trays = 2.0;

std::string degrees(double kelvin) {
  return number_text(std::round(kelvin - k_zero_celsius_k), 0) + " °C";
}

class Asking {
 public:
  explicit Asking(const DrawnBake& drawn) {
    const std::size_t lane = middling_draw(drawn.minutes_to_done);
    piece_ = one_lane(drawn.piece, lane);
    oven_ = one_lane(drawn.oven, lane);
    unknowns_ = one_lane(drawn.unknowns, lane);
    rule_ = drawn.rule;
    rule_.core_k = drawn.rule.core_k[lane];
  }

  BakeWhatIfs all() {
    BakeWhatIfs out;
    out.as_it_is = asked(BakeWhatIfGroup::mass, "as it is", piece_, oven_, rule_);
    masses(out.others);
    tins(out.others);
    bakeware(out.others);
    settings(out.others);
    Oven full = oven_;
    full.figures.drop_k *= k_two_trays;
    full.figures.recovery_minutes *= k_two_trays;
    add(out.others, BakeWhatIfGroup::load, "two trays at once", piece_, full, rule_);
    Piece cold = piece_;
    cold.start_k = k_fridge_k;
    add(out.others, BakeWhatIfGroup::start, "straight from the fridge", cold, oven_, rule_);
    Piece frozen = piece_;
    frozen.start_k = frozen_start_k(piece_.dough, k_freezer_celsius);
    add(out.others, BakeWhatIfGroup::start, "straight from the freezer", frozen, oven_, rule_);
    colours(out.others);
    par_baked(out.others);
    backwards(out);
    return out;
  }

 private:
  BakeWhatIf asked(BakeWhatIfGroup group, std::string what, const Piece& piece, const Oven& oven,
                   const DoneRule& rule) const {
    const BakeRun run = bake_piece(piece, oven, rule, unknowns_);
    BakeWhatIf out;
    out.group = group;
    out.what = std::move(what);
    out.problem = run.problem;
    out.minutes = run.minutes_to_done[0];
    out.core_celsius = run.at_done.core_k[0] - k_zero_celsius_k;
    out.lightness = run.at_done.lightness[0];
    out.weight_loss_pct = run.at_done.weight_loss_pct[0];
    return out;
  }
  void add(std::vector<BakeWhatIf>& out, BakeWhatIfGroup group, std::string what,
           const Piece& piece, const Oven& oven, const DoneRule& rule) const {
    out.push_back(asked(group, std::move(what), piece, oven, rule));
  }

  void masses(std::vector<BakeWhatIf>& out) const {
    struct Mass {
      double times;
      const char* words;
    };
    for (const Mass& one : {Mass{0.5, "half as heavy"}, Mass{0.75, "a quarter lighter"},
                            Mass{1.25, "a quarter heavier"}, Mass{2.0, "twice as heavy"}}) {
      Piece piece = piece_;
      piece.mass_g = one.times * piece.mass_g;
      add(out, BakeWhatIfGroup::mass,
          std::string(one.words) + ", " + number_text(std::round(piece.mass_g[0]), 0) + " g", piece,
          oven_, rule_);
    }
  }

  /// The same mass in a tin or tray of other sides; nothing for what stands free.
  void tins(std::vector<BakeWhatIf>& out) const {
    const bool tinned = piece_.shape == PieceShape::tin_loaf || piece_.shape == PieceShape::ring;
    if (!tinned && piece_.shape != PieceShape::sheet) {
      return;
    }
    const PieceSize size = piece_size(piece_, unknowns_.mass_factor);
    for (const double times : {k_smaller, k_larger}) {
      Piece piece = piece_;
      piece.tin_depth_mm = times * piece_.tin_depth_mm;
      std::string sides;
      if (piece_.shape == PieceShape::ring) {
        // The round way along the middle of the ring is its length.
        piece.diameter_mm = times * 1e3 * (size.length_m * (1.0 / 3.14159265) + size.width_m);
        piece.width_mm = times * 1e3 * size.width_m;
        sides = number_text(std::round(piece.diameter_mm[0]), 0) + " mm across";
      } else {
        piece.length_mm = times * 1e3 * size.length_m;
        piece.width_mm = times * 1e3 * size.width_m;
        sides = number_text(std::round(piece.length_mm[0]), 0) + " by " +
                number_text(std::round(piece.width_mm[0]), 0) + " mm";
      }
      add(out, BakeWhatIfGroup::tin,
          std::string(times < 1.0 ? "a smaller " : "a larger ") + (tinned ? "tin, " : "tray, ") +
              sides,
          piece, oven_, rule_);
    }
  }

  void bakeware(std::vector<BakeWhatIf>& out) const {
    const bool tinned = piece_.shape == PieceShape::tin_loaf || piece_.shape == PieceShape::ring;
    using Names = std::array<const char*, 4>;
    const Names names = tinned ? Names{"dark tin", "bright tin", "glass", "ceramic"}
                               : Names{"dark tray", "bright tray", "paper", "stone"};
    for (const char* name : names) {
      Oven oven = oven_;
      oven.bakeware = oven_of(oven_.kind, oven_.phases.front().set_point_k, name).bakeware;
      add(out, BakeWhatIfGroup::bakeware, name, piece_, oven, rule_);
    }
  }

  Oven moved(double by_k) const {
    Oven out = oven_;
    for (OvenPhase& phase : out.phases) {
      phase.set_point_k += by_k;
    }
    return out;
  }
  void settings(std::vector<BakeWhatIf>& out) const {
    if (oven_.kind == OvenKind::steamer) {
      return;  // steam is as hot as water boils
    }
    const double set_k = oven_.phases.front().set_point_k[0];
    for (const double by_k : {-20.0, 20.0}) {
      add(out, BakeWhatIfGroup::oven, "the oven at " + degrees(set_k + by_k), piece_, moved(by_k),
          rule_);
    }
    if (oven_.kind == OvenKind::conventional) {
      Oven fan = moved(-k_fan_cooler_k);
      fan.kind = OvenKind::fan;
      fan.figures = oven_of(OvenKind::fan, set_k).figures;
      add(out, BakeWhatIfGroup::oven, "with the fan, at " + degrees(set_k - k_fan_cooler_k), piece_,
          fan, rule_);
    }
  }

  void colours(std::vector<BakeWhatIf>& out) const {
    if (oven_.kind == OvenKind::steamer) {
      return;
    }
    DoneRule rule = rule_;
    rule.by = DoneBy::core_and_colour;
    for (const Crust crust : {Crust::light_gold, Crust::golden, Crust::brown}) {
      const LightnessBounds bounds = crust_bounds(crust);
      rule.lightness = 0.5 * (bounds.low + bounds.high);
      add(out, BakeWhatIfGroup::colour,
          std::string("left in until ") + std::string(crust_name(crust)), piece_, oven_, rule);
      if (out.back().problem.empty() && out.back().lightness < bounds.low) {
        out.back().problem = "it is darker than that before its core is done";
      }
    }
  }

  /// Par-baked in a cooler oven until the crumb has set, cold on its tray, and baked again as the
  /// recipe has it until golden and hot through: one bake with an hour and more outside, so that
  /// water, crust and colour carry over.
  void par_baked(std::vector<BakeWhatIf>& out) const {
    if (oven_.kind == OvenKind::steamer) {
      return;
    }
    Oven oven = moved(-k_par_cooler_k);
    DoneRule rule = rule_;
    rule.by = DoneBy::starch;
    BakeWhatIf first =
        asked(BakeWhatIfGroup::start,
              "par-baked at " + degrees(oven.phases.front().set_point_k[0]) + " until set", piece_,
              oven, rule);
    const double rests_from = first.minutes;
    const double again = rests_from + k_cooling_minutes;
    const bool set = first.problem.empty();
    out.push_back(std::move(first));
    if (!set) {
      return;
    }
    std::erase_if(oven.phases, [&](const OvenPhase& one) { return one.from_minute >= rests_from; });
    OvenPhase rest;
    rest.from_minute = rests_from;
    rest.set_point_k = oven_.room_k;
    rest.outside = true;
    oven.phases.push_back(rest);
    for (OvenPhase phase : oven_.phases) {
      phase.from_minute += again;
      oven.phases.push_back(phase);
    }
    const LightnessBounds golden = crust_bounds(Crust::golden);
    rule.by = DoneBy::core_and_colour;
    rule.core_k = k_hot_through_k;
    rule.lightness = 0.5 * (golden.low + golden.high);
    rule.from_minute = again;
    BakeWhatIf second =
        asked(BakeWhatIfGroup::start,
              "baked again at " + degrees(oven_.phases.front().set_point_k[0]) + " until golden",
              piece_, oven, rule);
    second.minutes -= again;
    if (second.problem.empty() && second.lightness < golden.low) {
      second.problem = "it is darker than that before it is hot through";
    }
    out.push_back(std::move(second));
  }

  void backwards(BakeWhatIfs& out) const {
    if (oven_.kind != OvenKind::steamer) {
      const LightnessBounds golden = crust_bounds(Crust::golden);
      const OvenSetting setting =
          setting_for(piece_, oven_, rule_.core_k, 0.5 * (golden.low + golden.high), unknowns_);
      out.for_golden = BakeWhatIfs::Setting{setting.problem, setting.set_point_k - k_zero_celsius_k,
                                            setting.minutes};
    }
    BakeOptions options;
    options.at_least_minutes = options.at_most_minutes;
    const BakeRun run = bake_piece(piece_, oven_, rule_, unknowns_, options);
    if (!run.trace.empty() && run.trace.back().weight_loss_pct[0] > k_dry_loss_pct) {
      out.last_minute_before_dry = last_minute_before_dry(run, k_dry_loss_pct)[0];
    }
  }

  Piece piece_;
  Oven oven_;
  BakeUnknowns unknowns_;
  DoneRule rule_;
};

}  // namespace

std::string_view bake_what_if_group_name(BakeWhatIfGroup group) {
  constexpr std::array<std::string_view, 7> k_names{"mass", "tin",   "bakeware", "oven",
                                                    "load", "start", "colour"};
  return k_names[static_cast<std::size_t>(group)];
}

BakeWhatIfs bake_what_ifs(const BatchOutcome& first) {
  BakeWhatIfs out;
  if (!first.bake) {
    out.problem =
        first.problems.empty() ? "The recipe bakes nothing in an oven." : first.problems.front();
    return out;
  }
  return Asking(*first.bake).all();
}

}  // namespace maslin
