// SPDX-License-Identifier: MIT
//! \file
//! Cuts a log into laps and picks the typical one. Checked by tests/sim/io/test_log_laps.cpp.
#pragma once

#include <optional>

#include "sim/io/log/channels.hpp"

namespace hatring::io {

//! What the cuts are taken from; `guess` takes the first that works, in this order but with a given line before all.
enum class LapCut { guess, column, clock, line, pattern, none };

struct LapOptions {
  LapCut cut = LapCut::guess;
  std::optional<LatLon> start_line;
  std::optional<int> lap;  //!< this one instead of the typical one
  bool whole = false;      //!< the whole log instead of one lap
};

struct LogLap {
  int number = 0;              //!< the logger's own, or counted from 1; 0 is what lies before the first line
  double begin = 0, end = 0;   //!< [s]
  double length = 0;           //!< [m]
  double top = 0, lowest = 0;  //!< speeds [m/s]
  std::string incomplete;      //!< why it is not a whole flying lap; empty when it is
};

struct LogLaps {
  std::vector<LogLap> laps;           //!< in order, parts before and after whole laps among them
  std::optional<std::size_t> chosen;  //!< index; none: the whole log
};

//! Share of its length by which a lap may differ from the median one: lines driven differ by up to 1 %, and a
//! satellite speed drifts (common practice, no source).
inline constexpr double kLapTolerance = 0.03;

//! Adds a guess on how laps were cut and which one was taken.
//! \throws ConfigError when what was asked for is not in the log
[[nodiscard]] LogLaps find_laps(LogTable& table, const LogDrive& drive, const LapOptions& options);

//! Length of a lap by the repetition of the speed over distance, and the distances at which a place well out on the
//! fastest straight is passed; empty when the speed does not repeat.
struct Repetition {
  double length = 0, correlation = 0;
  std::vector<double> passes;  //!< [m]
};
[[nodiscard]] Repetition repetition(const LogDrive& drive);

//! Index of the sample from which the fastest one is a few seconds ahead: out on a straight, where a lap that follows
//! another joins it best.
[[nodiscard]] std::size_t straight_before_top_speed(const LogDrive& drive);

//! y at `at` by straight lines through (x, y), x rising; held beyond the ends.
[[nodiscard]] double at_place(const std::vector<double>& x, const std::vector<double>& y, double at);

}  // namespace hatring::io
