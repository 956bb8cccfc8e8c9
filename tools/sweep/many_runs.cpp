// SPDX-License-Identifier: MIT
#include "tools/sweep/many_runs.hpp"

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace hatring::tools {

using namespace std::chrono_literals;

void many_runs(std::uint64_t count, const ManyRuns& how, const std::function<void(std::uint64_t)>& run) {
  const std::size_t jobs = how.jobs > 0 ? how.jobs : std::max(1U, std::thread::hardware_concurrency());
  std::atomic<std::uint64_t> next = 0;
  std::mutex mutex;  // of what follows
  std::condition_variable rest;
  std::size_t working = jobs;
  std::exception_ptr fault;
  const auto work = [&] {
    try {
      while (how.stop == nullptr || !*how.stop) {
        const std::uint64_t number = next++;
        if (number >= count) break;
        run(number);
      }
    } catch (...) {
      const std::lock_guard lock(mutex);
      if (!fault) fault = std::current_exception();
      next = count;
    }
    const std::lock_guard lock(mutex);
    --working;
    rest.notify_one();
  };
  {
    std::vector<std::jthread> threads;
    threads.reserve(jobs);
    for (std::size_t i = 0; i < jobs; ++i) threads.emplace_back(work);
    std::unique_lock lock(mutex);
    while (!rest.wait_for(lock, 200ms, [&] { return working == 0; })) {
      lock.unlock();
      if (how.watch) how.watch();
      lock.lock();
    }
  }
  if (fault) std::rethrow_exception(fault);
}

}  // namespace hatring::tools
