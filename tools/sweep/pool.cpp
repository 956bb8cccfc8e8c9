// SPDX-License-Identifier: MIT
#include "tools/sweep/pool.hpp"

#include <algorithm>
#include <chrono>

#include "sim/answer/run_many.hpp"
#include "tools/sweep/many_runs.hpp"

namespace hatring::tools {

PoolProgress run_all(RunsTable& table, const RunPoints& run, const PoolOptions& options) {
  constexpr std::uint64_t kGroup = answer::kTogether;
  const auto began = std::chrono::steady_clock::now();
  std::atomic<std::uint64_t> done = 0, failed = 0, fresh = 0;
  const auto progress = [&] {
    const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - began;
    return PoolProgress{done, failed, table.rows(), fresh, passed.count()};
  };
  const auto watch = [&] { options.watch(progress()); };
  const std::uint64_t groups = (table.rows() + kGroup - 1) / kGroup;
  many_runs(groups, {.jobs = options.jobs, .stop = options.stop, .watch = watch}, [&](std::uint64_t group) {
    const std::uint64_t first = group * kGroup, end = std::min(table.rows(), first + kGroup);
    std::vector<Row> known;
    for (std::uint64_t row = first; row < end; ++row) known.push_back(table.read(row));
    const auto open = [](const Row& row) { return row.status == RunStatus::not_run; };
    if (std::any_of(known.begin(), known.end(), open)) {
      const std::vector<Row> rows = run(options.run_of_row(first), known.size());
      for (std::size_t i = 0; i < known.size(); ++i) {
        if (!open(known[i])) continue;
        known[i] = rows[i];
        table.write(first + i, rows[i]);
        ++fresh;
      }
    }
    done += known.size();
    failed += static_cast<std::uint64_t>(
        std::count_if(known.begin(), known.end(), [](const Row& row) { return row.status == RunStatus::failed; }));
  });
  watch();
  return progress();
}

}  // namespace hatring::tools
