// SPDX-License-Identifier: MIT
#include "tools/sweep/sweep_run.hpp"

#include <fmt/format.h>

#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid_io.hpp>
#include <chrono>

namespace hatring::tools {
namespace {

// The file on the way is for looking at; what is done stands in the table.
constexpr double kBetweenFiles = 60;  // [s]
constexpr double kShareOfFiles = 20;  // and so many times what writing it takes

std::string fingerprint(const std::string& text) {
  return to_string(boost::uuids::name_generator_sha1(boost::uuids::ns::oid())(text));
}

RunsTable::Identity identity(const io::Sweep& sweep, const SweepRunOptions& options) {
  std::string columns;
  for (const io::SweepColumn& column : all_columns(sweep)) columns += column.path + "\n";
  return {{"config", fingerprint(sweep.resolved_yaml())},
          {"design", fingerprint(sweep.description())},
          {"program", fmt::format("{} {}", options.program_version, fingerprint(columns))},
          {"shard", fmt::format("{} of {}", options.shard.index, options.shard.of)}};
}

class SweepRun {
 public:
  SweepRun(const io::Sweep& sweep, const SweepRunOptions& options)
      : sweep_(sweep),
        options_(options),
        rows_(rows(sweep, options.shard)),
        table_(options.folder / sweep_file_name(options.shard, "runs"), identity(sweep, options), rows_) {}

  PoolProgress go(const RunPoints& run) {
    const PoolOptions pool{.jobs = options_.jobs,
                           .run_of_row = [this](std::uint64_t row) { return options_.shard.run_of_row(row); },
                           .stop = options_.stop,
                           .watch = [this](const PoolProgress& progress) { watch(progress); }};
    const PoolProgress progress = run_all(table_, run, pool);
    write_file();
    return progress;
  }

 private:
  static std::uint64_t rows(const io::Sweep& sweep, const Shard& shard) {
    const std::uint64_t runs = sweep.design().runs(), rows = shard.rows_below(runs);
    if (rows == 0)
      throw io::SweepError(
          fmt::format("shard {} of {} would hold none of the {} runs: they are shared out in groups of {}", shard.index,
                      shard.of, runs, Shard::kGroup));
    return rows;
  }

  void watch(const PoolProgress& progress) {
    if (options_.watch) options_.watch(progress);
    if (progress.seconds < next_file_) return;
    const auto began = std::chrono::steady_clock::now();
    write_file();
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - began;
    next_file_ = progress.seconds + took.count() + std::max(kBetweenFiles, kShareOfFiles * took.count());
  }

  void write_file() const {
    const io::SweepMeta meta{.program_version = options_.program_version,
                             .created = options_.created,
                             .session = sweep_.name(),
                             .config = sweep_.resolved_yaml(),
                             .description = sweep_.description(),
                             .runs = static_cast<int>(sweep_.design().runs()),
                             .shard = options_.shard.index,
                             .shards = options_.shard.of};
    write_sweep(options_.folder / sweep_file_name(options_.shard, "h5"), meta, all_columns(sweep_), rows_,
                [this](std::uint64_t first, std::size_t count) {
                  std::vector<std::uint64_t> runs;
                  std::vector<Row> rows;
                  runs.reserve(count);
                  rows.reserve(count);
                  for (std::uint64_t row = first; row < first + count; ++row) {
                    runs.push_back(options_.shard.run_of_row(row));
                    rows.push_back(table_.read(row));
                  }
                  return columns_of(sweep_, runs, rows);
                });
  }

  const io::Sweep& sweep_;
  const SweepRunOptions& options_;
  std::uint64_t rows_;
  RunsTable table_;
  double next_file_ = kBetweenFiles;
};

}  // namespace

std::string sweep_file_name(const Shard& shard, const std::string& extension) {
  return shard.of == 1 ? fmt::format("sweep.{}", extension)
                       : fmt::format("sweep-{}-of-{}.{}", shard.index, shard.of, extension);
}

PoolProgress run_sweep(const io::Sweep& sweep, const RunPoints& run, const SweepRunOptions& options) {
  return SweepRun(sweep, options).go(run);
}

}  // namespace hatring::tools
