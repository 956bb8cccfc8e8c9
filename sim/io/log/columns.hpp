// SPDX-License-Identifier: MIT
//! \file
//! Which column of a log is what: by its name and by whether its values can be it.
//! Checked by tests/sim/io/test_log_guesses.cpp.
#pragma once

#include <array>
#include <map>
#include <string_view>

#include "sim/io/log/table.hpp"

namespace hatring::io {

enum class LogRole { time, distance, speed, lap, latitude, longitude, altitude, brake };
inline constexpr std::array kLogRoles{LogRole::time,     LogRole::distance,  LogRole::speed,    LogRole::lap,
                                      LogRole::latitude, LogRole::longitude, LogRole::altitude, LogRole::brake};
//! Reason of a guess that finds none.
inline constexpr const char* kNoSuchName = "no column has such a name";
//! As options write it: "speed".
[[nodiscard]] std::string_view name_of(LogRole role);

//! Index of the column for each role that has one.
using LogColumns = std::map<LogRole, std::size_t>;

//! \param told role to column title (case and unit may be left out), number from 1, or "none"
//! Adds a guess to the table for each role, also for one that no column has.
//! \throws ConfigError when a column that is told is not there, or there is no speed, or neither time nor distance
[[nodiscard]] LogColumns find_columns(LogTable& table, const std::map<LogRole, std::string>& told);

//! Words of a title in lower case: "GPS Speed_kmh" is gps, speed, kmh; "BrakePressure" is brake, pressure.
[[nodiscard]] std::vector<std::string> words_of(std::string_view title);

//! Values of a column that are there.
[[nodiscard]] std::vector<double> present(const std::vector<double>& values);
//! Value below which a share of them lies; `values` is reordered. \pre not empty
[[nodiscard]] double percentile(std::vector<double>& values, double share);

}  // namespace hatring::io
