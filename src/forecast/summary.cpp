#include "forecast/summary.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "bake/bake.h"
#include "forecast/embedded_table.h"
#include "forecast/summary_rise.h"
#include "forecast/worth_measuring.h"
#include "numerics/dense.h"
#include "quantity/table.h"

namespace maslin {
namespace {

Shares sorted(const std::map<std::string, double>& shares) {
  Shares out(shares.begin(), shares.end());
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return a.second > b.second; });
  return out;
}

/// The class of the middle draw first, the rest by their shares: the classes are not
/// equally wide, so the likeliest one of a wide spread need not be where its middle lies.
Shares feel_of(const Ensemble& ensemble, const Column& score) {
  std::map<std::string, double> shares;
  for (std::size_t i = 0; i < score.values.size(); ++i) {
    shares[std::string(feel_name(feel_at(score.values[i])))] += ensemble.weight[i];
  }
  Shares out = sorted(shares);
  const std::string_view middle = feel_name(feel_at(ensemble.band(score).p50));
  std::stable_partition(out.begin(), out.end(),
                        [middle](const auto& share) { return share.first == middle; });
  return out;
}

Shares crust_shares(const Ensemble& ensemble, const Column& lightness) {
  std::map<std::string, double> shares;
  for (std::size_t i = 0; i < lightness.values.size(); ++i) {
    shares[std::string(crust_name(crust_of(lightness.values[i])))] += ensemble.weight[i];
  }
  return sorted(shares);
}

/// Flour that this recipe holds, g, by the lines at the middle of their amounts.
double flour_as_written(const ForecastSetup& setup) {
  double grams = 0.0;
  for (const LineAmount& line : setup.bowls.bowls[setup.bowls.dough].lines) {
    if (line.ingredient != nullptr && line.ingredient->kind == IngredientKind::flour) {
      grams += line.grams.p50();
    }
  }
  return grams;
}

std::vector<Lanes> in_lanes(const std::vector<double>& values) {
  std::vector<Lanes> out(values.size() / k_lane_count);
  for (std::size_t i = 0; i < out.size() * k_lane_count; ++i) {
    out[i / k_lane_count].set(i % k_lane_count, values[i]);
  }
  return out;
}

DoughSummary dough_of(const ForecastSetup& setup, const ForecastRun& run) {
  const Ensemble& e = run.ensemble;
  DoughSummary out;
  out.total_grams = e.band("total_grams");
  out.flour_grams = e.band("flour_grams");
  constexpr std::string_view k_prefix = "baker_pct/";
  for (const Column& column : e.outcomes) {
    if (column.name.rfind(k_prefix, 0) == 0) {
      out.bakers_pct.emplace_back(column.name.substr(k_prefix.size()), e.band(column));
    }
  }
  out.water_pct_flour = e.band("water_pct_flour");
  out.effective_hydration = e.band("effective_hydration");
  out.absorption_pct = e.band("absorption_pct");
  out.feel_score = e.band("feel_score");
  if (const Column* score = e.column("feel_score")) {
    out.feel = feel_of(e, *score);
    if (const auto feel = feel_from(out.feel.front().first)) {
      out.feel_words = feel_words(*feel);
    }
  }
  out.sugar_pct_flour = e.band("sugar_pct_flour");
  out.fat_pct_flour = e.band("fat_pct_flour");
  out.salt_pct_flour = e.band("salt_pct_flour");
  out.egg_pct_flour = e.band("egg_pct_flour");
  out.yeast_pct_flour = e.band("yeast_pct_flour");
  out.water_activity = e.band("water_activity");
  out.ph = e.band("ph");
  out.celsius = e.band("dough_celsius");
  out.volume_ml = e.band("volume_ml");
  if (e.column("liquid_celsius") != nullptr) {
    out.liquid = LiquidWarmth{e.band("liquid_celsius"), e.band("liquid_ice_grams")};
  }
  const double written = flour_as_written(setup);
  const DoughFeel likely = out.feel.empty()
                               ? DoughFeel::soft
                               : feel_from(out.feel.front().first).value_or(DoughFeel::soft);
  // A dough meant to be poured or folded is not to be stiffened to soft.
  const bool to_be_kneaded =
      likely != DoughFeel::batter && (likely != DoughFeel::slack || setup.schedule.kneaded);
  const DoughFeel wanted = feel_at(setup.score_to_mix_to);
  if (written > 0 && to_be_kneaded) {
    out.hold_back =
        hold_back(HeldBack::flour, wanted, run.flour_needed_g, in_lanes(e.weight), written);
  }
  const Column* liquid = e.column("liquid_needed_grams");
  if (to_be_kneaded && liquid != nullptr) {
    out.hold_back_liquid = hold_back(HeldBack::liquid, wanted, in_lanes(liquid->values),
                                     in_lanes(e.weight), e.band("poured_grams").p50);
  }
  return out;
}

