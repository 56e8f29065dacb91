// Draws of a quick forecast, kept for the full one that follows it: a draw depends on its
// number alone, not on how many there are, so the full forecast's first draws are the quick
// one's, to the bit.
#pragma once

#include <deque>
#include <mutex>
#include <string>
#include <vector>

#include "forecast/forecast.h"

namespace maslin {

/// The batches of the few forecasts asked for last. Any thread may call.
class KeptDraws {
 public:
  /// The batches kept under this key, which are kept no longer; none where there are none.
  std::vector<BatchOutcome> take(const std::string& key);
  /// Keeps them, unless they are too many to be worth the memory.
  void keep(const std::string& key, std::vector<BatchOutcome> batches);

 private:
  struct Entry {
    std::string key;
    std::vector<BatchOutcome> batches;
  };
  std::mutex mutex_;
  std::deque<Entry> entries_;
};

}  // namespace maslin
