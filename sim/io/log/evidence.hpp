// SPDX-License-Identifier: MIT
//! \file
//! What the numbers of a log would mean in given units, for guessing these. Checked by
//! tests/sim/io/test_log_guesses.cpp.
#pragma once

#include <optional>
#include <utility>

#include "sim/io/log/columns.hpp"

namespace hatring::io {

//! Rows where axis and speed are there, as written; NaN where another column has nothing.
struct Points {
  std::vector<double> axis, speed, latitude, longitude, distance, push;
};
//! \param axis time, or distance where there is no time. `push` is an acceleration along the car, found by its title.
[[nodiscard]] Points points_of(const LogTable& table, const LogColumns& columns, LogRole axis);

// Factors to SI: `axis` of the axis, `speed` of the speed.

//! 98th percentiles of slowing down and of speeding up, over about a second or 25 m [m/s2].
[[nodiscard]] std::pair<double, double> hardest_changes(const Points& p, double axis, double speed, bool time);
//! Way by the speed over that of the positions; NaN when they show none.
[[nodiscard]] double way_ratio(const Points& p, double axis, double speed);
//! The same over the way in the distance column. \param odometer its factor; unknown: metres or feet, whichever fits
//! better, as kilometres and miles are to each other what km/h and mph are
[[nodiscard]] double odometer_ratio(const Points& p, double axis, double speed, std::optional<double> odometer);
//! Acceleration of the speed over that of the accelerometer, in g or m/s2, whichever fits better; NaN when they have
//! little to do with each other.
[[nodiscard]] double accelerometer_ratio(const Points& p, double axis, double speed);

}  // namespace hatring::io
