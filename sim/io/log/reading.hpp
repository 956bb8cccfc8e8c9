// SPDX-License-Identifier: MIT
//! \file
//! A logger file to a speed trace, with everything that was guessed on the way.
//! Checked by tests/sim/io/test_log_reading.cpp and, end to end, tests/tools/test_trace.py.
#pragma once

#include <filesystem>

#include "sim/io/log/laps.hpp"
#include "sim/session/case.hpp"

namespace hatring::io {

struct LogOptions {
  std::map<LogRole, std::string> columns = {};  //!< title, number from 1, or "none"
  std::map<LogRole, std::string> units = {};
  std::optional<char> separator = {}, decimal = {};
  LapOptions laps = {};
};

struct LogReading {
  std::string source;    //!< the file, as named
  std::size_t rows = 0;  //!< of numbers, in the file
  std::size_t columns = 0;
  std::vector<LogGuess> guesses;
  std::vector<LogFault> faults;  //!< by line
  LogDrive drive;
  LogLaps laps;
  session::Trace trace;    //!< the chosen lap or the whole log, from time (or distance) 0
  std::string brake_unit;  //!< of the trace's brake channel, if it has one
};

//! \throws ConfigError saying where, what was found and what would do, when there is no trace to be had
[[nodiscard]] LogReading read_log(const std::filesystem::path& file, const LogOptions& options = {});
//! \param name stands for the file name
[[nodiscard]] LogReading read_log_table_text(const std::string& text, const std::string& name,
                                             const LogOptions& options = {});

//! The trace as a file that a session takes: a comment with the guesses, then `trace:`.
//! \throws ConfigError when it has more values than a config may hold
[[nodiscard]] std::string trace_yaml(const LogReading& reading);

//! The brake channel without its rest value, and the value above which the brakes are on.
struct BrakeSignal {
  std::vector<double> values;  //!< empty: not used
  double threshold = 0;
};
//! Used only when it is on while the car slows. Adds a guess. \param unit for messages
[[nodiscard]] BrakeSignal brake_signal(LogTable& table, const LogDrive& drive, const std::string& unit);

//! Rise over run at each sample, by a line through the altitudes around it; empty when the altitude is not smooth
//! enough for that, or differs from lap to lap. Adds a guess.
[[nodiscard]] std::vector<double> grade_from_altitude(LogTable& table, const LogDrive& drive, const LogLaps& laps);

}  // namespace hatring::io
