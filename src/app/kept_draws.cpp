#include "app/kept_draws.h"

#include <algorithm>
#include <utility>

namespace maslin {
namespace {

constexpr std::size_t k_most_entries = 4;
constexpr std::size_t k_most_batches = 64;  // some 0.1 MB each

}  // namespace

std::vector<BatchOutcome> KeptDraws::take(const std::string& key) {
  const std::scoped_lock lock(mutex_);
  const auto found = std::find_if(entries_.begin(), entries_.end(),
                                  [&key](const Entry& one) { return one.key == key; });
  if (found == entries_.end()) {
    return {};
  }
  std::vector<BatchOutcome> out = std::move(found->batches);
  entries_.erase(found);
  return out;
}

void KeptDraws::keep(const std::string& key, std::vector<BatchOutcome> batches) {
  if (batches.empty() || batches.size() > k_most_batches) {
    return;
  }
  const std::scoped_lock lock(mutex_);
  std::erase_if(entries_, [&key](const Entry& one) { return one.key == key; });
  entries_.push_back({key, std::move(batches)});
  if (entries_.size() > k_most_entries) {
    entries_.pop_front();
  }
}

}  // namespace maslin
