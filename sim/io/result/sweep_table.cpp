// SPDX-License-Identifier: MIT
#include "sim/io/result/sweep_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <set>
#include <sstream>

#include "sim/io/result/seal.hpp"
#include "sim/io/result/shards.hpp"

namespace hatring::io {
namespace {

using Kind = SweepColumn::Kind;

constexpr std::size_t kMostColumns = 4096;

// What a column holds goes by its name.
bool fits(const std::string& path, Kind kind) {
  const auto in = [&path](const char* group) { return path.starts_with(group); };
  if (path == "run" || path == "status" || in("limit/")) return kind == Kind::whole;
  if (path == "reason" || in("label/")) return kind == Kind::text;
  if (in("measure/")) return kind == Kind::number;
  return in("parameter/") && kind != Kind::whole;
}

std::vector<std::string> pieces(const std::string& text, char between) {
  std::vector<std::string> out;
  std::istringstream in(text);
  for (std::string piece; std::getline(in, piece, between);) out.push_back(piece);
  return out;
}

SweepValues empty(Kind kind) {
  if (kind == Kind::number) return std::vector<double>();
  if (kind == Kind::whole) return std::vector<int>();
  return std::vector<std::string>();
}

}  // namespace

// Failures of all kinds as one that names the file.
template <class Work>
auto SweepTable::reading(const Work& work) const {
  const auto fail = [this](const std::string& why) {
    return SweepError(fmt::format("{}: cannot be read: {}", path_.string(), why));
  };
  constexpr auto kDamaged =
      "the file was damaged or is not as hatring wrote it; the command of that sweep writes it anew, from the runs "
      "that are done";
  try {
    return work();
  } catch (const Hdf5Fault& e) {
    throw fail(fmt::format("{}; {}", e.what(), kDamaged));
  } catch (const H5::Exception& e) {
    throw fail(fmt::format("{}; {}", library_.reason_of(e), kDamaged));
  }
}

SweepTable::SweepTable(const std::filesystem::path& file, const Hdf5Session& library) : path_(file), library_(library) {
  reading([this] { open(); });
}

void SweepTable::open() {
  const Seal state = seal_of(path_);
  if (state == Seal::none) throw SweepError(fmt::format("{}: expected the result file of a sweep", path_.string()));
  if (state == Seal::broken) throw Hdf5Fault("it was cut short or changed");
  file_.openFile(path_.string(), H5F_ACC_RDONLY);
  if (!file_.attrExists("sweep_format"))
    throw SweepError(fmt::format("{}: expected the result file of a sweep, found another HDF5 file", path_.string()));
  constexpr int kMost = std::numeric_limits<int>::max();
  if (const int format = whole_attribute(file_, "sweep_format", 0, kMost); format != kSweepFormat)
    throw SweepError(
        fmt::format("{}: found format {}, which {} version of hatring wrote, expected {}: use that version, "
                    "or run the sweep again with this one in another folder",
                    path_.string(), format, format > kSweepFormat ? "a newer" : "an older", kSweepFormat));
  meta_ = {.program_version = text_attribute(file_, "program_version"),
           .created = text_attribute(file_, "created"),
           .session = text_attribute(file_, "session"),
           .config = text_dataset(file_, "config"),
           .description = text_dataset(file_, "design"),
           .runs = whole_attribute(file_, "runs", 1, kMostRuns),
           .shard = 1,
           .shards = whole_attribute(file_, "shards", 1, kMostShards)};
  const auto runs = static_cast<std::uint64_t>(meta_.runs);
  const auto groups = static_cast<int>((runs + Shard::kGroup - 1) / Shard::kGroup);
  meta_.shard = whole_attribute(file_, "shard", 1, std::min(groups, meta_.shards));
  rows_ = Shard{meta_.shard, meta_.shards}.rows_below(runs);
  const std::vector<std::string> paths = pieces(text_attribute(file_, "columns"), '\n');
  if (paths.size() > kMostColumns)
    throw Hdf5Fault(fmt::format("it has {} columns, expected {} at most", paths.size(), kMostColumns));
  if (paths.size() < 2 || paths[0] != "run" || paths[1] != "status")
    throw Hdf5Fault("the columns do not begin with `run` and `status`");
  if (std::set<std::string>(paths.begin(), paths.end()).size() != paths.size())
    throw Hdf5Fault("a column is named twice");
  for (const std::string& path : paths) add_column(path);
}

void SweepTable::add_column(const std::string& path) {
  const Hdf5Column& column = data_.emplace_back(file_, path, rows_);
  if (!fits(path, column.kind())) throw Hdf5Fault(fmt::format("`{}` has values of a kind that is not its own", path));
  columns_.push_back(
      {path, text_attribute(column.data(), "units"), text_attribute(column.data(), "long_name"), column.kind(), {}});
  if (column.data().attrExists("flag_meanings"))
    columns_.back().meanings = pieces(text_attribute(column.data(), "flag_meanings"), ' ');
}

SweepValues SweepTable::values(std::size_t column, std::uint64_t first, std::size_t count) const {
  return reading([&] { return count == 0 ? empty(columns_[column].kind) : read(column, first, count); });
}

SweepValues SweepTable::read(std::size_t column, std::uint64_t first, std::size_t count) const {
  const Hdf5Column& data = data_[column];
  if (data.kind() == Kind::number) return data.numbers(first, count);
  if (data.kind() == Kind::text) return data.texts(first, count);
  std::vector<int> values = data.wholes(first, count);
  check_wholes(columns_[column], first, values);
  return values;
}

void SweepTable::check_wholes(const SweepColumn& column, std::uint64_t first, const std::vector<int>& values) const {
  const auto words = static_cast<int>(column.meanings.size());
  for (std::size_t i = 0; i < values.size(); ++i) {
    const std::uint64_t run = Shard{meta_.shard, meta_.shards}.run_of_row(first + i) + 1;
    const bool right =
        column.path == "run" ? static_cast<std::uint64_t>(values[i]) == run : values[i] >= 0 && values[i] < words;
    if (!right) throw Hdf5Fault(fmt::format("`{}` of run {} is {}", column.path, run, values[i]));
  }
}

}  // namespace hatring::io
