// SPDX-License-Identifier: MIT
//! \file
//! The invented car on an invented lap, for the checks that need a whole wheel in a whole session.
#pragma once

#include "sim/session/drive.hpp"
#include "sim/solve/wheel_system.hpp"
#include "tests/sim/network/track_case.hpp"
#include "tests/sim/session/synthetic_lap.hpp"

namespace hatring::test {

//! Out lap, hot laps, cool-down lap, then parked for five minutes.
[[nodiscard]] inline session::Case track_session(session::Mesh mesh, int hot_laps) {
  session::Case c = track_case(mesh);
  c.traces = {log_lap(drive_lap(c), {.jitter = 0.05, .channel = true})};
  c.session = {session::DriveStep{.kind = session::LapKind::out_lap, .pace = 0.75},
               session::DriveStep{.kind = session::LapKind::hot, .laps = hot_laps, .pace = 0.92},
               session::DriveStep{.kind = session::LapKind::cooldown, .pace = 0.7}, session::ParkStep{300}};
  return c;
}

//! What the drive asks of one wheel of the axle.
[[nodiscard]] inline std::function<solve::Load(double)> load_of(const session::Drive& drive, session::Axle axle) {
  return [&drive, axle, hint = std::size_t{0}](double t) mutable {
    const session::Moment m = drive.at(t, hint);
    return solve::Load{m.speed, drive.wheel_heat(axle, t, m), m.applied};
  };
}

}  // namespace hatring::test
