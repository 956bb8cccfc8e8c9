// SPDX-License-Identifier: MIT
#include "tools/cli/many_runs.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <thread>
#include <vector>

namespace hatring::tools {

void many_runs(std::uint64_t count, unsigned jobs, const std::function<void(std::uint64_t)>& run) {
  if (jobs == 0) jobs = std::max(1U, std::thread::hardware_concurrency());
  std::atomic<std::uint64_t> next = 0;
  std::atomic_flag failed;
  std::exception_ptr fault;
  {
    std::vector<std::jthread> threads;
    threads.reserve(jobs);
    for (unsigned i = 0; i < jobs; ++i)
      threads.emplace_back([&] {
        try {
          for (std::uint64_t number = next++; number < count; number = next++) run(number);
        } catch (...) {
          if (!failed.test_and_set()) fault = std::current_exception();
          next = count;
        }
      });
  }
  if (fault) std::rethrow_exception(fault);
}

}  // namespace hatring::tools
