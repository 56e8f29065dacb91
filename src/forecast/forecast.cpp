#include "forecast/forecast.h"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "dough/formula_doubts.h"
#include "dough/hold_back.h"
#include "forecast/draw_order.h"
#include "forecast/lasting.h"
#include "forecast/stated_minutes.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

constexpr std::uint32_t k_most_draws = 65536;

/// The dough at the middle of every amount.
Portions middling_dough(const Bowls& bowls) {
  BatchDraws middle;
  for (const Unknown& one : bowls.unknowns) {
    middle.emplace_back(one.prior.p50());
  }
  return fill_bowls(bowls, middle)[bowls.dough].portions;
}

/// What stands out of the formula against doughs of its kind, as doubts.
void add_formula_doubts(const Recipe& recipe, const Portions& dough, ForecastSetup& setup) {
  const DoughState state = assess_dough(setup.models.dough, dough, DoughUnknowns{});
  const std::vector<FormulaRange> ranges = formula_ranges();
  const std::string kind = formula_kind_of(ranges, recipe.title);
  for (const FormulaDoubt& one : formula_doubts(ranges, kind, state)) {
    setup.doubts.push_back({one.what, number_text(one.value, 1) + " where " +
                                          (one.kind == "any" ? std::string("doughs") : one.kind) +
                                          " have " + number_text(one.low, 1) + " to " +
                                          number_text(one.high, 1) +
                                          (one.likely.empty() ? "" : "; " + one.likely) +
                                          (one.mend.empty() ? "" : "; " + one.mend)});
  }
}

/// Puts a batch's columns into rows `before` on; a column that no batch gave yet starts with
/// its name. `filled` counts the rows that each column has.
void append(std::vector<Column>& to, std::vector<std::size_t>& filled,
            const std::vector<BatchColumn>& from, std::size_t draws) {
  for (std::size_t i = 0; i < from.size(); ++i) {
    // Batches give the same columns in the same order, all but always.
    std::size_t at = i;
    if (at >= to.size() || to[at].name != from[i].name) {
      at = static_cast<std::size_t>(
          std::find_if(to.begin(), to.end(),
                       [&](const Column& one) { return one.name == from[i].name; }) -
          to.begin());
    }
    if (at == to.size()) {
      to.push_back({from[i].name, from[i].unit, std::vector<double>(draws)});
      filled.push_back(0);
    }
    for (std::size_t lane = 0; lane < k_lane_count; ++lane, ++filled[at]) {
      if (filled[at] < draws) {
        to[at].values[filled[at]] = from[i].values[lane];
      }
    }
  }
}

/// A column that some batch could not give has no row for each draw: it is left out whole,
/// and the model's sentence says why.
void leave_out_short(std::vector<Column>& columns, const std::vector<std::size_t>& filled,
                     std::size_t draws) {
  std::size_t kept = 0;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (filled[i] == draws) {
      std::swap(columns[kept++], columns[i]);
    }
  }
  columns.resize(kept);
}

/// The trace of that name in a batch, most likely at this place; null where it is none.
const BatchTrace* trace_in(const BatchOutcome& batch, const std::string& name, std::size_t place) {
  if (place < batch.traces.size() && batch.traces[place].name == name) {
    return &batch.traces[place];
  }
  for (const BatchTrace& one : batch.traces) {
    if (one.name == name) {
      return &one;
    }
  }
  return nullptr;
}

/// The traces that all batches gave. They may differ in length: the shorter goes on at its
/// last value.
std::vector<Trace> traces_of(std::span<const BatchOutcome> batches) {
  std::vector<Trace> out;
  for (std::size_t place = 0; !batches.empty() && place < batches[0].traces.size(); ++place) {
    const BatchTrace& first = batches[0].traces[place];
    std::vector<const BatchTrace*> parts;
    std::size_t moments = 0;
    for (const BatchOutcome& batch : batches) {
      const BatchTrace* one = trace_in(batch, first.name, place);
      if (one != nullptr && !one->samples.empty()) {
        parts.push_back(one);
        moments = std::max(moments, one->samples.size());
      }
    }
    if (parts.size() != batches.size()) {
      continue;
    }
    Trace& trace = out.emplace_back(Trace{first.name, first.unit, first.step_minutes, {}});
    trace.samples.reserve(moments);
    for (std::size_t m = 0; m < moments; ++m) {
      std::vector<double>& row = trace.samples.emplace_back(parts.size() * k_lane_count);
      double* to = row.data();
      for (const BatchTrace* part : parts) {
        const Lanes& here = part->samples[std::min(m, part->samples.size() - 1)];
        std::memcpy(to, &here.v, sizeof(here.v));
        to += k_lane_count;
      }
    }
  }
  return out;
}

/// Equal, or as the aimed draws count; they sum to 1.
std::vector<double> weights_of(std::span<const BatchOutcome> batches) {
  std::vector<double> out;
  double most = -1e300;
  for (const BatchOutcome& batch : batches) {
    for (std::size_t i = 0; i < k_lane_count; ++i) {
      most = std::max(most, batch.log_weight[i]);
    }
  }
  double total = 0.0;
  for (const BatchOutcome& batch : batches) {
    const Lanes weight = exp(batch.log_weight - most);
    for (std::size_t i = 0; i < k_lane_count; ++i) {
      out.push_back(weight[i]);
      total += weight[i];
    }
  }
  for (double& one : out) {
    one /= total;
  }
  return out;
}

