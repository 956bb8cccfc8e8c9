// SPDX-License-Identifier: MIT
//! \file
//! An invented lap whose braking energy is known: a car driven forward in time by given forces, then logged.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/session/case.hpp"
#include "sim/session/trace_fit.hpp"

namespace hatring::test {

struct Lap {
  double step = 0;                          //!< [s]
  std::vector<double> speed, brake_force;   //!< at every step [m/s], [N]
  std::vector<session::Interval> brakings;  //!< from first to last brake force [s]
  double heat = 0;                          //!< integral of brake force times speed [J]
};

//! A case with an invented light car and no session yet.
[[nodiscard]] session::Case plain_case();
//! As plain_case, but nothing resists or slips: drag, rolling, engine, rotating parts and tyre slip are off.
[[nodiscard]] session::Case frictionless_case(double mass);

//! Eight brakings in about 80 s, flying start: full throttle, brake force rising in 0.15 s, trailed off into the
//! corner.
[[nodiscard]] Lap drive_lap(const session::Case& c);

struct Logger {
  double rate = 25;      //!< [1/s]
  double jitter = 0;     //!< standard deviation of the speed [m/s]
  bool uneven = false;   //!< sample times scattered by 30 % of the interval
  bool channel = false;  //!< with a brake channel
  std::uint32_t seed = 1;
};
[[nodiscard]] session::Trace log_lap(const Lap& lap, const Logger& logger);

//! Heat of the brakes by the drive over a one-lap session of this trace, tyre slip put back [J].
[[nodiscard]] double heat_of(session::Case c, const session::Trace& trace);

//! The case with this trace and these steps.
[[nodiscard]] session::Case with(session::Case c, std::vector<session::Trace> traces, std::vector<session::Step> steps);

}  // namespace hatring::test
