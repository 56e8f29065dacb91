// One batch of eight draws through the physics, in the order of the kitchen: weigh,
// mix, rise, bake, finish.
#include <algorithm>
#include <cmath>

#include "bake/bake.h"
#include "dough/temperature.h"
#include "finish/finish.h"
#include "forecast/forecast.h"
#include "properties/water.h"
#include "recipe/recipe_json.h"
#include "rise/rise.h"

namespace maslin {
namespace {

/// Collects eight draws as columns.
class Columns {
 public:
  explicit Columns(Ensemble& out) : out_(out) {}

  void unknown(const Unknown& one, const Lanes& values) {
    out_.unknowns.push_back({one.name, one.unit, eight(values)});
  }
  void outcome(std::string name, std::string unit, const Lanes& values) {
    out_.outcomes.push_back({std::move(name), std::move(unit), eight(values)});
  }
  void trace(std::string name, std::string unit, double step_minutes,
             const std::vector<Lanes>& samples) {
    Trace trace{std::move(name), std::move(unit), step_minutes, {}};
    for (const Lanes& sample : samples) {
      trace.samples.push_back(eight(sample));
    }
    out_.traces.push_back(std::move(trace));
  }

 private:
  static std::vector<double> eight(const Lanes& values) {
    std::vector<double> out(k_lane_count);
    for (std::size_t i = 0; i < k_lane_count; ++i) {
      out[i] = values[i];
    }
    return out;
  }
  Ensemble& out_;
};

/// One batch as it goes through the physics.
class BatchRun {
 public:
  BatchRun(const ForecastSetup& setup, std::size_t batch, BatchOutcome& out)
      : setup_(setup), out_(out), columns_(out.columns), first_batch_(batch == 0) {
    const auto first = static_cast<std::uint32_t>(batch * k_lane_count);
    draws_ = draw_batch(setup.unknowns, setup.options.seed, first);
    models_ = model_draws(setup.models, setup.kitchen, draws_, setup.first_model_unknown);
    for (std::size_t i = 1; i < setup.unknowns.size(); ++i) {
      columns_.unknown(setup.unknowns[i], draws_[i]);
    }
  }

  void run() {
    bowls_ = fill_bowls(setup_.bowls, draws_);
    pressure_pa_ = pressure_at_altitude_pa(setup_.kitchen.altitude_m.value_or(0.0));
    solve_flour();
    mix();
    rise();
    const Piece one = piece();
    piece_grams_ = one.mass_g;
    if (setup_.schedule.bake.way == PlannedBake::Way::oven) {
      bake(one);
    }
    finish();
  }

 private:
  Portions& dough_portions() { return bowls_[setup_.bowls.dough].portions; }

  /// A flour without an amount gets what brings the dough to the middle of soft.
  void solve_flour() {
    const Bowls::Bowl& bowl = setup_.bowls.bowls[setup_.bowls.dough];
    for (std::size_t i = 0, item = 0; i < bowl.lines.size(); ++i) {
      const std::size_t items = bowl.lines[i].ingredient != nullptr
                                    ? 1
                                    : bowls_[bowl.lines[i].part].portions.items.size();
      if (bowl.lines[i].solved) {
        Portions::Item& flour = dough_portions().items[item];
        const double target = feel_bounds(DoughFeel::soft).middle();
        flour.grams = dough_portions().total_grams();
        const Lanes others =
            assess_dough(setup_.models.dough, dough_portions(), models_.dough).flour_g -
            flour.grams;
        for (int pass = 0; pass < 3; ++pass) {
          const DoughState state =
              assess_dough(setup_.models.dough, dough_portions(), models_.dough);
          flour.grams = max(flour_for_score(state, target) - others, 1.0);
        }
        bowls_[setup_.bowls.dough].line_grams[i] = flour.grams;
        return;
      }
      item += items;
    }
  }

