#include "forecast/seen.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "dough/feel.h"
#include "forecast/embedded_table.h"
#include "forecast/seen_glaze.h"
#include "numerics/lanes.h"
#include "quantity/table.h"

namespace maslin {
namespace {

constexpr double k_open = std::numeric_limits<double>::infinity();

const Trace* trace_named(const Ensemble& ensemble, const std::string& name) {
  for (const Trace& one : ensemble.traces) {
    if (one.name == name) {
      return &one;
    }
  }
  return nullptr;
}

/// From the words of an observation to the values the draws expect.
class Expecting {
 public:
  Expecting(const ForecastSetup& setup, const Ensemble& ensemble, const Observation& one,
            std::span<const Observation> all)
      : setup_(setup), ensemble_(ensemble), one_(one), all_(all) {}

  std::optional<std::vector<double>> values() const {
    switch (one_.kind) {
      case ObservationKind::volume_ratio:
        return risen();
      case ObservationKind::minutes_done:
        return outcome("bake/minutes");
      case ObservationKind::core_celsius:
        return baked("core_celsius");
      case ObservationKind::crust:
      case ObservationKind::crust_lightness:
        return baked("lightness");
      case ObservationKind::dough_celsius:
        return dough_celsius();
      case ObservationKind::room_celsius:
        return room_celsius();
      case ObservationKind::flour_left_grams:
        return outcome("flour_left_grams");
      case ObservationKind::feel:
        return outcome("feel_score");
      case ObservationKind::mass_before_grams:
        return mass(false);
      case ObservationKind::mass_after_grams:
        return mass(true);
      case ObservationKind::height:
        return outcome("bake/height_mm");
      case ObservationKind::glaze:
        return glaze_pa_s(setup_, ensemble_, one_.value);
      case ObservationKind::score:
        break;
    }
    return std::nullopt;
  }

  bool read_off_a_jar() const {
    for (const char* word : {"jar", "the mark", "band", " ml", " cm", " mm"}) {
      if (one_.text.find(word) != std::string::npos) {
        return true;
      }
    }
    return false;
  }

 private:
  std::optional<std::vector<double>> outcome(const char* name) const {
    const Column* column = ensemble_.column(name);
    return column == nullptr ? std::nullopt : std::optional(column->values);
  }

  /// Which of the recipe's proves is meant: the first, unless the words say otherwise.
  std::optional<std::string> prove_key() const {
    if (one_.prove == "preferment") {
      return preferment_key();
    }
    std::size_t number = one_.prove == "second" ? 1 : one_.prove == "third" ? 2 : 0;
    if (one_.prove == "last") {
      while (rise_number(setup_.schedule, number + 1)) {
        ++number;
      }
    }
    const auto at = rise_number(setup_.schedule, number);
    return at ? std::optional("prove/" + std::to_string(*at)) : std::nullopt;
  }

  /// Of several the one whose name is in the note, else the first.
  std::optional<std::string> preferment_key() const {
    const std::vector<PlannedPreferment>& all = setup_.schedule.preferments;
    std::size_t at = 0;
    for (std::size_t i = all.size(); i-- > 0;) {
      at = one_.text.find(setup_.recipe->parts[all[i].part].name) != std::string::npos ? i : at;
    }
    return all.empty() ? std::nullopt : std::optional("preferment/" + std::to_string(at));
  }

  /// The volume as this person sees it: one who calls a dough doubled early sees more growth
  /// than there is. A jar's mark is seen alike by all.
  std::optional<std::vector<double>> risen() const {
    const auto key = prove_key();
    const Trace* trace = key ? trace_named(ensemble_, *key + "/volume_ratio") : nullptr;
    if (trace == nullptr || !one_.at_minutes) {
      return std::nullopt;
    }
    std::vector<double> out = trace_at(*trace, *one_.at_minutes);
    const Column* eye = ensemble_.column("eye");
    for (std::size_t i = 0; i < out.size() && eye != nullptr && !read_off_a_jar(); ++i) {
      out[i] = 1.0 + (out[i] - 1.0) / std::max(eye->values[i], 0.1);
    }
    return out;
  }

  std::optional<std::vector<double>> dough_celsius() const {
    const auto key = prove_key();
    const Trace* trace = key ? trace_named(ensemble_, *key + "/celsius") : nullptr;
    if (one_.at_minutes && trace != nullptr) {
      return trace_at(*trace, *one_.at_minutes);
    }
    return one_.prove == "preferment" ? std::nullopt : outcome("dough_celsius");
  }

  /// The room at the hour: a look at what has no minute is one at the mixing.
  std::optional<std::vector<double>> room_celsius() const {
    auto out = outcome("room_celsius");
    if (!out || !setup_.room.changes()) {
      return out;
    }
    const double above =
        setup_.room.at(setup_.begins_at + minutes_before_prove() + one_.at_minutes.value_or(0.0));
    for (double& one : *out) {
      one += above;
    }
    return out;
  }