BakeMomentSummary moment_of(const Ensemble& e, const std::string& key) {
  BakeMomentSummary out;
  out.core_celsius = e.band(key + "/core_celsius");
  out.surface_celsius = e.band(key + "/surface_celsius");
  out.weight_loss_pct = e.band(key + "/weight_loss_pct");
  out.lightness = e.band(key + "/lightness");
  out.crust_mm = e.band(key + "/crust_mm");
  if (const Column* lightness = e.column(key + "/lightness")) {
    out.crust = crust_shares(e, *lightness);
  }
  return out;
}

/// The cuts of that drawn piece whose time in the oven is nearest the median, on a clock by
/// which it is done when the forecast says: of eight draws the nearest may be minutes off.
void show_cuts(const ForecastRun& run, BakeSummary& out) {
  const std::vector<double>& minutes = run.ensemble.column("bake/minutes")->values;
  const auto away = [&](std::size_t i) { return std::fabs(minutes[i] - out.minutes.p50); };
  std::size_t lane = 0;
  for (std::size_t i = 1; i < k_lane_count; ++i) {
    lane = away(i) < away(lane) ? i : lane;
  }
  const bool timed =
      std::isfinite(out.minutes.p50) && std::isfinite(minutes[lane]) && minutes[lane] > 0.0;
  const double slower = timed ? out.minutes.p50 / minutes[lane] : 1.0;
  for (const BakeCut& cut : run.cuts) {
    out.cut_minutes.push_back(cut.minutes * slower);
    out.cuts.push_back(cut.profiles[lane]);
  }
}

std::optional<BakeSummary> bake_of(const ForecastSetup& setup, const ForecastRun& run) {
  const Ensemble& e = run.ensemble;
  if (e.column("bake/minutes") == nullptr) {
    return std::nullopt;
  }
  const PlannedBake& plan = setup.schedule.bake;
  BakeSummary out;
  out.pieces = plan.pieces;
  out.shape = piece_shape_name(plan.shape);
  out.setting_celsius = plan.heats.front().celsius;
  out.minutes = e.band("bake/minutes");
  out.done = moment_of(e, "bake/done");
  if (e.column("bake/stated/core_celsius") != nullptr) {
    double minutes = 0.0;
    for (const PlannedHeat& heat : plan.heats) {
      minutes += heat.minutes ? heat.minutes->middle() : 0.0;
    }
    out.stated_minutes = minutes;
    out.stated = moment_of(e, "bake/stated");
  }
  out.core_celsius = trace_of(e, "bake/core_celsius");
  out.surface_celsius = trace_of(e, "bake/surface_celsius");
  show_cuts(run, out);
  return out;
}