  void mix() {
    const Bowls::Bowl& bowl = setup_.bowls.bowls[setup_.bowls.dough];
    std::vector<WarmPortion> warm;
    std::size_t item = 0;
    for (const LineAmount& line : bowl.lines) {
      const std::size_t items =
          line.ingredient != nullptr ? 1 : bowls_[line.part].portions.items.size();
      const Lanes celsius = line.warm   ? models_.kitchen.warm_liquid_celsius
                            : line.cold ? models_.kitchen.fridge_celsius
                                        : models_.kitchen.room_celsius;
      for (std::size_t i = 0; i < items; ++i, ++item) {
        const Portions::Item& portion = dough_portions().items[item];
        warm.push_back({portion.ingredient, portion.grams, celsius});
      }
    }
    MixingHeat heat;
    heat.watts_per_kg =
        mixing_watts_per_kg(setup_.schedule.machine ? Mixing::stand_mixer : Mixing::hand);
    heat.minutes = setup_.schedule.knead_minutes;
    heat.room_celsius = models_.kitchen.room_celsius;
    // A steel bowl of 0.7 kg for each kilogram: a bigger dough is mixed in a bigger bowl.
    heat.bowl_kj_per_k = 0.35 * dough_portions().total_grams() / 1000.0;
    dough_celsius_ =
        dough_temperature_celsius(warm, heat) + models_.kitchen.mixing_temperature_error;
    models_.dough.dough_celsius = dough_celsius_;

    dough_ = assess_dough(setup_.models.dough, dough_portions(), models_.dough);
    const auto put = [this](const char* name, const char* unit, const Lanes& values) {
      columns_.outcome(name, unit, values);
    };
    put("total_grams", "g", dough_.total_g);
    put("flour_grams", "g", dough_.flour_g);
    put("water_pct_flour", "pct_flour", dough_.water_pct_flour);
    put("effective_hydration", "pct_flour", dough_.effective_hydration_pct);
    put("absorption_pct", "pct_flour", dough_.absorption_pct);
    put("consistency_fu", "fu", dough_.consistency_fu);
    put("feel_score", "points", dough_.feel_score);
    put("sugar_pct_flour", "pct_flour", dough_.sugar_pct_flour);
    put("fat_pct_flour", "pct_flour", dough_.fat_pct_flour);
    put("salt_pct_flour", "pct_flour", dough_.salt_pct_flour);
    put("egg_pct_flour", "pct_flour", dough_.egg_pct_flour);
    put("yeast_pct_flour", "pct_flour", dough_.yeast_pct_flour);
    put("water_activity", "", dough_.water_activity);
    put("ph", "", dough_.ph);
    put("volume_ml", "ml", dough_.volume_ml);
    put("dough_celsius", "celsius", dough_celsius_);
    for (const auto& [id, pct] : dough_.bakers_pct) {
      columns_.outcome("baker_pct/" + id, "pct_flour", pct);
    }
    out_.flour_needed_g.push_back(flour_for_score(dough_, setup_.score_to_mix_to));
  }

  Lanes ambient_k(const PlannedProve& prove) const {
    const KitchenDraws& k = models_.kitchen;
    switch (prove.place) {
      case ProvePlace::warm:
        return max(k.room_celsius + k.warm_place_above_room, k.room_celsius) + k_zero_celsius_k;
      case ProvePlace::cold:
        return k.fridge_celsius + k_zero_celsius_k;
      case ProvePlace::stated:
        return prove.stated_celsius + k_zero_celsius_k;
      case ProvePlace::room:
        break;
    }
    return k.room_celsius + k_zero_celsius_k;
  }

  Prove prove_of(const PlannedProve& planned) const {
    Prove prove;
    prove.name = planned.name;
    prove.value = planned.volume_ratio;
    prove.ambient = {{0.0, ambient_k(planned)}};
    prove.gas_kept_before = planned.gas_kept_before;
    if (planned.in_pieces) {
      prove.piece_g = dough_.total_g / setup_.schedule.bake.pieces;
      prove.heat_transfer_w_per_m2k = 9.0;  // on a tray: bench and still air
    }
    return prove;
  }

