// SPDX-License-Identifier: MIT
//! \file
//! The result file: everything a run recorded and answered, as HDF5 laid out after the CF conventions, so that h5py,
//! xarray (with h5netcdf) and h5dump open it as it is. Quantities over time stand in one group per kind and axle, each
//! with its own dimension scale `time`; verdicts and laps are tables with one dataset per column.
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>

#include "sim/answer/run.hpp"

namespace hatring::io {

//! Version of the layout; rises when a reader of the one before would stumble.
inline constexpr int kResultFormat = 1;

//! What the result file says about itself.
struct ResultMeta {
  std::string program_version;
  std::string created;         //!< ISO 8601, UTC
  std::string config;          //!< resolved YAML, enough to repeat the run
  std::string mesh;            //!< "standard"
  double hot_side_factor = 1;  //!< Case::brakes.hot_side_factor: heat of the hotter wheel over the axle's mean [-]
};

//! The result could not be written; the message says which file, what and why.
class ResultError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

//! Writes to a temporary name beside `file` and renames when whole; nothing is left on failure. The same run and meta
//! give the same bytes. May be called from several threads; they take turns.
//! \throws ResultError
//! Checked by tests/sim/io/test_result_file.cpp, and the layout by tests/tools/check_result.py.
void write_result(const std::filesystem::path& file, const answer::Run& run, const ResultMeta& meta);

}  // namespace hatring::io
