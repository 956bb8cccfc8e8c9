// SPDX-License-Identifier: MIT
//! \file
//! The columns of a log on one clock, repaired: what the logger got wrong is put right where that is certain and left
//! out where it is not, and every row concerned is named. Checked by tests/sim/io/test_log_faults.cpp.
#pragma once

#include "sim/io/log/position.hpp"
#include "sim/io/log/units.hpp"

namespace hatring::io {

//! The drive, at the instants of the speed samples. All of one length; a channel that is not there is empty.
struct LogDrive {
  bool over_distance = false;    //!< the log has no time: `distance` is as logged, `time` follows from it
  std::vector<double> time;      //!< strictly rising [s]
  std::vector<double> distance;  //!< strictly rising where the car moves; speed integrated over time, or as logged [m]
  std::vector<double> speed;     //!< [m/s]
  std::vector<double> altitude;  //!< [m]
  std::vector<double> brake;     //!< raw, in the unit of its column
  std::vector<double> lap;       //!< number of the logger, NaN before the first
  std::vector<LatLon> position;  //!< NaN where there is none
  std::vector<std::size_t> lines;  //!< of the file
  std::vector<double> restarts;    //!< times at which the logger's clock, or distance, began again [s]
  std::vector<double> hole_ends;   //!< ends of holes in the speed, longer than kHole [s]
};

//! Without a speed for longer than this, a lap is not complete [s].
inline constexpr double kHole = 2;
//! No car changes speed faster than this on its wheels: about 4 g (our choice) [m/s2].
inline constexpr double kImpossible = 40;

//! Adds its findings to the guesses and faults of the table.
//! \throws ConfigError when fewer than two usable samples are left
[[nodiscard]] LogDrive make_drive(LogTable& table, const LogColumns& columns, const LogScale& scale,
                                  const std::map<LogRole, std::string>& told_units);

//! Seconds (or metres) of each row, NaN where it has none that can be used: midnight is passed, a clock that begins
//! again is strung on, single stamps that are out of line are left out, rows that share a coarse stamp are spread
//! evenly.
struct LogClock {
  std::vector<double> time;
  std::vector<double> restarts;
};
[[nodiscard]] LogClock repaired_clock(LogTable& table, std::size_t column, double factor, bool distance = false);

//! Speeds that can be driven, and where: 0 without a fix, spikes and repeats of a slower sensor are taken out.
struct SpeedSamples {
  std::vector<std::size_t> rows;
  std::vector<double> axis, speed;
};
//! \param axis of each row, NaN where there is none  \param time whether it is time and not distance
[[nodiscard]] SpeedSamples usable_speeds(LogTable& table, std::size_t column, double factor,
                                         const std::vector<double>& axis, bool time);

}  // namespace hatring::io
