#include "app/thread_team.h"

namespace maslin {

ThreadTeam::ThreadTeam(unsigned threads) {
  for (unsigned i = 1; i < threads; ++i) {
    helpers_.emplace_back([this] { help(); });
  }
}

ThreadTeam::~ThreadTeam() {
  {
    const std::scoped_lock lock(mutex_);
    leaving_ = true;
  }
  wake_.notify_all();
  for (std::thread& one : helpers_) {
    one.join();
  }
}

void ThreadTeam::run(std::size_t count, const std::function<void(std::size_t)>& part) {
  std::unique_lock lock(mutex_);
  part_ = &part;
  count_ = count;
  next_ = 0;
  left_ = count;
  wake_.notify_all();
  work(lock);
  done_.wait(lock, [this] { return left_ == 0; });
}

void ThreadTeam::help() {
  std::unique_lock lock(mutex_);
  while (true) {
    wake_.wait(lock, [this] { return leaving_ || next_ < count_; });
    if (leaving_) {
      return;
    }
    work(lock);
  }
}

void ThreadTeam::work(std::unique_lock<std::mutex>& lock) {
  while (next_ < count_) {
    const std::size_t mine = next_++;
    lock.unlock();
    (*part_)(mine);
    lock.lock();
    if (--left_ == 0) {
      done_.notify_one();
    }
  }
}

}  // namespace maslin
