// SPDX-License-Identifier: MIT
//! \file
//! All runs of a table on several threads.
#pragma once

#include <atomic>

#include "tools/sweep/runs_table.hpp"

namespace hatring::tools {

struct PoolProgress {
  std::uint64_t done = 0, failed = 0, of = 0;
  std::uint64_t fresh = 0;  //!< of the done ones, those of this process
  double seconds = 0;       //!< since it began
};

struct PoolOptions {
  std::size_t jobs = 0;                                        //!< threads; 0 for one a core
  std::function<std::uint64_t(std::uint64_t row)> run_of_row;  //!< number of the run that a row holds
  const std::atomic<bool>* stop = nullptr;                     //!< runs that have begun are finished, no other begins
  //! Called by the calling thread a few times a second, and at the end.
  std::function<void(const PoolProgress&)> watch;
};

//! Runs every row that is not done, group by group: what is left of a group is not done by itself, since answers hang
//! on what is solved together. \returns what is done at the end \throws what run or the table throw, once every thread
//! has come to rest
PoolProgress run_all(RunsTable& table, const RunPoints& run, const PoolOptions& options);

}  // namespace hatring::tools
