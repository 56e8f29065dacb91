#include "plan/work_minutes.h"

#include "numerics/draws.h"
#include "plan/embedded_table.h"
#include "quantity/distribution.h"

namespace maslin {
WorkMinutes::WorkMinutes(std::uint64_t seed, std::size_t draws, double pieces)
    : table_(plan_data::embedded_table("plan_minutes.tsv")),
      seed_(seed),
      draws_(draws),
      pieces_(pieces) {
  const std::size_t row = row_of("hand_speed");
  hand_speed_ = spread(table_.number(row, "spread"), "hand_speed");
}

std::size_t WorkMinutes::row_of(std::string_view work) const {
  std::size_t row = 0;
  while (row < table_.size() && table_.cell(row, "work") != work) {
    ++row;
  }
  return row;
}

double WorkMinutes::median(std::string_view work) const {
  const std::size_t row = row_of(work);
  return table_.number(row, "base") + table_.number(row, "per_piece") * pieces_;
}

std::vector<double> WorkMinutes::spread(double relative, std::string_view key) const {
  const std::uint64_t name = name_key("plan/" + std::string(key));
  const Distribution factor = lognormal(1.0, relative);
  std::vector<double> out(draws_);
  for (std::size_t i = 0; i < draws_; ++i) {
    out[i] = factor.quantile(draw(name, seed_, static_cast<std::uint32_t>(i)));
  }
  return out;
}

std::vector<double> WorkMinutes::by_hand(std::string_view work, double median_minutes,
                                         std::string_view key) const {
  std::vector<double> out = by_itself(work, median_minutes, key);
  for (std::size_t i = 0; i < draws_; ++i) {
    out[i] *= hand_speed_[i];
  }
  return out;
}

std::vector<double> WorkMinutes::by_itself(std::string_view work, double median_minutes,
                                           std::string_view key) const {
  std::vector<double> out = spread(table_.number(row_of(work), "spread", 0.1), key);
  for (double& one : out) {
    one *= median_minutes;
  }
  return out;
}

}  // namespace maslin
