// SPDX-License-Identifier: MIT
//! \file
//! What is kept of one run of a sweep, and the way from the numbers of runs to it.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "sim/io/result/sweep_file.hpp"
#include "sim/io/sweep/sweep.hpp"

namespace hatring::tools {

enum class RunStatus { not_run, done, failed };

struct Row {
  RunStatus status = RunStatus::not_run;
  std::string reason{};               //!< why it failed
  std::vector<double> measures{};     //!< as measure_columns(); NaN where there is no such thing
  std::vector<std::int8_t> levels{};  //!< as limit_columns(); the worst of the verdicts on one limit
};

//! Without any values.
[[nodiscard]] Row empty_row(RunStatus status);

//! A limit that no verdict is about in a run. The levels before it are those of answer::Level.
inline constexpr std::int8_t kAbsent = 4;

//! What the numbers of a row are: answer::measures(), those of an axle once for each, and the keys of verdicts by axle.
[[nodiscard]] const std::vector<io::SweepColumn>& measure_columns();
[[nodiscard]] const std::vector<io::SweepColumn>& limit_columns();
//! All columns of the result: number of the run, status, reason, the parameters (`label` beside those whose choices are
//! numbers), measures, limits.
[[nodiscard]] std::vector<io::SweepColumn> all_columns(const io::Sweep& sweep);
//! Their values for some runs. \param rows of these runs
[[nodiscard]] std::vector<io::SweepValues> columns_of(const io::Sweep& sweep, const std::vector<std::uint64_t>& runs,
                                                      const std::vector<Row>& rows);

//! Runs `count` points from `first` on. May be called by several threads at once.
using RunPoints = std::function<std::vector<Row>(std::uint64_t first, std::size_t count)>;
//! Points by the solver, side by side where they go. A run that cannot be done gives a row with its reason.
[[nodiscard]] RunPoints solved_runs(const io::Sweep& sweep);

}  // namespace hatring::tools
