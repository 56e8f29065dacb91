#include "plan/waiting.h"

#include <algorithm>
#include <cmath>

#include "quantity/number_text.h"

namespace maslin {
namespace {

/// Growth beyond the wanted growth that is called over-proved: common practice, no source.
constexpr double k_too_far = 1.5;
/// Waits that are no waits, and those that nobody means to wait.
constexpr double k_short_minutes = 5.0;
constexpr double k_long_minutes = 60.0;

/// When the dough of a prove goes on, in a draw: the task it waits for, or the first after it.
double goes_on(const Day& day, std::size_t prove, const std::vector<std::vector<double>>& start,
               std::size_t draw) {
  if (const auto until = day.tasks[prove].grows_until) {
    return start[*until][draw];
  }
  double first = k_never;
  for (std::size_t i = 0; i < day.tasks.size(); ++i) {
    const auto& after = day.tasks[i].after;
    if (day.tasks[i].kind != TaskKind::heat_oven &&
        std::find(after.begin(), after.end(), prove) != after.end()) {
      first = std::min(first, start[i][draw]);
    }
  }
  return first;
}

double value_at(const Trace& trace, double minutes, std::size_t draw) {
  const double last = static_cast<double>(trace.samples.size() - 1);
  const double at = std::clamp(minutes / trace.step_minutes, 0.0, last);
  const auto before = static_cast<std::size_t>(at);
  const std::size_t after = std::min(before + 1, trace.samples.size() - 1);
  const double share = at - static_cast<double>(before);
  return (1.0 - share) * trace.samples[before][draw] + share * trace.samples[after][draw];
}

bool has_growth(const DayTask& task, std::size_t draws) {
  return task.growth && !task.growth->samples.empty() && task.growth->step_minutes > 0.0 &&
         task.growth->samples.front().size() == draws;
}

std::string ratio_text(double ratio) {
  return "×" + number_text(ratio, 1);
}

}  // namespace

std::vector<Waiting> waiting_of(const Day& day, const DrawnTimes& drawn) {
  std::vector<Waiting> out(day.tasks.size());
  const std::size_t draws = day.weight.size();
  for (std::size_t i = 0; i < day.tasks.size(); ++i) {
    const DayTask& task = day.tasks[i];
    if (!has_growth(task, draws)) {
      continue;
    }
    std::vector<double> minutes(draws, 0.0);
    std::vector<double> ratio(draws, 0.0);
    for (std::size_t draw = 0; draw < draws; ++draw) {
      const double until = goes_on(day, i, drawn.start, draw);
      const double stands = until - drawn.start[i][draw];
      const bool known = std::isfinite(stands) && std::isfinite(drawn.end[i][draw]);
      minutes[draw] = known ? std::max(until - drawn.end[i][draw], 0.0) : 0.0;
      ratio[draw] = value_at(*task.growth, known ? stands : k_never, draw);
    }
    out[i].minutes = band_of(minutes, day.weight);
    out[i].ratio = band_of(ratio, day.weight);
    out[i].too_far = out[i].minutes->p50 > k_short_minutes &&
                     out[i].ratio->p50 - 1.0 > k_too_far * (task.wanted_ratio - 1.0);
    std::vector<double> spoilt(draws, 0.0);
    for (std::size_t draw = 0; draw < draws; ++draw) {
      const bool bad = minutes[draw] > k_long_minutes &&
                       ratio[draw] - 1.0 > k_too_far * (task.wanted_ratio - 1.0);
      spoilt[draw] = bad ? day.weight[draw] : 0.0;
      out[i].share_spoilt += spoilt[draw];
    }
    if (out[i].share_spoilt > 0.0) {
      out[i].spoilt_minutes = band_of(minutes, spoilt);
      out[i].spoilt_ratio = band_of(ratio, spoilt);
    }
  }
  return out;
}

void say_waiting(PlannedStep& step, const DayTask& task, const Waiting& waiting) {
  step.grown = waiting.ratio;
  if (!waiting.too_far) {
    return;
  }
  step.note +=
      (step.note.empty() ? "" : "; ") +
      ("then waits " + number_text(std::round(waiting.minutes->p50), 0) + " minutes and grows to " +
       ratio_text(waiting.ratio->p50) + ", where " + ratio_text(task.wanted_ratio) +
       " is wanted: keep it cold meanwhile, or press it "
       "down and let it rise again");
}

std::string spoiling_wait(const Day& day, const std::vector<Waiting>& waits, const DayHours& hours,
                          double chance) {
  if (hours.awake.always() && hours.oven.always()) {
    return {};
  }
  for (const DayTask& task : day.tasks) {
    const double needs = quantile_of(task.minutes, day.weight, 0.5) + task.lead_minutes;
    if (task.oven && needs > hours.oven.longest()) {
      return "The " + task.name + " takes " + number_text(needs, 0) +
             " minutes with the heating of the oven, longer than it has power at a time while "
             "someone is up.";
    }
  }
  for (std::size_t i = 0; i < waits.size(); ++i) {
    if (waits[i].share_spoilt > std::max(1.0 - chance, 0.1) + 0.01) {
      return "After the " + day.tasks[i].name + " the dough would wait " +
             number_text(waits[i].spoilt_minutes->p50 / 60.0, 1) +
             " hours, for someone to be up or for the oven's power, and grow to " +
             ratio_text(waits[i].spoilt_ratio->p50) + " where " +
             ratio_text(day.tasks[i].wanted_ratio) + " is wanted: so in " +
             number_text(std::round(100.0 * waits[i].share_spoilt), 0) + " of 100 draws.";
    }
  }
  return {};
}

}  // namespace maslin