  /// From the mixing to the prove that the note is of, in the middle.
  double minutes_before_prove() const {
    const auto key = one_.prove.empty() ? std::nullopt : prove_key();
    double out = 0.0;
    for (std::size_t i = 0; key && i < setup_.schedule.proves.size(); ++i) {
      const std::string before = "prove/" + std::to_string(i);
      if (*key == before || one_.prove == "preferment") {
        break;
      }
      out += ensemble_.band(before + "/minutes").p50;
    }
    return out;
  }

  /// When the piece was looked at: as said, else when it was done, else when it was to be.
  std::optional<double> bake_minutes() const {
    if (one_.at_minutes) {
      return one_.at_minutes;
    }
    for (const Observation& other : all_) {
      if (other.kind == ObservationKind::minutes_done && other.bound == Bound::is) {
        return other.value;
      }
    }
    double stated = 0.0;
    for (const PlannedHeat& heat : setup_.schedule.bake.heats) {
      stated += heat.minutes ? heat.minutes->middle() : 0.0;
    }
    return stated > 0 ? std::optional(stated) : std::nullopt;
  }

  std::optional<std::vector<double>> baked(const std::string& figure) const {
    const Trace* trace = trace_named(ensemble_, "bake/" + figure);
    const auto minutes = bake_minutes();
    if (trace == nullptr) {
      return std::nullopt;
    }
    return minutes ? trace_at(*trace, *minutes) : outcome(("bake/done/" + figure).c_str());
  }

  /// Grams of one piece or of all, whichever is nearer what was weighed; as they went in or
  /// as they came out. A weight before stands for the mass that lost water after.
  std::optional<std::vector<double>> mass(bool after) const {
    auto grams = outcome("bake/piece_grams");
    if (!grams) {
      return std::nullopt;
    }
    const double piece = ensemble_.band("bake/piece_grams").p50;
    const double all = piece * setup_.schedule.bake.pieces;
    const double times = one_.value * one_.value > piece * all ? setup_.schedule.bake.pieces : 1.0;
    for (double& one : *grams) {
      one *= times;
    }
    const auto loss = after ? baked("weight_loss_pct") : std::nullopt;
    if (after && !loss) {
      return std::nullopt;
    }
    for (std::size_t i = 0; after && i < grams->size(); ++i) {
      (*grams)[i] = (mass_before().value_or((*grams)[i])) * (1.0 - (*loss)[i] / 100.0);
    }
    return grams;
  }

  std::optional<double> mass_before() const {
    for (const Observation& other : all_) {
      if (other.kind == ObservationKind::mass_before_grams && other.value > one_.value &&
          other.value < 2.0 * one_.value) {
        return other.value;
      }
    }
    return std::nullopt;
  }

