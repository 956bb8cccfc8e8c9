// SPDX-License-Identifier: MIT
#include "tools/sweep/pool.hpp"

#include <chrono>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <thread>

namespace hatring::tools {
namespace {

using namespace std::chrono_literals;

class Pool {
 public:
  Pool(RunsTable& table, const RunPoint& run, const PoolOptions& options)
      : table_(table), run_(run), options_(options) {}

  PoolProgress go() {
    const auto began = std::chrono::steady_clock::now();
    const auto progress = [&] {
      const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - began;
      return PoolProgress{done_, failed_, table_.rows(), fresh_, passed.count()};
    };
    {
      std::vector<std::jthread> threads;
      threads.reserve(options_.jobs);
      working_ = options_.jobs;
      for (std::size_t i = 0; i < options_.jobs; ++i) threads.emplace_back([this] { work(); });
      std::unique_lock lock(mutex_);
      while (!rest_.wait_for(lock, 200ms, [this] { return working_ == 0; })) {
        lock.unlock();
        options_.watch(progress());
        lock.lock();
      }
    }
    if (fault_) std::rethrow_exception(fault_);
    options_.watch(progress());
    return progress();
  }

 private:
  void work() {
    try {
      while (!fault_seen_ && !(options_.stop != nullptr && *options_.stop)) {
        const std::uint64_t row = next_++;
        if (row >= table_.rows()) break;
        Row content = table_.read(row);
        if (content.status == RunStatus::not_run) {
          content = run_(options_.run_of_row(row));
          table_.write(row, content);
          ++fresh_;
        }
        ++done_;
        if (content.status == RunStatus::failed) ++failed_;
      }
    } catch (...) {
      const std::lock_guard lock(mutex_);
      if (!fault_) fault_ = std::current_exception();
      fault_seen_ = true;
    }
    const std::lock_guard lock(mutex_);
    --working_;
    rest_.notify_one();
  }

  RunsTable& table_;
  const RunPoint& run_;
  const PoolOptions& options_;
  std::atomic<std::uint64_t> next_ = 0, done_ = 0, failed_ = 0, fresh_ = 0;
  std::atomic<bool> fault_seen_ = false;
  std::mutex mutex_;  // of what follows
  std::condition_variable rest_;
  std::size_t working_ = 0;
  std::exception_ptr fault_;
};

}  // namespace

PoolProgress run_all(RunsTable& table, const RunPoint& run, const PoolOptions& options) {
  return Pool(table, run, options).go();
}

}  // namespace hatring::tools
