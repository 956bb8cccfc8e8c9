// SPDX-License-Identifier: MIT
//! \file
//! A sweep, or one shard of it, from its first run to its file.
#pragma once

#include "sim/io/result/shards.hpp"
#include "tools/sweep/pool.hpp"

namespace hatring::tools {

using io::Shard;

struct SweepRunOptions {
  std::filesystem::path folder;
  Shard shard;
  std::size_t jobs = 0;  //!< threads; 0 for one a core
  std::string program_version, created;
  const std::atomic<bool>* stop = nullptr;
  std::function<void(const PoolProgress&)> watch;
};

//! "sweep.h5", "sweep-2-of-3.h5".
[[nodiscard]] std::string sweep_file_name(const Shard& shard, const std::string& extension);

//! Goes on with what is in the folder or begins it, and writes the file from time to time and at the end.
//! \throws io::SweepError when the folder holds another sweep or the shard would be empty, and what run_all() throws
PoolProgress run_sweep(const io::Sweep& sweep, const RunPoints& run, const SweepRunOptions& options);

}  // namespace hatring::tools
