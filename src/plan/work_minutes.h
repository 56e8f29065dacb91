// How long work takes, by hand and by itself, draw by draw.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/table.h"

namespace maslin {

/// A row of data/plan_minutes.tsv at so many pieces: its median.
class WorkMinutes {
 public:
  WorkMinutes(std::uint64_t seed, std::size_t draws, double pieces);

  /// The row's median in minutes.
  double median(std::string_view work) const;
  /// Minutes of hands' work in each draw: `median` times how quick these hands are and
  /// times the row's own spread. `key` keeps two tasks of one row apart.
  std::vector<double> by_hand(std::string_view work, double median_minutes,
                              std::string_view key) const;
  /// Minutes of something that takes its own time.
  std::vector<double> by_itself(std::string_view work, double median_minutes,
                                std::string_view key) const;
  /// A factor in each draw, lognormal about 1.
  std::vector<double> spread(double relative, std::string_view key) const;

  std::size_t draws() const { return draws_; }

 private:
  std::size_t row_of(std::string_view work) const;

  Table table_;
  std::uint64_t seed_ = 1;
  std::size_t draws_ = 0;
  double pieces_ = 1.0;
  std::vector<double> hand_speed_;
};

}  // namespace maslin
