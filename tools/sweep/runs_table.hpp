// SPDX-License-Identifier: MIT
//! \file
//! The runs that are done, on disk: a head that says of what, then one record of fixed size a run at its own place,
//! with a checksum. A record is written once, in one call; one that a killed process left half-written has a wrong
//! checksum and counts as not done. So nothing that was done is lost, nothing is done twice, and no order of events
//! breaks the file. Checked by tests/tools/test_sweep.py, which kills it.
#pragma once

#include <filesystem>

#include "tools/sweep/row.hpp"

namespace hatring::tools {

class RunsTable {
 public:
  //! What a table belongs to: lines of text, each "what: value".
  using Identity = std::vector<std::pair<std::string, std::string>>;

  //! Goes on with the file or begins it.
  //! \throws io::SweepError when the file belongs to another sweep, saying in what they differ, or another process has
  //!         it; std::system_error when it cannot be opened
  RunsTable(const std::filesystem::path& file, const Identity& identity, std::uint64_t rows);
  ~RunsTable();
  RunsTable(const RunsTable&) = delete;
  RunsTable& operator=(const RunsTable&) = delete;

  [[nodiscard]] std::uint64_t rows() const { return rows_; }
  //! Of another row or of rows written by other threads at the same time. \returns status not_run when it is not there
  [[nodiscard]] Row read(std::uint64_t row) const;
  [[nodiscard]] bool done(std::uint64_t row) const { return read(row).status != RunStatus::not_run; }
  //! \throws std::system_error
  void write(std::uint64_t row, const Row& content);

 private:
  void begin(const std::filesystem::path& file, const std::string& head);
  [[nodiscard]] std::int64_t place(std::uint64_t row) const;

  int file_ = -1;
  std::uint64_t rows_;
};

}  // namespace hatring::tools
