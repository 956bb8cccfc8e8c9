// SPDX-License-Identifier: MIT
//! \file
//! The runs of the full band (sim/answer/full_band.hpp) on all cores. Checked by tests/tools/test_band.py.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

#include "sim/answer/comparison.hpp"
#include "sim/answer/run.hpp"

namespace hatring::tools {

//! What the command line says about bands.
struct BandOptions {
  bool none = false, full = false;
  std::uint64_t runs = 0;          //!< at the most, of the full band
  std::vector<std::string> known;  //!< inputs that were measured
  unsigned jobs = 0;               //!< threads, 0 for one a core

  //! \param usual_runs where none are given
  void add_to(CLI::App& command, std::uint64_t usual_runs);
};

//! Runs a case with the band that was asked for; the same whatever the number of threads.
//! \param quiet no progress on stderr
[[nodiscard]] answer::Run run_banded(const session::Case& c, const BandOptions& options, bool quiet);

//! Runs every set-up again with every input varied, alike in all, and says how often each difference keeps its sign.
void compare_in_pairs(const std::vector<session::Case>& setups, answer::Comparison& comparison,
                      const BandOptions& options, bool quiet);

}  // namespace hatring::tools
