#include "plan/open_hours.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace maslin {
namespace {

constexpr double k_day = 1440.0;
constexpr double k_moment = 1e-6;
/// No stretch of open hours that returns every day is missed by looking so far ahead.
constexpr int k_days_ahead = 3;

double of_the_day(double minutes) {
  return minutes - std::floor(minutes / k_day) * k_day;
}

}  // namespace

OpenHours::OpenHours(const std::vector<DailyHours>& hours) {
  for (const DailyHours& one : hours) {
    const double from = of_the_day(one.from_minutes);
    const double length = one.to_minutes - one.from_minutes;
    spans_.push_back({from, from + (length > 0.0 ? length : length + k_day)});
  }
  settle();
}

/// In order, apart, and nothing at all where they fill the day.
void OpenHours::settle() {
  std::sort(spans_.begin(), spans_.end(),
            [](const Span& a, const Span& b) { return a.from < b.from; });
  std::vector<Span> apart;
  for (const Span& one : spans_) {
    if (!apart.empty() && one.from <= apart.back().to + k_moment) {
      apart.back().to = std::max(apart.back().to, one.to);
    } else {
      apart.push_back(one);
    }
  }
  while (apart.size() > 1 && apart.back().to >= apart.front().from + k_day - k_moment) {
    apart.back().to = std::max(apart.back().to, apart.front().to + k_day);
    apart.erase(apart.begin());
  }
  const bool whole = apart.size() == 1 && apart[0].to - apart[0].from >= k_day - k_moment;
  spans_ = whole ? std::vector<Span>() : std::move(apart);
}

double OpenHours::fit(double from, double before, double length, double after) const {
  if (always() || !std::isfinite(from)) {
    return from;
  }
  const double needs = (std::isfinite(length) ? length : 0.0) + after;
  const double midnight = std::floor(from / k_day) * k_day;
  double fallback = from;
  bool found = false;
  for (int day = -1; day <= k_days_ahead; ++day) {
    for (const Span& span : spans_) {
      const double end = midnight + day * k_day + span.to;
      const double start = std::max(from, midnight + day * k_day + span.from + before);
      if (start + needs <= end + k_moment) {
        return start;
      }
      if (!found && start < end) {
        fallback = start;
        found = true;
      }
    }
  }
  return fallback;
}

double OpenHours::last_close(double time) const {
  double out = always() ? time : -std::numeric_limits<double>::infinity();
  const double midnight = std::floor(time / k_day) * k_day;
  for (const Span& span : spans_) {
    for (int day = -2; day <= 1; ++day) {
      const double close = midnight + day * k_day + span.to;
      out = close <= time + k_moment ? std::max(out, close) : out;
    }
  }
  return out;
}

double OpenHours::next_open(double time) const {
  double out = always() ? time : std::numeric_limits<double>::infinity();
  const double midnight = std::floor(time / k_day) * k_day;
  for (const Span& span : spans_) {
    for (int day = -1; day <= 2; ++day) {
      const double open = midnight + day * k_day + span.from;
      out = open > time + k_moment ? std::min(out, open) : out;
    }
  }
  return out;
}

double OpenHours::longest() const {
  double out = always() && !never_ ? std::numeric_limits<double>::infinity() : 0.0;
  for (const Span& one : spans_) {
    out = std::max(out, one.to - one.from);
  }
  return out;
}

OpenHours OpenHours::mirrored(double end) const {
  OpenHours out;
  out.never_ = never_;
  for (const Span& one : spans_) {
    const double from = of_the_day(end - one.to);
    out.spans_.push_back({from, from + one.to - one.from});
  }
  out.settle();
  return out;
}

OpenHours OpenHours::with(const OpenHours& other) const {
  if (always() || other.always()) {
    return always() ? other : *this;
  }
  OpenHours out;
  for (const Span& a : spans_) {
    for (const Span& b : other.spans_) {
      for (const double days : {-k_day, 0.0, k_day}) {
        const double from = std::max(a.from, b.from + days);
        const double to = std::min(a.to, b.to + days);
        if (to > from + k_moment) {
          out.spans_.push_back({of_the_day(from), of_the_day(from) + to - from});
        }
      }
    }
  }
  out.never_ = out.spans_.empty();
  out.settle();
  return out;
}

}  // namespace maslin
