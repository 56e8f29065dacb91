// The bake of a batch.
#include <algorithm>

#include "forecast/batch_run.h"
#include "forecast/done_sign.h"
#include "forecast/step_words.h"

namespace maslin {

namespace {

bool spread_flat(PieceShape shape) {
  return shape == PieceShape::flat || shape == PieceShape::sheet;
}

/// Whether a step before the bake names this part.
bool named_before_bake(const Recipe& recipe, std::string_view name) {
  const std::string wanted = lower(name);
  for (const Part& part : recipe.parts) {
    for (const Step& step : part.steps) {
      if (step.kind == StepKind::bake) {
        break;
      }
      if (has(lower(step.text), wanted)) {
        return true;
      }
    }
  }
  return false;
}

}  // namespace

bool BatchRun::topped_with(std::size_t bowl) const {
  // What lies on a flat bread is baked with it; on others it may come after the oven, unless a
  // step before says otherwise.
  const Bowls::Bowl& one = setup_.bowls.bowls[bowl];
  // What is nearly all water is a bath, a spray or a brine, and does not stay.
  if (one.kind != PartKind::topping ||
      any(dough_figures(bowls_[bowl].portions).water_share > Lanes(0.93))) {
    return false;
  }
  return spread_flat(setup_.schedule.bake.shape) || named_before_bake(*setup_.recipe, one.name);
}

Lanes BatchRun::topping_grams() const {
  Lanes grams = 0.0;
  for (std::size_t i = 0; i < bowls_.size(); ++i) {
    grams += topped_with(i) ? bowls_[i].portions.total_grams() : Lanes(0.0);
  }
  return grams;
}

bool BatchRun::covered() const {
  // From about a quarter of the dough on a topping covers it: 3 mm on a dough of 12.
  return all(topping_grams() >= 0.25 * dough_.total_g);
}

Lanes BatchRun::filling_grams() const {
  // What is spread thinly on a flat bread is baked with it; on others it is a little scattered.
  Lanes grams = spread_flat(setup_.schedule.bake.shape) && !covered() ? topping_grams() : 0.0;
  for (std::size_t i = 0; i < bowls_.size(); ++i) {
    if (setup_.bowls.bowls[i].kind == PartKind::filling) {
      grams += bowls_[i].portions.total_grams();
    }
  }
  return grams;
}

Piece BatchRun::piece() const {
  const PlannedBake& plan = setup_.schedule.bake;
  Piece out;
  out.shape = plan.shape;
  const Lanes filling = filling_grams();
  // 2 % of the dough stays on bowl, bench and hands: common practice, no source.
  const Lanes dough =
      plan.piece_grams ? Lanes(*plan.piece_grams) : dough_.total_g * 0.98 / plan.pieces;
  const Lanes filled = filling / plan.pieces;
  const Lanes topped = covered() ? topping_grams() / plan.pieces : Lanes(0.0);
  out.mass_g = dough + filled + topped;
  out.filling_share = min(filled / out.mass_g, 0.7);
  out.topping_share = min(topped / out.mass_g, 0.7);
  // Rolled up and sliced, or spread, it lies in thin layers; else in the middle.
  const bool within = plan.shape != PieceShape::slice && !spread_flat(plan.shape);
  Lanes most = 0.0;
  for (std::size_t i = 0; within && i < bowls_.size(); ++i) {
    const Lanes grams = bowls_[i].portions.total_grams();
    if (setup_.bowls.bowls[i].kind == PartKind::filling && all(grams > most)) {
      most = grams;
      out.filling = dough_figures(bowls_[i].portions);
    }
  }
  // The heaviest of what lies on it stands for all of it.
  Lanes heaviest = 0.0;
  for (std::size_t i = 0; i < bowls_.size(); ++i) {
    const Lanes grams = bowls_[i].portions.total_grams();
    if (covered() && topped_with(i) && all(grams > heaviest)) {
      heaviest = grams;
      out.topping = dough_figures(bowls_[i].portions);
    }
  }
  out.porosity = porosity_;
  out.start_k = piece_k_;
  out.dough = dough_figures(bowls_[setup_.bowls.dough].portions);
  out.neighbours = plan.neighbours;
  // A flat dough fills its tray, so that the tray says how thick it lies.
  const bool fills = plan.shape == PieceShape::tin_loaf || plan.shape == PieceShape::ring ||
                     (!within && plan.shape != PieceShape::slice && plan.pieces <= 1.0);
  if (plan.tin && fills) {
    out.length_mm = plan.tin->length_mm;
    out.width_mm = plan.tin->width_mm;
    out.diameter_mm = plan.tin->diameter_mm;
    out.tin_depth_mm = plan.tin->depth_mm;
  }
  for (const Bowls::Bowl& bowl : setup_.bowls.bowls) {
    out.wash_factor = bowl.kind == PartKind::wash ? Lanes(1.5) : out.wash_factor;
  }
  return out;
}

DoneRule BatchRun::done_rule(const Piece& one) const {
  const PlannedBake& plan = setup_.schedule.bake;
  if (plan.way == PlannedBake::Way::steam) {
    // Nothing browns in steam: done is when the starch of the middle has set, rich or lean. A bun
    // in steam is hot so fast that its core has 90 degrees minutes before that.
    DoneRule rule;
    rule.by = DoneBy::starch;
    return rule;
  }
  // Enriched from 10 % sugar or fat on: done at a lower core; common practice.
  const Lanes rich = dough_.sugar_pct_flour + dough_.fat_pct_flour;
  // A fifth of sugar and fat makes a crumb that is wanted soft; common practice.
  const bool enriched = all(rich >= Lanes(20.0));
  const bool hidden = all(filling_grams() + topping_grams() >= 0.25 * dough_.total_g);
  DoneRule rule = done_rule_of(
      plan, select(rich > 10.0, 363.15, 367.15) + models_.kitchen.done_core_k, enriched, hidden);
  if (one.topping && all(one.topping->water_share > Lanes(0.5))) {
    // A wet layer shows no colour and, drying, keeps what lies under it below a bare crumb's core:
    // there a dough is baked when its starch has set.
    rule.by = DoneBy::starch;
  }
  return rule;
}

void BatchRun::bake(const Piece& one) {
  const PlannedBake& plan = setup_.schedule.bake;
  const OvenKind kind = plan.way == PlannedBake::Way::steam
                            ? OvenKind::steamer
                            : setup_.kitchen.oven.value_or(OvenKind::conventional);
  Oven oven = oven_of(kind, plan.heats.front().celsius + k_zero_celsius_k, plan.bakeware);
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
  BakeUnknowns unknowns = models_.bake;
  if (plan.way == PlannedBake::Way::steam) {
    unknowns.oven_offset_k = 0.0;  // no dial errs about boiling water
    // The same tenth of air among the steam at any height.
    oven.figures.vapour_pa *= pressure_pa_[0] / k_standard_pressure_pa;
  }
  BakeOptions options;
  options.at_least_minutes =
      std::min(std::max(stated, setup_.options.bake_minutes_at_least), 180.0);
  if (first_batch_) {
    // About ten pictures of a bake, with the colour of its inside.
    options.detail = BakeDetail::inside;
    options.cut_minutes = std::max(1.0, (stated > 0.0 ? stated : 30.0) / 10.0);
  }
  const DoneRule rule = done_rule(one);
  const BakeRun run = bake_piece(one, oven, rule, unknowns, options);
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
  if (first_batch_) {
    out_.bake = DrawnBake{one, oven, unknowns, rule, run.minutes_to_done};
  }
  columns_.outcome("bake/minutes", "minutes", run.minutes_to_done);
  moment("bake/done", run.at_done);
  if (stated > 0) {
    moment("bake/stated", moment_at(run, stated));
  }
  const Lanes grams = one.mass_g * models_.bake.mass_factor;
  columns_.outcome("bake/piece_grams", "g", grams);
  const PieceSize size = piece_size(one, models_.bake.mass_factor);
  // A free piece springs in all directions, one in a tin upwards alone.
  const Lanes upward = pow(run.at_done.volume_ratio, 1.0 - 2.0 / 3.0 * size.spring_along);
  columns_.outcome("bake/height_mm", "mm", 1000.0 * size.height_m * upward);
  const auto trace = [&](const char* name, const char* unit, const auto& of) {
    std::vector<Lanes> samples;
    samples.reserve(run.trace.size());
    for (const BakeMoment& at : run.trace) {
      samples.push_back(of(at));
    }
    columns_.trace(name, unit, options.sample_minutes, std::move(samples));
  };
  trace("bake/core_celsius", "celsius",
        [](const BakeMoment& at) { return at.core_k - k_zero_celsius_k; });
  trace("bake/surface_celsius", "celsius",
        [](const BakeMoment& at) { return at.surface_k - k_zero_celsius_k; });
  trace("bake/lightness", "L*", [](const BakeMoment& at) { return at.lightness; });
  trace("bake/weight_loss_pct", "pct", [](const BakeMoment& at) { return at.weight_loss_pct; });
}

}  // namespace maslin
