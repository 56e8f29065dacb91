// A team of threads for the computation, which itself knows none.
#pragma once

#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

#include "numerics/team.h"

namespace maslin {

/// So many threads, the caller's own among them; they wait between runs. One run at a time.
class ThreadTeam : public Team {
 public:
  explicit ThreadTeam(unsigned threads);
  ~ThreadTeam() override;
  ThreadTeam(const ThreadTeam&) = delete;
  ThreadTeam& operator=(const ThreadTeam&) = delete;

  void run(std::size_t count, const std::function<void(std::size_t)>& part) override;

 private:
  void help();
  /// Takes parts until none is left.
  void work(std::unique_lock<std::mutex>& lock);

  std::mutex mutex_;
  std::condition_variable wake_, done_;
  const std::function<void(std::size_t)>* part_ = nullptr;
  std::size_t count_ = 0, next_ = 0, left_ = 0;
  bool leaving_ = false;
  std::vector<std::thread> helpers_;
};

}  // namespace maslin