/// The cheap measurements that would narrow the outcomes people plan by.
std::vector<NarrowBy> narrow_by_of(const ForecastSetup& setup, const Ensemble& e) {
  struct Outcome {
    const char* name;
    const char* words;
    const char* unit;
  };
  constexpr std::array<Outcome, 3> k_outcomes{
      {{"effective_hydration", "how soft the dough is", "points of water on flour"},
       {"prove/0/minutes", "minutes of the first prove", "minutes"},
       {"bake/minutes", "minutes in the oven", "minutes"}}};
  // Less than a tenth narrower is not worth getting up for.
  constexpr double k_worth_it = 0.9;
  constexpr std::size_t k_most = 2;
  std::vector<OutcomeInOrder> columns;
  std::vector<Outcome> outcomes;
  for (const Outcome& outcome : k_outcomes) {
    const Column* column = e.column(outcome.name);
    if (column != nullptr && e.band(*column).width() > 0) {
      columns.emplace_back(column);
      outcomes.push_back(outcome);
    }
  }
  std::vector<std::vector<NarrowBy>> found(outcomes.size());
  for (const CheapMeasurement& one : cheap_measurements(setup, e)) {
    const std::vector<Narrowing> by = narrowings(e, one, columns);
    for (std::size_t i = 0; i < by.size(); ++i) {
      if (by[i].to < k_worth_it * by[i].from) {
        found[i].push_back(
            {one.measure, outcomes[i].words, outcomes[i].unit, by[i].from, by[i].to});
      }
    }
  }
  std::vector<NarrowBy> out;
  for (std::vector<NarrowBy>& by : found) {
    std::stable_sort(by.begin(), by.end(),
                     [](const NarrowBy& a, const NarrowBy& b) { return a.to < b.to; });
    out.insert(out.end(), by.begin(),
               by.begin() + static_cast<std::ptrdiff_t>(std::min(k_most, by.size())));
  }
  return out;
}

Shares term_shares(const ForecastSetup& setup, const Ensemble& e, const Column& term) {
  std::map<std::string, double> shares;
  for (std::size_t i = 0; i < term.values.size(); ++i) {
    const auto index = static_cast<std::size_t>(std::lround(std::max(0.0, term.values[i])));
    if (index < setup.models.finish.terms.size()) {
      shares[setup.models.finish.terms[index].id] += e.weight[i];
    }
  }
  return sorted(shares);
}

/// Columns "finish/<what>/<part>/<figure>" gathered by what and part, in their order.
std::vector<FinishSummary> finishes_of(const ForecastSetup& setup, const Ensemble& e) {
  constexpr std::string_view k_prefix = "finish/";
  std::vector<FinishSummary> out;
  for (const Column& column : e.outcomes) {
    if (column.name.rfind(k_prefix, 0) != 0) {
      continue;
    }
    // A part's name may hold a slash; what and figure never do.
    const std::size_t what_end = column.name.find('/', k_prefix.size());
    const std::size_t part_end = column.name.rfind('/');
    const std::string what = column.name.substr(k_prefix.size(), what_end - k_prefix.size());
    const std::string part = part_end > what_end
                                 ? column.name.substr(what_end + 1, part_end - what_end - 1)
                                 : std::string();
    const std::string figure = column.name.substr(part_end + 1);
    if (out.empty() || out.back().what != what || out.back().part != part) {
      out.push_back({what, part, {}, {}, {}});
    }
    if (figure == "term") {
      out.back().term = term_shares(setup, e, column);
    } else if (figure == "term_on_warm_piece") {
      out.back().term_on_warm_piece = term_shares(setup, e, column);
    } else if (figure.rfind("chance_", 0) == 0) {
      const double share = e.mean(column);
      out.back().figures.emplace_back(figure, Band{share, share, share});
    } else {
      out.back().figures.emplace_back(figure, e.band(column));
    }
  }
  return out;
}

