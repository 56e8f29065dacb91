// The proves of a batch.
#include <algorithm>
#include <cmath>
#include <limits>

#include "forecast/batch_run.h"
#include "rise/yeast.h"

namespace maslin {

namespace {

constexpr double k_freezer_k = 255.15;
constexpr double k_day_minutes = 1440.0;
/// So far a room's curve is followed; proves take no longer, but by the clock.
constexpr double k_days_followed = 7.0;
/// Still air of a home freezer, W/(m2 K): from memory, as for a baked piece.
constexpr double k_freezer_film = 12.0;

}  // namespace

Lanes BatchRun::room_celsius(double clock) const {
  const Lanes& figure = models_.kitchen.room_celsius;
  return setup_.room.changes() ? figure + setup_.room.at(clock) : figure;
}

Lanes BatchRun::ambient_k(const PlannedProve& prove, double clock) const {
  const KitchenDraws& k = models_.kitchen;
  const Lanes room = room_celsius(clock);
  switch (prove.place) {
    case ProvePlace::warm:
      // Nobody looks for a place above 35 degrees but in a room that is: common practice.
      return max(min(room + k.warm_place_above_room, 35.0), room) + k_zero_celsius_k;
    case ProvePlace::cold:
      return k.fridge_celsius + k_zero_celsius_k;
    case ProvePlace::stated:
      return prove.stated_celsius + k_zero_celsius_k;
    case ProvePlace::frozen:
      return k_freezer_k;
    case ProvePlace::room:
      break;
  }
  return room + k_zero_celsius_k;
}

void BatchRun::set_air(Prove& prove, const PlannedProve& planned, double clock_at_zero) const {
  prove.ambient = {{0.0, ambient_k(planned, clock_at_zero)}};
  const bool of_the_room = planned.place == ProvePlace::room || planned.place == ProvePlace::warm;
  if (!setup_.room.changes() || !of_the_room) {
    return;
  }
  prove.clock = AmbientClock::from_mixing;
  const double first_day = std::floor(clock_at_zero / k_day_minutes);
  for (double day = first_day; day <= first_day + k_days_followed; day += 1.0) {
    for (const RoomPoint& point : setup_.room.above) {
      const double clock = day * k_day_minutes + point.minutes;
      if (clock > clock_at_zero) {
        prove.ambient.push_back({clock - clock_at_zero, ambient_k(planned, clock)});
      }
    }
  }
}

Prove BatchRun::prove_of(const PlannedProve& planned, double clock_at_zero) const {
  Prove prove;
  prove.name = planned.name;
  prove.value = planned.for_minutes.value_or(planned.volume_ratio);
  prove.target = planned.for_minutes             ? ProveTarget::minutes
                 : planned.frost == Frost::thaws ? ProveTarget::thawed
                                                 : ProveTarget::volume_ratio;
  set_air(prove, planned, clock_at_zero);
  prove.gas_kept_before = planned.gas_kept_before;
  prove.freezes = planned.frost == Frost::freezes;
  if (planned.in_pieces) {
    prove.piece_g = dough_.total_g / setup_.schedule.bake.pieces;
    prove.heat_transfer_w_per_m2k = 9.0;  // on a tray: bench and still air
  }
  if (prove.freezes) {
    prove.heat_transfer_w_per_m2k = k_freezer_film;
  }
  return prove;
}

RiseState BatchRun::start_of_dough(const RiseDough& rising) {
  RiseState start = start_of_rise(rising, dough_celsius_ + k_zero_celsius_k, models_.rise);
  const std::vector<PlannedPreferment>& preferments = setup_.schedule.preferments;
  for (std::size_t number = 0; number < preferments.size(); ++number) {
    const std::size_t i = preferments[number].part;
    if (i >= bowls_.size() || i == setup_.bowls.dough || bowls_[i].portions.items.empty()) {
      continue;
    }
    const PlannedProve* planned = &preferments[number].rest;
    const RiseDough sponge = rise_dough(bowls_[i].portions, storage());
    const double minutes = planned->stated_minutes->middle();
    const double begins = setup_.begins_at - minutes;
    const RiseState raw =
        start_of_rise(sponge, room_celsius(begins) + k_zero_celsius_k, models_.rise);
    Prove rest = prove_of(*planned, begins);
    rest.target = ProveTarget::minutes;
    rest.value = minutes;
    RiseSettings settings;
    settings.pressure_pa = pressure_pa_[0];
    // Beyond its use far enough to see when it is ripe.
    constexpr double k_longest_look = 2160.0;
    settings.trace_minutes = std::clamp(
        std::max(2.0 * minutes, setup_.options.prove_minutes_at_least), 720.0, k_longest_look);
    const RiseRun ripe = run_proves(sponge, raw, std::span(&rest, 1), models_.rise, settings);
    put_preferment(number, sponge, raw, ripe.proves.front(), planned->volume_ratio);
    start = mix_in(start, raw, ripe.end, 1.0);
  }
  return start;
}

YeastStorage BatchRun::storage() const {
  // Common practice, no source: a packet of dry yeast has been open for two months, fresh yeast
  // was bought within the week. What the kitchen says is of its own kind of yeast; nobody
  // keeps fresh yeast for longer than six weeks.
  constexpr double k_dry_months = 2.0;
  constexpr double k_fresh_months = 0.25;
  constexpr double k_longest_fresh_months = 1.5;
  const Kitchen& kitchen = setup_.kitchen;
  const std::optional<double>& told = kitchen.yeast_age_months;
  const bool fresh = kitchen.yeast_kind == "fresh";
  const bool any = kitchen.yeast_kind.empty();
  YeastStorage out;
  out.months = told && !fresh ? *told : k_dry_months;
  out.fresh_months =
      told && (fresh || (any && *told <= k_longest_fresh_months)) ? *told : k_fresh_months;
  return out;
}

void BatchRun::rise() {
  RiseDough rising = rise_dough(dough_portions(), storage());
  if (setup_.bath && setup_.bath->stated) {
    const Lanes alive =
        yeast_surviving(Lanes(setup_.bath->celsius + k_zero_celsius_k), setup_.bath->minutes);
    rising.yeast_g *= alive;
    rising.wild_yeast_g *= alive;
  }
  // The yeast wakes while the dough is mixed and kneaded; its time counts, its rise not.
  Prove mixing;
  mixing.name = "mixing";
  mixing.target = ProveTarget::minutes;
  mixing.value = setup_.schedule.knead_minutes + 3.0;
  mixing.traced = false;
  mixing.ambient = {{0.0, room_celsius(setup_.begins_at) + k_zero_celsius_k}};
  std::vector<Prove> proves{mixing};
  double longest = setup_.options.prove_minutes_at_least;
  for (const PlannedProve& planned : setup_.schedule.proves) {
    const std::vector<double>& waits = setup_.options.prove_waits;
    const std::size_t number = proves.size() - 1;
    proves.push_back(
        prove_of(planned, setup_.begins_at + (number < waits.size() ? waits[number] : 0.0)));
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
    const std::string key = "prove/" + std::to_string(i);
    const ProveRun& prove = run.proves[i + 1];
    put_prove(key, prove);
    if (!setup_.schedule.proves[i].rises()) {
      columns_.outcome(key + "/frost", "", 1.0);
    }
    if (const auto& stated = setup_.schedule.proves[i].stated_minutes;
        stated && !prove.volume_ratio.empty()) {
      const auto at =
          static_cast<std::size_t>(std::lround(stated->middle() * 60.0 / prove.sample_s));
      columns_.outcome(key + "/ratio_at_stated", "ratio",
                       prove.volume_ratio[std::min(at, prove.volume_ratio.size() - 1)]);
    }
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

void BatchRun::put_prove(const std::string& key, const ProveRun& prove) {
  columns_.outcome(key + "/minutes", "minutes", prove.minutes_to_target);
  columns_.outcome(key + "/ratio_at_end", "ratio", prove.volume_ratio_end);
  columns_.outcome(key + "/reached", "", select(prove.reached, 1.0, 0.0));
  columns_.outcome(key + "/celsius", "celsius",
                   prove.temperature_k.empty() ? dough_celsius_
                                               : prove.end.mean_temperature_k() - k_zero_celsius_k);
  if (prove.thawed_minutes) {
    columns_.outcome(key + "/thawed_minutes", "minutes", *prove.thawed_minutes);
  }
  columns_.trace(key + "/volume_ratio", "ratio", prove.sample_s / 60.0, prove.volume_ratio);
  std::vector<Lanes> celsius;
  for (const Lanes& kelvin : prove.temperature_k) {
    celsius.push_back(kelvin - k_zero_celsius_k);
  }
  columns_.trace(key + "/celsius", "celsius", prove.sample_s / 60.0, std::move(celsius));
}

void BatchRun::put_preferment(std::size_t number, const RiseDough& sponge, const RiseState& raw,
                              const ProveRun& ripe, double ripe_ratio) {
  const std::string key = "preferment/" + std::to_string(number);
  const auto sugar = [](const RiseState& s) {
    return s.hexose_g + s.sucrose_g + s.maltose_g + s.latent_maltose_g;
  };
  columns_.outcome(key + "/ratio_at_end", "ratio", ripe.volume_ratio_end);
  columns_.outcome(key + "/celsius", "celsius", ripe.end.mean_temperature_k() - k_zero_celsius_k);
  columns_.outcome(key + "/ph", "", sponge.ph_with(ripe.end));
  columns_.outcome(key + "/acid_mmol_per_100g_flour", "mmol",
                   (sponge.ph - sponge.ph_with(ripe.end)) * sponge.buffer_mmol /
                       max(sponge.flour_g, 1e-9) * 100.0);
  columns_.outcome(key + "/sugar_spent_pct", "percent",
                   100.0 * (1.0 - sugar(ripe.end) / max(sugar(raw), 1e-9)));
  Lanes minutes = std::numeric_limits<double>::infinity();
  for (std::size_t i = ripe.volume_ratio.size() - 1; i-- > 0;) {
    const Lanes& before = ripe.volume_ratio[i];
    const Lanes& after = ripe.volume_ratio[i + 1];
    const Lanes share = (ripe_ratio - before) / max(after - before, 1e-12);
    const Mask here = (before < ripe_ratio) & (after >= ripe_ratio);
    minutes = select(here, (static_cast<double>(i) + share) * ripe.sample_s / 60.0, minutes);
  }
  columns_.outcome(key + "/ripe_minutes", "minutes", minutes);
  columns_.trace(key + "/volume_ratio", "ratio", ripe.sample_s / 60.0, ripe.volume_ratio);
  std::vector<Lanes> celsius;
  for (const Lanes& kelvin : ripe.temperature_k) {
    celsius.push_back(kelvin - k_zero_celsius_k);
  }
  columns_.trace(key + "/celsius", "celsius", ripe.sample_s / 60.0, std::move(celsius));
}

}  // namespace maslin