  /// The preferment's own ripening, mixed into the start of the dough.
  RiseState start_of_dough(const RiseDough& rising) {
    RiseState start = start_of_rise(rising, dough_celsius_ + k_zero_celsius_k, models_.rise);
    if (!setup_.schedule.preferment_rest) {
      return start;
    }
    for (std::size_t i = 0; i < setup_.bowls.bowls.size(); ++i) {
      if (setup_.bowls.bowls[i].kind != PartKind::preferment || i == setup_.bowls.dough ||
          bowls_[i].portions.items.empty()) {
        continue;
      }
      const RiseDough sponge = rise_dough(bowls_[i].portions, storage());
      const RiseState raw =
          start_of_rise(sponge, models_.kitchen.room_celsius + k_zero_celsius_k, models_.rise);
      Prove rest = prove_of(*setup_.schedule.preferment_rest);
      rest.target = ProveTarget::minutes;
      rest.value = setup_.schedule.preferment_rest->stated_minutes->middle();
      RiseSettings settings;
      settings.pressure_pa = pressure_pa_[0];
      const RiseRun ripe = run_proves(sponge, raw, std::span(&rest, 1), models_.rise, settings);
      start = mix_in(start, raw, ripe.end, 1.0);
    }
    return start;
  }

  YeastStorage storage() const {
    YeastStorage out;
    out.months = setup_.kitchen.yeast_age_months.value_or(2.0);
    return out;
  }

  void rise() {
    const RiseDough rising = rise_dough(dough_portions(), storage());
    // The yeast wakes while the dough is mixed and kneaded; its time counts, its rise not.
    Prove mixing;
    mixing.name = "mixing";
    mixing.target = ProveTarget::minutes;
    mixing.value = setup_.schedule.knead_minutes + 3.0;
    mixing.ambient = {{0.0, models_.kitchen.room_celsius + k_zero_celsius_k}};
    std::vector<Prove> proves{mixing};
    double longest = 0.0;
    for (const PlannedProve& planned : setup_.schedule.proves) {
      proves.push_back(prove_of(planned));
      if (planned.stated_minutes) {
        longest = std::max(longest, planned.stated_minutes->high);
      }
    }
    RiseSettings settings;
    settings.pressure_pa = pressure_pa_[0];
    settings.trace_minutes = std::clamp(longest, 90.0, 1440.0);
    const RiseRun run = run_proves(rising, start_of_dough(rising), proves, models_.rise, settings);
    columns_.outcome("osmolality", "osmol_per_kg", rising.osmolality());
    for (std::size_t i = 0; i + 1 < run.proves.size(); ++i) {
      const ProveRun& prove = run.proves[i + 1];
      const std::string key = "prove/" + std::to_string(i);
      columns_.outcome(key + "/minutes", "minutes", prove.minutes_to_target);
      columns_.outcome(key + "/reached", "", select(prove.reached, 1.0, 0.0));
      columns_.outcome(key + "/celsius", "celsius",
                       prove.temperature_k.empty()
                           ? dough_celsius_
                           : prove.end.mean_temperature_k() - k_zero_celsius_k);
      if (const auto& stated = setup_.schedule.proves[i].stated_minutes;
          stated && !prove.volume_ratio.empty()) {
        const auto at =
            static_cast<std::size_t>(std::lround(stated->middle() * 60.0 / prove.sample_s));
        columns_.outcome(key + "/ratio_at_stated", "ratio",
                         prove.volume_ratio[std::min(at, prove.volume_ratio.size() - 1)]);
      }
      columns_.trace(key + "/volume_ratio", "ratio", prove.sample_s / 60.0, prove.volume_ratio);
      std::vector<Lanes> celsius;
      for (const Lanes& kelvin : prove.temperature_k) {
        celsius.push_back(kelvin - k_zero_celsius_k);
      }
      columns_.trace(key + "/celsius", "celsius", prove.sample_s / 60.0, celsius);
    }
    if (!run.proves.empty()) {
      const ProveRun& last = run.proves.back();
      const Lanes volume = last.start_volume_ml * last.volume_ratio_end;
      porosity_ = clamp(1.0 - rising.dense_ml / max(volume, 1.0), 0.05, 0.88);
      piece_k_ = last.end.mean_temperature_k();
    }
  }

  /// What goes round or into the pieces: filling grams over dough grams.
  Lanes filling_grams() const {
    Lanes grams = 0.0;
    for (std::size_t i = 0; i < bowls_.size(); ++i) {
      if (setup_.bowls.bowls[i].kind == PartKind::filling) {
        grams += bowls_[i].portions.total_grams();
      }
    }
    return grams;
  }

