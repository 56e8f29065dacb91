#include "forecast/diagnose.h"

#include <algorithm>
#include <cmath>

#include "forecast/embedded_table.h"
#include "forecast/lasting.h"
#include "forecast/mend.h"
#include "numerics/dense.h"
#include "numerics/normal.h"
#include "quantity/table.h"

namespace maslin {
namespace {

constexpr double k_quarter = 0.25;

Table faults() {
  return Table(forecast_data::embedded_table("faults.tsv"));
}

std::optional<std::size_t> row_of(const Table& table, std::string_view fault) {
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (table.cell(row, "fault") == fault) {
      return row;
    }
  }
  return std::nullopt;
}

/// One value per draw of a figure by its name in the tables, and its unit.
struct Figure {
  std::vector<double> values;
  std::string unit;
};

/// Minutes at which it was taken out: as seen, else as the recipe says.
std::optional<double> minutes_out(const Case& bake) {
  for (const Observation& one : bake.seen) {
    if (one.kind == ObservationKind::minutes_done && one.bound == Bound::is) {
      return one.value;
    }
  }
  double stated = 0.0;
  for (const PlannedHeat& heat : bake.setup.schedule.bake.heats) {
    stated += heat.minutes ? heat.minutes->middle() : 0.0;
  }
  return stated > 0 ? std::optional(stated) : std::nullopt;
}

/// Minutes of a prove: as the last sighting of it, else as the recipe says, else as it
/// would need.
std::optional<double> minutes_of_prove(const Case& bake, std::size_t prove) {
  std::optional<double> out;
  for (const Observation& one : bake.seen) {
    const bool first = prove == 0 && (one.prove.empty() || one.prove == "first");
    const bool last = prove + 1 == bake.setup.schedule.proves.size() && prove > 0 &&
                      (one.prove == "last" || one.prove == "second");
    if (one.kind == ObservationKind::volume_ratio && one.at_minutes && (first || last)) {
      out = std::max(out.value_or(0.0), *one.at_minutes);
    }
  }
  const auto& stated = bake.setup.schedule.proves[prove].stated_minutes;
  return out ? out : stated ? std::optional(stated->middle()) : std::nullopt;
}

std::optional<Figure> traced(const Case& bake, const std::string& name,
                             const std::optional<double>& minutes) {
  for (const Trace& trace : bake.run.ensemble.traces) {
    if (trace.name == name && minutes) {
      return Figure{trace_at(trace, *minutes), trace.unit};
    }
  }
  return std::nullopt;
}

/// "finish/glaze/liquid_g" is the first glaze's, whatever the part is called.
const Column* finish_column(const Ensemble& ensemble, const std::string& name) {
  const std::size_t slash = name.rfind('/');
  return ensemble.first_outcome(name.substr(0, slash + 1), name.substr(slash));
}

/// Whether it stayed in for more than a tenth beyond its due: a hot oven makes pieces hot
/// early, and that alone is not too long.
std::optional<Figure> over_long(const Case& bake) {
  const Column* due = bake.run.ensemble.column("bake/minutes");
  const auto out = minutes_out(bake);
  if (due == nullptr || !out) {
    return std::nullopt;
  }
  Figure figure{due->values, "chance"};
  for (double& one : figure.values) {
    one = *out > 1.1 * one ? 1.0 : 0.0;
  }
  return figure;
}

std::optional<Figure> figure_of(const Case& bake, const std::string& name) {
  const Ensemble& ensemble = bake.run.ensemble;
  constexpr std::string_view k_at_out = "bake/at/";
  if (name == "bake/over_long") {
    return over_long(bake);
  }
  const std::size_t proves = bake.setup.schedule.proves.size();
  if (name.starts_with(k_at_out)) {
    const std::string figure = name.substr(k_at_out.size());
    if (auto out = traced(bake, "bake/" + figure, minutes_out(bake))) {
      return out;
    }
    return figure_of(bake, "bake/done/" + figure);
  }
  if (name.ends_with("/ratio") && proves > 0) {
    const std::size_t prove = name == "prove/last/ratio" ? proves - 1 : 0;
    return traced(bake, "prove/" + std::to_string(prove) + "/volume_ratio",
                  minutes_of_prove(bake, prove));
  }
  const Column* column = ensemble.column(name);
  column =
      column == nullptr && name.starts_with("finish/") ? finish_column(ensemble, name) : column;
  return column == nullptr ? std::nullopt : std::optional(Figure{column->values, column->unit});
}

bool is_flat(const std::vector<double>& values) {
  return std::all_of(values.begin(), values.end(),
                     [&](double one) { return one == values.front(); });
}

/// Weights with the fault itself as a sighting: it is noticed when its figure is about a
/// spread or more out of line, and named for nothing now and then.
std::vector<double> weight_with_fault(const Case& bake, const Table& table, std::size_t row) {
  const std::vector<double>& weight = bake.run.ensemble.weight;
  const auto figure = figure_of(bake, std::string(table.cell(row, "outcome")));
  if (!figure || is_flat(figure->values)) {
    return weight;
  }
  constexpr double k_sds_in_band = 2.563;
  constexpr double k_for_nothing = 0.1;
  const Band before = band_of(figure->values, bake.weighing.before);
  const double spread = std::max(before.width() / k_sds_in_band, 1e-12);
  const double sign = table.cell(row, "direction") == "low" ? -1.0 : 1.0;
  std::vector<double> out = weight;
  double total = 0.0;
  for (std::size_t i = 0; i < out.size(); ++i) {
    const double off = sign * (figure->values[i] - before.p50) / spread;
    out[i] *= k_for_nothing + (1.0 - k_for_nothing) * standard_normal_share((off - 1.0) / 0.5);
    total += out[i];
  }
  for (double& one : out) {
    one /= total;
  }
  return out;
}

/// Chance that the figure lies in the quarter of its former range where it does harm.
double chance_in_quarter(const Figure& figure, bool high, const std::vector<double>& before,
                         const std::vector<double>& now) {
  const double edge = quantile_of(figure.values, before, high ? 1.0 - k_quarter : k_quarter);
  double out = 0.0;
  for (std::size_t i = 0; i < now.size(); ++i) {
    out += (high ? figure.values[i] > edge : figure.values[i] < edge) ? now[i] : 0.0;
  }
  return out;
}

bool has_phrase(const std::string& note, std::string_view phrase) {
  const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || c == '\''; };
  for (std::size_t at = note.find(phrase); at != std::string::npos;
       at = note.find(phrase, at + 1)) {
    const std::size_t end = at + phrase.size();
    if ((at == 0 || !is_letter(note[at - 1])) && (end == note.size() || !is_letter(note[end]))) {
      return true;
    }
  }
  return false;
}

}  // namespace

