#include "plan/plan_text.h"

#include <algorithm>
#include <cmath>

#include "plan/clock_text.h"
#include "quantity/column_text.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

std::string length_text(double minutes) {
  if (!can_be_told(minutes)) {
    return "never";
  }
  const long whole = std::lround(minutes);
  if (whole < 90) {
    return std::to_string(whole) + " min";
  }
  const std::string rest =
      whole % 60 < 10 ? "0" + std::to_string(whole % 60) : std::to_string(whole % 60);
  return std::to_string(whole / 60) + " h " + rest;
}

std::string range_text(const Band& minutes) {
  const std::string low = length_text(minutes.p10);
  const std::string high = length_text(minutes.p90);
  return low == high ? "" : " (" + low + " to " + high + ")";
}

std::string percent_text(double share) {
  return std::to_string(std::lround(100.0 * share)) + " %";
}

/// The hour, with its day where that is another than `day_of`.
std::string hour_beside(double minutes, double day_of) {
  const bool same = day_text(minutes) == day_text(day_of);
  return same ? hour_text(minutes) : day_text(minutes) + " " + hour_text(minutes);
}

// ---- the picture: a row for the hands, one for the dough, one for the oven

constexpr std::size_t k_columns = 78;

/// Minutes to a column: a round number that holds the whole day.
double scale_of(double minutes) {
  for (const double one : {2.0, 3.0, 5.0, 10.0, 15.0, 20.0, 30.0, 60.0}) {
    if (minutes / one <= static_cast<double>(k_columns)) {
      return one;
    }
  }
  return std::ceil(minutes / static_cast<double>(k_columns));
}

struct Picture {
  double from = 0.0;
  double scale = 5.0;
  std::size_t columns = 0;

  std::string row(const DayPlan& plan, bool (*shown)(const PlannedStep&), const char* full) const {
    std::vector<bool> filled(columns, false);
    for (const PlannedStep& step : plan.steps) {
      if (!shown(step) || !std::isfinite(step.end)) {
        continue;
      }
      const auto first = static_cast<std::size_t>(std::max((step.start - from) / scale, 0.0));
      const auto last =
          static_cast<std::size_t>(std::max(std::ceil((step.end - from) / scale - 0.25), 0.0));
      for (std::size_t i = first; i < std::min(std::max(last, first + 1), columns); ++i) {
        filled[i] = true;
      }
    }
    std::string out;
    for (const bool one : filled) {
      out += one ? full : "·";
    }
    return out;
  }

  /// Hours written over their columns, as many as have room.
  std::string hours() const {
    const double every = 60.0 * std::max(std::ceil(6.0 * scale / 60.0), 1.0);
    std::string out(columns + 6, ' ');
    for (double at = std::ceil(from / every) * every;; at += every) {
      const auto column = static_cast<std::size_t>(std::lround((at - from) / scale));
      if (column >= columns) {
        return out;
      }
      out.replace(column, 5, hour_text(at));
    }
  }
};

std::string picture(const DayPlan& plan) {
  double end = plan.ready;
  for (const PlannedStep& step : plan.steps) {
    end = std::isfinite(step.end) ? std::max(end, step.end) : end;
  }
  Picture it;
  it.scale = scale_of(end - plan.begin + 1.0);
  it.from = std::floor(plan.begin / it.scale) * it.scale;
  it.columns = std::min(static_cast<std::size_t>((end - it.from) / it.scale) + 1, k_columns);
  const auto line = [&](const char* label, bool (*shown)(const PlannedStep&), const char* full) {
    return "  " + padded(label, 8) + it.row(plan, shown, full) + "\n";
  };
  std::string out = "  " + padded("", 8) + it.hours() + "\n";
  out += line("hands", [](const PlannedStep& one) { return one.hands; }, "█");
  out += line("rising", [](const PlannedStep& one) { return one.kind == TaskKind::prove; }, "▒");
  out += line("oven", [](const PlannedStep& one) { return one.oven; }, "▓");
  out += line("cooling", [](const PlannedStep& one) { return one.kind == TaskKind::cool; }, "░");
  return out;
}

std::string head(const DayPlan& plan) {
  const std::string at = hour_text(plan.ready) + " on " + day_text(plan.ready);
  if (plan.wanted_at && plan.nearest) {
    return "  " + hour_text(*plan.wanted_at) + " on " + day_text(*plan.wanted_at) +
           " cannot be met: the chance is " + percent_text(plan.chance_in_time) +
           ". The nearest that can is " + at + " (" + percent_text(plan.chance_wanted) + ").\n";
  }
  return "  ready by " + at + ": " + percent_text(plan.chance_in_time) +
         " in time; as likely as not by " + hour_beside(plan.ready_at.p50, plan.ready) + "\n";
}

/// Lines of at most 92 letters, set in.
std::string wrapped(const std::string& text, std::size_t indent) {
  constexpr std::size_t k_width = 92;
  std::string out;
  std::string line(indent, ' ');
  std::size_t from = 0;
  while (from < text.size()) {
    const std::size_t to = std::min(text.find(' ', from), text.size());
    if (line.size() + to - from > k_width) {
      out += line + "\n";
      line = std::string(indent, ' ');
    }
    line += (line.size() > indent ? " " : "") + text.substr(from, to - from);
    from = to + 1;
  }
  return out + line + "\n";
}

std::string step_line(const PlannedStep& step, double before) {
  std::string out;
  if (day_text(step.start) != day_text(before)) {
    out += "  " + day_text(step.start) + "\n";
  }
  std::string length = length_text(step.minutes.p50) + range_text(step.minutes);
  if (step.state != StepState::to_do) {
    length = step.state == StepState::done ? "done" : "under way, " + length;
  }
  out += "  " + hour_text(step.start) + " " + hour_beside(step.end, step.start) + "  " +
         padded(step.hands  ? "hands"
                : step.oven ? "oven"
                            : "",
                7) +
         padded(step.name, 34) + " " + length + "\n";
  if (!step.note.empty()) {
    out += "  " + std::string(20, ' ') + step.note + "\n";
  }
  return out;
}

}  // namespace

std::string plan_text(const DayPlan& plan) {
  std::string out = plan.title.empty() ? "" : plan.title + "\n";
  out += head(plan);
  if (!plan.why_not.empty()) {
    out += "  " + plan.why_not + "\n";
  }
  out += "\n" + picture(plan) + "\n";
  double before = -1e12;
  for (const PlannedStep& step : plan.steps) {
    out += step_line(step, before);
    before = step.start;
  }
  if (!plan.alternatives.empty()) {
    out += "\nOther ways\n";
  }
  for (const PlanAlternative& one : plan.alternatives) {
    out += "  " + one.name + "\n" + wrapped(one.does, 6);
  }
  if (!plan.assumed.empty()) {
    out += "\nTaken for granted\n";
  }
  for (const Doubt& one : plan.assumed) {
    out += "  " + one.text + ": " + one.why + "\n";
  }
  return out + "\n";
}

}  // namespace maslin