  Piece piece() const {
    const PlannedBake& plan = setup_.schedule.bake;
    Piece out;
    out.shape = plan.shape;
    const Lanes filling = filling_grams();
    // 2 % of the dough stays on bowl, bench and hands: common practice, no source.
    const Lanes dough =
        plan.piece_grams ? Lanes(*plan.piece_grams) : dough_.total_g * 0.98 / plan.pieces;
    const Lanes filled = filling / plan.pieces;
    out.mass_g = dough + filled;
    out.filling_share = min(filled / out.mass_g, 0.7);
    out.porosity = porosity_;
    out.start_k = piece_k_;
    out.dough = dough_figures(bowls_[setup_.bowls.dough].portions);
    out.neighbours = plan.neighbours;
    if (plan.tin && (plan.shape == PieceShape::tin_loaf || plan.shape == PieceShape::ring)) {
      out.length_mm = plan.tin->length_mm;
      out.width_mm = plan.tin->width_mm;
      out.diameter_mm = plan.tin->diameter_mm;
    }
    for (const Bowls::Bowl& bowl : setup_.bowls.bowls) {
      out.wash_factor = bowl.kind == PartKind::wash ? Lanes(1.5) : out.wash_factor;
    }
    return out;
  }

  DoneRule done_rule() const {
    // Enriched from 10 % sugar or fat on: done at a lower core; common practice.
    const Lanes rich = dough_.sugar_pct_flour + dough_.fat_pct_flour;
    DoneRule rule;
    rule.core_k = select(rich > 10.0, 363.15, 367.15);
    return rule;
  }

  void bake(const Piece& one) {
    const PlannedBake& plan = setup_.schedule.bake;
    Oven oven = oven_of(setup_.kitchen.oven.value_or(OvenKind::conventional),
                        plan.heats.front().celsius + k_zero_celsius_k, plan.bakeware);
    oven.phases.clear();
    double from = 0.0;
    double stated = 0.0;
    for (const PlannedHeat& heat : plan.heats) {
      OvenPhase phase;
      phase.from_minute = from;
      phase.set_point_k = heat.celsius + k_zero_celsius_k;
      oven.phases.push_back(phase);
      from += heat.minutes ? heat.minutes->middle() : 0.0;
      stated += heat.minutes ? heat.minutes->middle() : 0.0;
    }
    oven.room_k = models_.kitchen.room_celsius + k_zero_celsius_k;
    oven.pressure_pa = pressure_pa_;
    BakeOptions options;
    options.at_least_minutes = std::min(stated, 180.0);
    if (first_batch_) {
      // About ten pictures of a bake, with the colour of its inside.
      options.detail = BakeDetail::inside;
      options.cut_minutes = std::max(1.0, (stated > 0.0 ? stated : 30.0) / 10.0);
    }
    const BakeRun run = bake_piece(one, oven, done_rule(), models_.bake, options);
    if (!run.problem.empty()) {
      out_.problems.push_back(run.problem);
    }
    if (run.status == BakeStatus::impossible) {
      return;
    }
    const auto moment = [this](const std::string& key, const BakeMoment& at) {
      columns_.outcome(key + "/core_celsius", "celsius", at.core_k - k_zero_celsius_k);
      columns_.outcome(key + "/surface_celsius", "celsius", at.surface_k - k_zero_celsius_k);
      columns_.outcome(key + "/weight_loss_pct", "pct", at.weight_loss_pct);
      columns_.outcome(key + "/lightness", "L*", at.lightness);
      columns_.outcome(key + "/crust_mm", "mm", at.crust_mm);
    };
    loss_ = clamp(run.at_done.weight_loss_pct / 100.0, 0.0, 0.5);
    core_celsius_ = run.at_done.core_k - k_zero_celsius_k;
    out_.cuts = run.cuts;
    columns_.outcome("bake/minutes", "minutes", run.minutes_to_done);
    moment("bake/done", run.at_done);
    if (stated > 0) {
      moment("bake/stated", moment_at(run, stated));
    }
    std::vector<Lanes> core;
    std::vector<Lanes> surface;
    for (const BakeMoment& at : run.trace) {
      core.push_back(at.core_k - k_zero_celsius_k);
      surface.push_back(at.surface_k - k_zero_celsius_k);
    }
    columns_.trace("bake/core_celsius", "celsius", options.sample_minutes, core);
    columns_.trace("bake/surface_celsius", "celsius", options.sample_minutes, surface);
  }

