// SPDX-License-Identifier: MIT
//! \file
//! The speed of a lap that nobody has logged: a point-mass car round a track, at every place as fast as tyres,
//! engine and brakes allow. Checked by tests/sim/session/test_lap_speed.cpp and tests/checks/check_26_lap.py.
#pragma once

#include <vector>

#include "models/point_mass.hpp"
#include "sim/session/case.hpp"
#include "sim/session/track.hpp"

namespace hatring::session {

//! Share of its dry grip that a wet road leaves, for road tyres; 0.5 to 0.75 is told (common practice, no source).
inline constexpr double kWetGrip = 0.65;
//! The same for a damp one.
inline constexpr double kDampGrip = 0.8;

//! What the driver uses of what the car and the road have.
struct Effort {
  double pace = 1;  //!< share of the grip, across and along, and of the power, above 0 to 1 [-]
  double grip = 1;  //!< of the road over that of the dry road: rain takes grip and leaves the power [-]
};

//! Ends of a stretch are nodes; in between they lie no further apart than this [m].
inline constexpr double kLapStep = 2;
//! Longer tracks are refused: a wrong unit [m].
inline constexpr double kLongestTrack = 200e3;

struct LapSpeed {
  std::vector<double> distance;  //!< of the nodes; on a closed track the last is the first one again [m]
  std::vector<double> speed;     //!< [m/s]
  std::vector<double> grade;     //!< mean of the stretches on both sides; empty for a flat track [-]
  double time = 0;               //!< [s]
};

//! The car as the lap sees it. \throws CaseError when power or grip is missing
[[nodiscard]] models::PointMass point_mass_of(const Case& c, const Effort& effort);

//! \throws CaseError when the track has no length or cannot be driven by this car
[[nodiscard]] LapSpeed lap_speed(const models::PointMass& car, const Track& track, double step = kLapStep);

//! The lap as a trace over distance.
[[nodiscard]] Trace trace_of(const LapSpeed& lap, std::string name);

}  // namespace hatring::session