bool caution_applies(const ForecastSetup& setup, std::string_view when) {
  const PlannedBake::Way way = setup.schedule.bake.way;
  if (when == "always") {
    return true;
  }
  if (when == "altitude") {
    return setup.kitchen.altitude_m.value_or(0.0) > 1000.0;
  }
  if (when.rfind("way:", 0) == 0) {
    return (when == "way:oven" && way == PlannedBake::Way::oven) ||
           (when == "way:fry" && way == PlannedBake::Way::fry) ||
           (when == "way:steam" && way == PlannedBake::Way::steam);
  }
  if (when.rfind("oven:", 0) == 0) {
    return setup.kitchen.oven && way == PlannedBake::Way::oven &&
           oven_kind_name(*setup.kitchen.oven) == when.substr(5);
  }
  for (const LineAmount& line : setup.bowls.bowls[setup.bowls.dough].lines) {
    if (line.ingredient != nullptr && when.rfind("kind:", 0) == 0 &&
        kind_name(line.ingredient->kind) == when.substr(5)) {
      return true;
    }
  }
  return false;
}

/// The allergens of everything in the recipe, one caution; labels/ gives the legal form.
Caution allergen_caution(const ForecastSetup& setup) {
  std::vector<std::string> found;
  for (const Bowls::Bowl& bowl : setup.bowls.bowls) {
    for (const LineAmount& line : bowl.lines) {
      for (const std::string& one :
           line.ingredient != nullptr ? line.ingredient->allergens : std::vector<std::string>()) {
        if (std::find(found.begin(), found.end(), one) == found.end()) {
          found.push_back(one);
        }
      }
    }
  }
  Caution out{"allergens", "", "data/ingredients.tsv; read each packet: recipes and brands differ",
              "allergens", ""};
  for (std::string one : found) {
    std::replace(one.begin(), one.end(), '_', ' ');
    out.what += (out.what.empty() ? "" : ", ") + one;
  }
  out.text = found.empty() ? "" : "Contains " + out.what + ". Read each packet: brands differ.";
  return out;
}

std::vector<Caution> cautions_of(const ForecastSetup& setup, const ForecastRun& run) {
  std::vector<Caution> out;
  const Table table(forecast_data::embedded_table("kitchen_cautions.tsv"));
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (caution_applies(setup, table.cell(row, "when"))) {
      out.push_back({std::string(table.cell(row, "about")), std::string(table.cell(row, "text")),
                     std::string(table.cell(row, "source")), std::string(table.cell(row, "when")),
                     ""});
    }
  }
  if (Caution allergens = allergen_caution(setup); !allergens.text.empty()) {
    out.push_back(std::move(allergens));
  }
  constexpr double k_likely_enough = 0.05;
  for (const DrawnCaution& one : run.cautions) {
    if (dot(one.applies, run.ensemble.weight) >= k_likely_enough) {
      out.push_back({one.about.empty() ? one.id : one.about, one.text, "data/cautions.tsv", one.id,
                     one.about});
    }
  }
  return out;
}

}  // namespace

ForecastSummary summarise(const ForecastSetup& setup, const ForecastRun& run) {
  ForecastSummary out;
  out.title = setup.recipe != nullptr ? setup.recipe->title : "";
  out.problem = setup.problem;
  out.draws = static_cast<std::uint32_t>(run.ensemble.draws());
  out.seed = setup.options.seed;
  out.doubts = setup.doubts;
  if (!setup.problem.empty() || run.ensemble.draws() == 0) {
    return out;
  }
  out.dough = dough_of(setup, run);
  out.preferments = preferments_of(setup, run.ensemble);
  out.proves = proves_of(setup, run.ensemble);
  if (setup.room.changes()) {
    constexpr double k_day_minutes = 1440.0;
    out.counted_from =
        setup.begins_at - k_day_minutes * std::floor(setup.begins_at / k_day_minutes);
  }
  out.bake = bake_of(setup, run);
  for (FinishSummary& one : finishes_of(setup, run.ensemble)) {
    const bool keeps = one.what == "keeping" || one.what == "staling";
    (keeps ? out.keeping : out.finish).push_back(std::move(one));
  }
  out.problems = run.problems;
  out.cautions = cautions_of(setup, run);
  if (setup.options.worth_measuring) {
    out.narrow_by = narrow_by_of(setup, run.ensemble);
  }
  return out;
}

}  // namespace maslin