  FinishPart finish_part(std::size_t index) const {
    const Part& part = setup_.recipe->parts[index];
    FinishPart out;
    out.name = part.name;
    out.kind = part.kind;
    out.portions = bowls_[index].portions;
    out.baked = part.kind == PartKind::dough || part.kind == PartKind::filling ||
                part.kind == PartKind::wash;
    for (const Step& step : part.steps) {
      out.boiled = out.boiled || step.kind == StepKind::boil;
      if (step.kind == StepKind::soak && step.minutes) {
        out.soak_hours = Lanes(step.minutes->middle() / 60.0);
        if (step.celsius) {
          out.soak_celsius = Lanes(step.celsius->middle());
        }
      }
    }
    const Bowls::Bowl& bowl = setup_.bowls.bowls[index];
    out.yield = bowl.yield_unknown != 0 ? draws_[bowl.yield_unknown] : Lanes(bowl.yield.p50());
    // The steps say where the filling goes; else the shape of the piece does.
    const FillingPlace by_shape = setup_.schedule.bake.shape == PieceShape::slice
                                      ? FillingPlace::rolled
                                      : FillingPlace::folded;
    out.place = part.kind == PartKind::topping
                    ? FillingPlace::open
                    : filling_place(setup_.models.finish, *setup_.recipe).value_or(by_shape);
    return out;
  }

  void finish() {
    std::vector<FinishPart> parts;
    for (std::size_t i = 0; i < bowls_.size(); ++i) {
      if (!bowls_[i].portions.items.empty()) {
        parts.push_back(finish_part(i));
      }
    }
    BakedPiece baked;
    baked.count = setup_.schedule.bake.pieces;
    baked.grams = piece_grams_ * (1.0 - loss_);
    baked.core_celsius = core_celsius_;
    baked.dough_loss = loss_;
    const PieceShape shape = setup_.schedule.bake.shape;
    baked.shape = shape == PieceShape::cluster || shape == PieceShape::tin_loaf ||
                          shape == PieceShape::sheet || shape == PieceShape::slice
                      ? CoolingShape::slab
                      : CoolingShape::ball;
    baked.effective_hydration = dough_.effective_hydration_pct;
    const FinishForecast out = finish_parts(setup_.models.finish, parts, baked, models_.finish);
    for (const FinishEntry& entry : out.entries) {
      const std::string key = "finish/" + std::string(entry.what) + "/" + entry.part;
      for (const FinishFigure& figure : entry.figures) {
        columns_.outcome(key + "/" + std::string(figure.name), "", figure.value);
      }
      if (entry.term) {
        columns_.outcome(key + "/term", "", *entry.term);
      }
      if (entry.term_on_warm_piece) {
        columns_.outcome(key + "/term_on_warm_piece", "", *entry.term_on_warm_piece);
      }
    }
    for (const FinishCaution& one : out.cautions) {
      out_.cautions.push_back({std::string(one.id), one.part, one.text,
                               sum(one.applies) / static_cast<double>(k_lane_count)});
    }
    out_.problems.insert(out_.problems.end(), out.outside.begin(), out.outside.end());
    for (const Problem& one : out.problems) {
      out_.problems.push_back(sentence(one));
    }
  }

  const ForecastSetup& setup_;
  BatchOutcome& out_;
  Columns columns_;
  bool first_batch_ = false;
  BatchDraws draws_;
  ModelDraws models_;
  std::vector<FilledBowl> bowls_;
  DoughState dough_;
  Lanes dough_celsius_ = 25.0;
  Lanes pressure_pa_ = k_standard_pressure_pa;
  Lanes porosity_ = 0.6;
  Lanes piece_k_ = 298.15;
  // As the piece leaves the oven; defaults stand in where there is none.
  Lanes piece_grams_ = 80.0;
  Lanes loss_ = 0.11;
  Lanes core_celsius_ = 93.0;
};

}  // namespace

BatchOutcome run_batch(const ForecastSetup& setup, std::size_t batch) {
  BatchOutcome out;
  BatchRun(setup, batch, out).run();
  return out;
}

}  // namespace maslin
