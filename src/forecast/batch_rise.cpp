// The proves of a batch.
#include <algorithm>
#include <cmath>

#include "forecast/batch_run.h"

namespace maslin {

Lanes BatchRun::ambient_k(const PlannedProve& prove) const {
  const KitchenDraws& k = models_.kitchen;
  switch (prove.place) {
    case ProvePlace::warm:
      // Nobody looks for a place above 35 degrees but in a room that is: common practice.
      return max(min(k.room_celsius + k.warm_place_above_room, 35.0), k.room_celsius) +
             k_zero_celsius_k;
    case ProvePlace::cold:
      return k.fridge_celsius + k_zero_celsius_k;
    case ProvePlace::stated:
      return prove.stated_celsius + k_zero_celsius_k;
    case ProvePlace::room:
      break;
  }
  return k.room_celsius + k_zero_celsius_k;
}

Prove BatchRun::prove_of(const PlannedProve& planned) const {
  Prove prove;
  prove.name = planned.name;
  prove.value = planned.for_minutes.value_or(planned.volume_ratio);
  prove.target = planned.for_minutes ? ProveTarget::minutes : ProveTarget::volume_ratio;
  prove.ambient = {{0.0, ambient_k(planned)}};
  prove.gas_kept_before = planned.gas_kept_before;
  if (planned.in_pieces) {
    prove.piece_g = dough_.total_g / setup_.schedule.bake.pieces;
    prove.heat_transfer_w_per_m2k = 9.0;  // on a tray: bench and still air
  }
  return prove;
}

RiseState BatchRun::start_of_dough(const RiseDough& rising) {
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

YeastStorage BatchRun::storage() const {
  YeastStorage out;
  out.months = setup_.kitchen.yeast_age_months.value_or(2.0);
  return out;
}

void BatchRun::rise() {
  const RiseDough rising = rise_dough(dough_portions(), storage());
  // The yeast wakes while the dough is mixed and kneaded; its time counts, its rise not.
  Prove mixing;
  mixing.name = "mixing";
  mixing.target = ProveTarget::minutes;
  mixing.value = setup_.schedule.knead_minutes + 3.0;
  mixing.ambient = {{0.0, models_.kitchen.room_celsius + k_zero_celsius_k}};
  std::vector<Prove> proves{mixing};
  double longest = setup_.options.prove_minutes_at_least;
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
  columns_.outcome("yeast_dead", "chance", select(models_.kitchen.yeast_alive < 0.0, 1.0, 0.0));
  columns_.outcome("osmolality", "osmol_per_kg", rising.osmolality());
  for (std::size_t i = 0; i + 1 < run.proves.size(); ++i) {
    const ProveRun& prove = run.proves[i + 1];
    const std::string key = "prove/" + std::to_string(i);
    columns_.outcome(key + "/minutes", "minutes", prove.minutes_to_target);
    columns_.outcome(key + "/ratio_at_end", "ratio", prove.volume_ratio_end);
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
    columns_.trace(key + "/celsius", "celsius", prove.sample_s / 60.0, std::move(celsius));
  }
  if (!run.proves.empty()) {
    const ProveRun& last = run.proves.back();
    const Lanes volume = last.start_volume_ml * last.volume_ratio_end;
    porosity_ = clamp(1.0 - rising.dense_ml / max(volume, 1.0), 0.05, 0.88);
    piece_k_ = last.end.mean_temperature_k();
  }
  // Soda and powder raise a dough in the oven to about twice its volume: soda breads and quick
  // breads weigh some 0.45 g/ml (from memory).
  constexpr double k_quick_bread_porosity = 0.5;
  if (dough_portions().grams_of_kind(IngredientKind::leavening)[0] > 0.0) {
    porosity_ = max(porosity_, k_quick_bread_porosity);
  }
}

}  // namespace maslin
