// SPDX-License-Identifier: MIT
#include "tools/sweep/pool.hpp"

#include <chrono>

#include "tools/sweep/many_runs.hpp"

namespace hatring::tools {

PoolProgress run_all(RunsTable& table, const RunPoint& run, const PoolOptions& options) {
  const auto began = std::chrono::steady_clock::now();
  std::atomic<std::uint64_t> done = 0, failed = 0, fresh = 0;
  const auto progress = [&] {
    const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - began;
    return PoolProgress{done, failed, table.rows(), fresh, passed.count()};
  };
  const auto watch = [&] { options.watch(progress()); };
  many_runs(table.rows(), {.jobs = options.jobs, .stop = options.stop, .watch = watch}, [&](std::uint64_t row) {
    Row content = table.read(row);
    if (content.status == RunStatus::not_run) {
      content = run(options.run_of_row(row));
      table.write(row, content);
      ++fresh;
    }
    ++done;
    if (content.status == RunStatus::failed) ++failed;
  });
  watch();
  return progress();
}

}  // namespace hatring::tools
