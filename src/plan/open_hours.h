// Hours of every day in which something can be done: someone is up, the mains are on.
#pragma once

#include <vector>

#include "recipe/kitchen.h"

namespace maslin {

class OpenHours {
 public:
  /// Always.
  OpenHours() = default;
  /// Any of these; always where there are none.
  explicit OpenHours(const std::vector<DailyHours>& hours);

  bool always() const { return spans_.empty(); }
  /// The earliest time from `from` on that lies in one stretch of open hours with the `before`
  /// minutes ahead of it, the `length` it takes and the `after` minutes behind that. Where no
  /// stretch is so long, the earliest that has the minutes ahead of it.
  double fit(double from, double before, double length, double after) const;
  /// The same hours where time runs backwards from `end`.
  OpenHours mirrored(double end) const;
  /// Open where both are; the two together may leave none, and then it is never open.
  OpenHours with(const OpenHours& other) const;
  /// The last closing at or before that time, and the first opening after it; the time itself
  /// where it is always open.
  double last_close(double time) const;
  double next_open(double time) const;
  /// The longest stretch, minutes; without end where it is always open.
  double longest() const;
  /// Never open: `fit` then gives the time it was asked for.
  bool never() const { return never_; }

 private:
  struct Span {
    double from = 0.0;  // minutes since midnight, 0 to 1440
    double to = 0.0;    // past 1440 where it goes on beyond midnight
  };
  void settle();

  std::vector<Span> spans_;
  bool never_ = false;
};

}  // namespace maslin