/// When a dough is mixed of which nobody says it: in the morning, but what stands on the table
/// for a night in the evening before. Common practice, no source.
double usual_begin(const Schedule& schedule) {
  constexpr double k_morning_minutes = 9.0 * 60.0;
  constexpr double k_evening_minutes = 21.0 * 60.0;
  constexpr double k_night_minutes = 360.0;
  const bool overnight =
      std::any_of(schedule.proves.begin(), schedule.proves.end(), [](const PlannedProve& one) {
        return one.place == ProvePlace::room && one.rises() && one.stated_minutes &&
               one.stated_minutes->middle() >= k_night_minutes;
      });
  return overnight ? k_evening_minutes : k_morning_minutes;
}

/// A flour whose amount is left open is worked out later.
bool is_dough_without_flour(const Bowls::Bowl& bowl) {
  return bowl.kind == PartKind::dough &&
         std::none_of(bowl.lines.begin(), bowl.lines.end(),
                      [](const LineAmount& line) { return line.solved; });
}

}  // namespace

ForecastSetup set_up_forecast(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
                              const ForecastOptions& options) {
  ForecastSetup setup;
  setup.recipe = &recipe;
  setup.kitchen = kitchen;
  setup.options = options;
  setup.options.draws = std::clamp<std::uint32_t>((options.draws + 7) / 8 * 8, 8, k_most_draws);
  setup.bowls = bowls_of(recipe, kitchen, pantry);
  if (setup.bowls.bowls.empty() || setup.bowls.order.empty() ||
      setup.bowls.bowls[setup.bowls.dough].lines.empty()) {
    setup.problem =
        "Nothing in this recipe can be weighed, so nothing can be forecast; give at least the "
        "flour and the liquid with amounts.";
    return setup;
  }
  const Portions middling = middling_dough(setup.bowls);
  const bool yeasted =
      std::any_of(middling.items.begin(), middling.items.end(), [](const Portions::Item& item) {
        return item.ingredient->yeast.kind != YeastKind::none && item.grams[0] > 0.0;
      });
  setup.schedule = schedule_of(recipe, kitchen, middling.total_grams()[0], yeasted);
  setup.room = room_day(kitchen);
  setup.begins_at = options.begins_at.value_or(usual_begin(setup.schedule));
  setup.doubts = setup.bowls.doubts;
  setup.doubts.insert(setup.doubts.end(), setup.schedule.doubts.begin(),
                      setup.schedule.doubts.end());
  setup.bath = yeasted ? yeast_bath(recipe) : std::nullopt;
  if (setup.bath) {
    setup.doubts.push_back(bath_doubt(*setup.bath));
  }
  add_formula_doubts(recipe, middling, setup);
  const DoughState as_written = assess_dough(setup.models.dough, middling, DoughUnknowns{});
  if (as_written.has_flour) {
    setup.score_to_mix_to = ::maslin::score_to_mix_to(as_written.feel_score[0]);
  } else if (is_dough_without_flour(setup.bowls.bowls[setup.bowls.dough])) {
    setup.problem =
        "No flour was found in the dough, so nothing can be told of it; add a line with the flour "
        "and its amount, or correct the one that was not understood.";
    return setup;
  }
  setup.unknowns = setup.bowls.unknowns;
  setup.first_model_unknown = setup.unknowns.size();
  for (Unknown& one : model_unknowns(kitchen, setup.models)) {
    setup.unknowns.push_back(std::move(one));
  }
  setup.order = draw_order(setup.unknowns, options.seed, options.draws);
  heed_stated_minutes(setup, pantry);
  setup.scores = scores_of(setup.unknowns);
  take_lessons(setup);
  return setup;
}

std::size_t batch_count(const ForecastSetup& setup) {
  return setup.problem.empty() ? setup.options.draws / k_lane_count : 0;
}

DrawIndices draws_in(const ForecastSetup& setup, std::size_t batch) {
  return setup.aim ? draws_from(static_cast<std::uint32_t>(batch * k_lane_count))
                   : draws_of(setup.order, batch);
}

ForecastRun gather(std::span<const BatchOutcome> batches) {
  ForecastRun run;
  const std::size_t draws = batches.size() * k_lane_count;
  run.ensemble.weight = weights_of(batches);
  std::size_t before = 0;
  std::vector<std::size_t> unknown_rows, outcome_rows;
  for (const BatchOutcome& batch : batches) {
    append(run.ensemble.unknowns, unknown_rows, batch.unknowns, draws);
    append(run.ensemble.outcomes, outcome_rows, batch.outcomes, draws);
    if (!batch.cuts.empty()) {
      run.cuts = batch.cuts;
    }
    run.flour_needed_g.insert(run.flour_needed_g.end(), batch.flour_needed_g.begin(),
                              batch.flour_needed_g.end());
    for (const DrawnCaution& caution : batch.cautions) {
      const auto same =
          std::find_if(run.cautions.begin(), run.cautions.end(), [&](const DrawnCaution& one) {
            return one.id == caution.id && one.about == caution.about;
          });
      DrawnCaution& one =
          same == run.cautions.end()
              ? run.cautions.emplace_back(DrawnCaution{caution.id, caution.about, caution.text,
                                                       std::vector<double>(draws, 0.0)})
              : *same;
      std::copy(caution.applies.begin(), caution.applies.end(),
                one.applies.begin() + static_cast<std::ptrdiff_t>(before));
    }
    for (const std::string& problem : batch.problems) {
      if (std::find(run.problems.begin(), run.problems.end(), problem) == run.problems.end()) {
        run.problems.push_back(problem);
      }
    }
    before += k_lane_count;
  }
  leave_out_short(run.ensemble.outcomes, outcome_rows, draws);
  run.ensemble.traces = traces_of(batches);
  return run;
}

ForecastRun run_forecast(const ForecastSetup& setup) {
  std::vector<BatchOutcome> batches;
  for (std::size_t i = 0; i < batch_count(setup); ++i) {
    batches.push_back(run_batch(setup, i));
  }
  return gather(batches);
}

}  // namespace maslin
