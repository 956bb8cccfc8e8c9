// SPDX-License-Identifier: MIT
#pragma once

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <functional>

namespace hatring::tools {

struct ManyRuns {
  std::size_t jobs = 0;                     //!< threads; 0 for one a core
  const std::atomic<bool>* stop = nullptr;  //!< runs that have begun are finished, no other begins
  std::function<void()> watch{};            //!< called by the calling thread a few times a second
};

//! Calls `run` once for each number below `count`, on several threads.
//! \throws what run throws, once every thread has come to rest
void many_runs(std::uint64_t count, const ManyRuns& how, const std::function<void(std::uint64_t number)>& run);

}  // namespace hatring::tools
