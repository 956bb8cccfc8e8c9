// SPDX-License-Identifier: MIT
//! \file
//! The result file of a sweep: one row a run, one dataset a column, written and read in blocks, so that memory does not
//! grow with the number of runs. Layout: docs/result-file.md. Checked by tests/sim/io/test_sweep_file.cpp and
//! tests/tools/test_sweep.py.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <stdexcept>
#include <string>
#include <variant>
#include <vector>

namespace hatring::io {

inline constexpr int kSweepFormat = 1;
inline constexpr int kMostRuns = 100'000'000, kMostShards = 1'000'000;

//! Files or folders of sweeps that do not fit what is asked for; what() says what to do.
class SweepError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

using SweepValues = std::variant<std::vector<double>, std::vector<int>, std::vector<std::string>>;

struct SweepColumn {
  enum class Kind { number, whole, text };
  std::string path;  //!< "measure/front/face"
  std::string unit, long_name;
  Kind kind = Kind::number;
  std::vector<std::string> meanings{};  //!< of a whole number from 0 on, one word each; empty: it counts something

  [[nodiscard]] bool operator==(const SweepColumn&) const = default;
};

struct SweepMeta {
  std::string program_version, created;
  std::string session;      //!< its name
  std::string config;       //!< resolved, every parameter at its first value
  std::string description;  //!< parameters and design
  int runs = 0;             //!< of the whole sweep
  int shard = 1, shards = 1;
};

//! \param columns the first one numbers the runs and becomes the dimension scale of all others
//! \param block gives rows `first` to `first + count`, column by column
//! \throws ResultError naming the file when it cannot be written; the old file is then still there
void write_sweep(const std::filesystem::path& file, const SweepMeta& meta, const std::vector<SweepColumn>& columns,
                 std::uint64_t rows,
                 const std::function<std::vector<SweepValues>(std::uint64_t first, std::size_t count)>& block);

//! Such a file, open for reading. One lives at a time; others wait for it.
class SweepFile {
 public:
  //! \throws SweepError when it is none
  explicit SweepFile(const std::filesystem::path& file);
  ~SweepFile();
  SweepFile(const SweepFile&) = delete;
  SweepFile& operator=(const SweepFile&) = delete;

  [[nodiscard]] const SweepMeta& meta() const;
  [[nodiscard]] const std::vector<SweepColumn>& columns() const;
  [[nodiscard]] std::uint64_t rows() const;
  //! One whole column. \throws SweepError when it is damaged
  [[nodiscard]] SweepValues column(std::size_t index) const;

 private:
  struct Open;
  std::unique_ptr<Open> open_;
};

//! Makes of the files of all shards the one that a single process would have made.
//! \throws SweepError when they are not all shards of one sweep, or a run is not done; ResultError
void merge_sweeps(const std::vector<std::filesystem::path>& shards, const std::filesystem::path& file,
                  const std::string& created);

}  // namespace hatring::io
