// Weighing and mixing a batch of eight draws.
#include "dough/temperature.h"
#include "forecast/batch_run.h"

namespace maslin {

BatchRun::BatchRun(const ForecastSetup& setup, std::size_t batch, BatchOutcome& out)
    : setup_(setup), out_(out), columns_(out), first_batch_(batch == 0) {
  DrawnBatch drawn =
      draw_batch(setup.unknowns, setup.scores, setup.aim,
                 {setup.options.seed, draws_in(setup, batch), batch, batch_count(setup)});
  draws_ = std::move(drawn.values);
  out.log_weight = drawn.log_weight;
  models_ = model_draws(setup.models, setup.kitchen, draws_, setup.first_model_unknown);
  for (std::size_t i = 1; i < setup.unknowns.size(); ++i) {
    columns_.unknown(setup.unknowns[i], draws_[i]);
  }
}

void BatchRun::run() {
  bowls_ = fill_bowls(setup_.bowls, draws_);
  pressure_pa_ = pressure_at_altitude_pa(setup_.kitchen.altitude_m.value_or(0.0));
  solve_flour();
  mix();
  rise();
  if (setup_.options.reach == ForecastReach::rise) {
    return;
  }
  const Piece one = piece();
  piece_grams_ = one.mass_g;
  const PlannedBake::Way way = setup_.schedule.bake.way;
  if (way == PlannedBake::Way::oven || way == PlannedBake::Way::steam) {
    bake(one);
  }
  finish();
}

void BatchRun::solve_flour() {
  const Bowls::Bowl& bowl = setup_.bowls.bowls[setup_.bowls.dough];
  for (std::size_t i = 0, item = 0; i < bowl.lines.size(); ++i) {
    const std::size_t items =
        bowl.lines[i].ingredient != nullptr ? 1 : bowls_[bowl.lines[i].part].portions.items.size();
    if (bowl.lines[i].solved) {
      Portions::Item& flour = dough_portions().items[item];
      const double target = feel_bounds(DoughFeel::soft).middle();
      flour.grams = dough_portions().total_grams();
      const Lanes others =
          assess_dough(setup_.models.dough, dough_portions(), models_.dough).flour_g - flour.grams;
      for (int pass = 0; pass < 3; ++pass) {
        const DoughState state = assess_dough(setup_.models.dough, dough_portions(), models_.dough);
        flour.grams = max(flour_for_score(state, target) - others, 1.0);
      }
      bowls_[setup_.bowls.dough].line_grams[i] = flour.grams;
      return;
    }
    item += items;
  }
}

Lanes BatchRun::poured_grams() const {
  const std::vector<LineAmount>& lines = setup_.bowls.bowls[setup_.bowls.dough].lines;
  Lanes grams = 0.0;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (lines[i].poured) {
      grams += bowls_[setup_.bowls.dough].line_grams[i];
    }
  }
  return grams;
}

void BatchRun::mix() {
  const Bowls::Bowl& bowl = setup_.bowls.bowls[setup_.bowls.dough];
  std::vector<WarmPortion> warm;
  std::optional<std::size_t> liquid;  // the heaviest that is poured, whose warmth is free
  std::size_t item = 0;
  for (const LineAmount& line : bowl.lines) {
    const std::size_t items =
        line.ingredient != nullptr ? 1 : bowls_[line.part].portions.items.size();
    const Lanes celsius = line.celsius ? Lanes(*line.celsius)
                          : line.warm  ? models_.kitchen.warm_liquid_celsius
                          : line.cold  ? models_.kitchen.fridge_celsius
                                       : room_celsius(setup_.begins_at);
    for (std::size_t i = 0; i < items; ++i, ++item) {
      const Portions::Item& portion = dough_portions().items[item];
      warm.push_back({portion.ingredient, portion.grams, celsius});
      if (line.poured && (!liquid || all(portion.grams > warm[*liquid].grams))) {
        liquid = item;
      }
    }
  }
  MixingHeat heat;
  heat.watts_per_kg =
      mixing_watts_per_kg(setup_.schedule.machine ? Mixing::stand_mixer : Mixing::hand);
  heat.minutes = setup_.schedule.knead_minutes;
  heat.room_celsius = room_celsius(setup_.begins_at);
  // A steel bowl of 0.7 kg for each kilogram: a bigger dough is mixed in a bigger bowl.
  heat.bowl_kj_per_k = 0.35 * dough_portions().total_grams() / 1000.0;
  dough_celsius_ = dough_temperature_celsius(warm, heat) + models_.kitchen.mixing_temperature_error;
  models_.dough.dough_celsius = dough_celsius_;
  if (liquid) {
    const Lanes wanted = k_wanted_dough_celsius - models_.kitchen.mixing_temperature_error;
    const WaterTemperature to_use =
        water_for_dough_temperature(warm, *liquid, heat, wanted, models_.kitchen.fridge_celsius);
    columns_.outcome("liquid_celsius", "celsius", to_use.celsius);
    columns_.outcome("liquid_ice_grams", "g", to_use.ice_g);
  }

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
  put("flour_left_grams", "g", dough_.flour_g - out_.flour_needed_g.back());
  const Lanes poured = poured_grams();
  if (poured[0] > 0.0) {
    put("poured_grams", "g", poured);
    // The same feel by the other hand: all the flour in, and the liquid by the feel.
    put("liquid_needed_grams", "g",
        max(poured + water_for_score(dough_, setup_.score_to_mix_to), 0.0));
  }
}

BatchOutcome run_batch(const ForecastSetup& setup, std::size_t batch) {
  BatchOutcome out;
  BatchRun(setup, batch, out).run();
  return out;
}

}  // namespace maslin
