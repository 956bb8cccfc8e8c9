// SPDX-License-Identifier: MIT
//! \file
//! Units of time (or distance) and speed of a log, from the header and from what the numbers would mean.
//! Checked by tests/sim/io/test_log_guesses.cpp.
#pragma once

#include "sim/io/log/columns.hpp"

namespace hatring::io {

//! Factors to SI of the columns that are used.
struct LogScale {
  double axis = 1;  //!< of the time column, or of the distance column where there is no time
  double speed = 1;
};

//! Weighs every pair of units by the sample rate, top speed and hardest slowing that it would mean, by the way that the
//! positions show (where there are any), and by what the header says: the header wins unless the numbers would be
//! absurd. Adds a guess for each. \param told role to unit, with a factor if need be ("0.2778 km/h")
//! \throws ConfigError when a unit that is told is none
[[nodiscard]] LogScale guess_scale(LogTable& table, const LogColumns& columns,
                                   const std::map<LogRole, std::string>& told);

//! SI value of one of the unit that was told for a column. \throws ConfigError
[[nodiscard]] double told_factor(const LogTable& table, LogRole role, const std::string& unit);

}  // namespace hatring::io