std::vector<std::string> fault_names() {
  const Table table = faults();
  std::vector<std::string> out;
  for (std::size_t row = 0; row < table.size(); ++row) {
    out.emplace_back(table.cell(row, "fault"));
  }
  return out;
}

std::vector<std::string> faults_in(std::string_view note) {
  std::string words(note);
  std::transform(words.begin(), words.end(), words.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  std::erase(words, '\'');
  const Table table = faults();
  std::vector<std::string> out;
  for (std::size_t row = 0; row < table.size(); ++row) {
    for (const std::string_view phrase : split(table.cell(row, "phrases"), '|')) {
      if (has_phrase(words, phrase)) {
        out.emplace_back(table.cell(row, "fault"));
        break;
      }
    }
  }
  return out;
}

std::optional<Diagnosis> diagnose(const Case& bake, const std::string& fault) {
  const Table table = faults();
  const auto row = row_of(table, fault);
  if (!row || bake.weighing.before.size() != bake.run.ensemble.draws()) {
    return std::nullopt;
  }
  const std::vector<double> now = weight_with_fault(bake, table, *row);
  const std::vector<double>& before = bake.weighing.before;
  Diagnosis out{fault, {}, {}};
  const Table causes(forecast_data::embedded_table("causes.tsv"));
  for (std::size_t i = 0; i < causes.size(); ++i) {
    if (causes.cell(i, "fault") != fault) {
      continue;
    }
    const std::string name(causes.cell(i, "of"));
    const std::string mend(causes.cell(i, "mend"));
    const auto figure = figure_of(bake, name);
    if (!figure || is_flat(figure->values)) {
      if (name == "-") {
        out.look_at.push_back(std::string(causes.cell(i, "cause")) + ": " + mend);
      }
      continue;
    }
    Cause cause;
    cause.cause = causes.cell(i, "cause");
    cause.figure = name;
    cause.unit = figure->unit;
    if (figure->unit == "chance") {
      cause.chance = dot(figure->values, now);
      cause.chance_before = dot(figure->values, before);
    } else {
      cause.chance = chance_in_quarter(*figure, causes.cell(i, "direction") == "high", before, now);
    }
    cause.expected = band_of(figure->values, before);
    cause.now = band_of(figure->values, now);
    cause.mend = mend;
    cause.source = causes.cell(i, "source");
    out.causes.push_back(std::move(cause));
  }
  std::stable_sort(out.causes.begin(), out.causes.end(),
                   [](const Cause& a, const Cause& b) { return a.chance > b.chance; });
  return out;
}

std::string change_of(const std::string& fault, const std::string& cause) {
  const Table causes(forecast_data::embedded_table("causes.tsv"));
  for (std::size_t i = 0; i < causes.size(); ++i) {
    if (causes.cell(i, "fault") == fault && causes.cell(i, "cause") == cause) {
      return std::string(causes.cell(i, "change"));
    }
  }
  return "";
}

namespace {

/// The fault's figure on another day of this kitchen. A longer bake is looked at where the
/// changed recipe ends it, a shorter one too.
std::optional<Band> figure_next(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
                                const std::string& name, std::string_view change,
                                const RunForecast& runs) {
  constexpr std::uint32_t k_draws = 512;
  ForecastOptions options;
  options.draws = k_draws;
  ForecastSetup setup = set_up_forecast(recipe, kitchen, pantry, options);
  mend_schedule(setup, change);
  const ForecastRun run = runs(setup);
  if (run.ensemble.draws() == 0) {
    return std::nullopt;
  }
  const auto figure = figure_of({setup, run, Weighing{}, {}}, name);
  return figure ? std::optional(band_of(figure->values, run.ensemble.weight)) : std::nullopt;
}

}  // namespace

void foresee_mends(Diagnosis& diagnosis, const Case& bake, const Pantry& pantry, std::size_t most,
                   const RunForecast& runs) {
  const Table table = faults();
  const auto row = row_of(table, diagnosis.fault);
  const std::string name(row ? table.cell(*row, "outcome") : "");
  if (name.empty() || bake.setup.recipe == nullptr) {
    return;
  }
  Kitchen kitchen = bake.setup.kitchen;
  kitchen.learnt = lessons_after(bake.setup, bake.weighing);
  std::optional<Band> as_it_is;
  for (Cause& cause : diagnosis.causes) {
    const std::string change = change_of(diagnosis.fault, cause.cause);
    if (change.empty() || most == 0) {
      continue;
    }
    --most;
    if (!as_it_is) {
      as_it_is = figure_next(*bake.setup.recipe, kitchen, pantry, name, "", runs);
    }
    const auto with = figure_next(mended(*bake.setup.recipe, pantry, change), kitchen, pantry, name,
                                  change, runs);
    if (as_it_is && with) {
      cause.effect = MendEffect{std::string(table.cell(*row, "words")),
                                std::string(table.cell(*row, "unit")), *as_it_is, *with};
    }
  }
}

}  // namespace maslin