  const ForecastSetup& setup_;
  const Ensemble& ensemble_;
  const Observation& one_;
  std::span<const Observation> all_;
};

const SightingError* error_of(const std::vector<SightingError>& errors, std::string_view kind) {
  for (const SightingError& one : errors) {
    if (one.kind == kind) {
      return &one;
    }
  }
  return nullptr;
}

/// The viscosities that a word for a glaze covers, as logarithms; "just" is its thin edge.
bool set_glaze_bounds(const FinishTables& tables, std::string_view word, Sighting& out) {
  constexpr std::string_view k_just = "just ";
  const bool just = word.starts_with(k_just);
  const std::string_view id = just ? word.substr(k_just.size()) : word;
  for (const ThicknessTerm& term : tables.terms) {
    if (term.id == id) {
      out.low = term.from_pa_s > 0.0 ? log_same(term.from_pa_s) : -k_open;
      out.high = just ? out.low : &term == &tables.terms.back() ? k_open : log_same(term.to_pa_s);
      return !just || term.from_pa_s > 0.0;
    }
  }
  return false;
}

/// Between which values the truth was seen to lie.
bool set_bounds(const FinishTables& tables, const Observation& one, Sighting& out) {
  if (one.kind == ObservationKind::glaze) {
    return set_glaze_bounds(tables, one.word, out);
  }
  if (one.kind == ObservationKind::feel) {
    const auto feel = feel_from(one.word);
    const FeelBounds bounds = feel ? feel_bounds(*feel) : FeelBounds{};
    out.low = feel == DoughFeel::very_stiff ? -k_open : bounds.low;
    out.high = feel == DoughFeel::batter ? k_open : bounds.high;
    return feel.has_value();
  }
  if (one.kind == ObservationKind::crust) {
    const LightnessBounds bounds = crust_bounds(crust_from(one.word));
    out.low = bounds.low > 0 ? bounds.low : -k_open;
    out.high = bounds.high < 100 ? bounds.high : k_open;
    return crust_from(one.word) != Crust::none;
  }
  if (one.kind == ObservationKind::crust_lightness) {
    // Past the ends of the classes a colour says no more than they do: flour, or soot.
    const LightnessBounds pale = crust_bounds(Crust::pale);
    const LightnessBounds burnt = crust_bounds(Crust::burnt);
    out.low = one.value < burnt.high ? -k_open : std::min(one.value, pale.low);
    out.high = one.value > pale.low ? k_open : std::max(one.value, burnt.high);
    return true;
  }
  if (out.logarithm && one.value <= 0) {
    return false;
  }
  const double value = out.logarithm ? log_same(one.value) : one.value;
  out.low = one.bound == Bound::below ? -k_open : value;
  out.high = one.bound == Bound::above ? k_open : value;
  return std::isfinite(value);
}

/// A whole ratio is a goal, and what was seen is the minute at which the dough met it; a broken
/// one is what was seen at that minute.
bool is_goal_met(const Observation& one) {
  return one.kind == ObservationKind::volume_ratio && one.bound == Bound::is && one.at_minutes &&
         *one.at_minutes > 0.0 && one.value >= 2.0 && one.value == std::floor(one.value);
}

/// How fast the logarithm of the ratio moves with that of time at the moment of the note, beside
/// the mean over the draws.
std::vector<double> pace_at(const ForecastSetup& setup, const Ensemble& ensemble,
                            const Observation& one, std::span<const Observation> all) {
  constexpr double k_apart = 0.04;  // of the time, to either side
  // A dough that stands still, or falls, may be noticed all the same.
  constexpr double k_least = 0.05;
  const auto ratios = [&](double share) {
    Observation then = one;
    then.at_minutes = *one.at_minutes * share;
    return *Expecting(setup, ensemble, then, all).values();
  };
  std::vector<double> out = ratios(1.0 + k_apart);
  const std::vector<double> before = ratios(1.0 - k_apart);
  double mean = 0.0;
  for (std::size_t i = 0; i < out.size(); ++i) {
    out[i] = std::max(log_same(std::max(out[i], 1e-3) / std::max(before[i], 1e-3)), 0.0);
    mean += ensemble.weight[i] * out[i];
  }
  for (double& pace : out) {
    pace = mean > 0.0 ? std::max(pace / mean, k_least) : 1.0;
  }
  return out;
}

}  // namespace

std::vector<SightingError> sighting_errors() {
  const Table table(forecast_data::embedded_table("observation_errors.tsv"));
  std::vector<SightingError> out;
  for (std::size_t row = 0; row < table.size(); ++row) {
    out.push_back({std::string(table.cell(row, "kind")), table.cell(row, "scale") == "log",
                   table.number(row, "sd", 1.0), table.number(row, "misread", 0.03),
                   table.number(row, "late")});
  }
  return out;
}

std::optional<Sighting> sighting_of(const ForecastSetup& setup, const Ensemble& ensemble,
                                    const std::vector<SightingError>& errors,
                                    const Observation& one, std::span<const Observation> all) {
  const Expecting expecting(setup, ensemble, one, all);
  auto expected = expecting.values();
  const bool jar = one.kind == ObservationKind::volume_ratio && expecting.read_off_a_jar();
  const SightingError* error =
      error_of(errors, jar ? "volume_in_jar" : observation_kind_name(one.kind));
  if (!expected || error == nullptr) {
    return std::nullopt;
  }
  Sighting out;
  out.logarithm = error->logarithm;
  out.sd = error->sd;
  const SightingError* questioned = error_of(errors, "questioned");
  out.misread =
      one.question.empty() || questioned == nullptr ? error->misread : questioned->misread;
  if (!set_bounds(setup.models.finish, one, out)) {
    return std::nullopt;
  }
  // A piece is found done at a look; it was so at some time since the last.
  out.low -= one.bound == Bound::is ? error->late : 0.0;
  out.expected = std::move(*expected);
  for (double& value : out.expected) {
    value = out.logarithm ? log_same(std::max(value, 1e-3)) : value;
  }
  if (is_goal_met(one)) {
    out.pace = pace_at(setup, ensemble, one, all);
  }
  return out;
}

bool is_of_bake(ObservationKind kind) {
  return kind == ObservationKind::minutes_done || kind == ObservationKind::core_celsius ||
         kind == ObservationKind::crust || kind == ObservationKind::crust_lightness ||
         kind == ObservationKind::mass_after_grams || kind == ObservationKind::height;
}

ForecastOptions followed(ForecastOptions options, std::span<const Observation> seen) {
  for (const Observation& one : seen) {
    double& at_least =
        is_of_bake(one.kind) ? options.bake_minutes_at_least : options.prove_minutes_at_least;
    at_least = std::max(at_least, one.at_minutes.value_or(0.0));
    if (one.kind == ObservationKind::minutes_done) {
      at_least = std::max(at_least, one.value);
    }
  }
  return options;
}

}  // namespace maslin
