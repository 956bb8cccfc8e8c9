// SPDX-License-Identifier: MIT
//! \file
//! The car as a point with tyres: what it can do at one place of the road, going round, speeding up and slowing down.
//! Quasi-steady: suspension, yaw and tyre slip are left out. The equations are Newton's second law along and across the
//! road with the friction circle of the tyres (Milliken and Milliken 1995, 'Race Car Vehicle Dynamics', from memory).
//! Checked by tests/models/test_point_mass.cpp.
#pragma once

#include <vector>

#include "models/brake_power.hpp"

namespace hatring::models {

struct PointMass {
  RoadLoad load;
  double grip = 1;       //!< largest tyre force over the load on the tyre, the same in every direction [-]
  double lift_area = 0;  //!< lift coefficient times area; negative is downforce [m2]
  double power = 0;      //!< at the driven wheels [W]
  std::vector<double> gear_tops = {};  //!< road speed at the rev limit in each gear, rising; empty: power is the only
                                       //!< bound [m/s]
  double full_power_from = 1;          //!< share of the rev limit from which the engine gives its full power [-]
  double driven_load = 1;              //!< share of the weight on the driven wheels at rest [-]
  double load_gain = 0;      //!< load gained by the driven wheels over the accelerating force m a: height of the
                             //!< centre of gravity over wheelbase, negative for driven front wheels [-]
  double braking_share = 1;  //!< share of the grip left that the driver uses on the brakes [-]
};

//! One place of the road.
struct RoadPlace {
  double curvature = 0;  //!< one over the radius of the driven line, either sign [1/m]
  double grade = 0;      //!< rise over run, uphill positive [-]
  double grip = 1;       //!< multiplies the grip of the tyres [-]
};

//! Load on all tyres, m g cos(slope) - rho (lift area) v^2 / 2, never negative [N].
[[nodiscard]] double tyre_load(const PointMass& car, double grade, double speed);

//! Speed at which going round takes all grip: m v^2 |curvature| = mu N(v). Infinite on a straight, and where downforce
//! grows faster with speed than the force that the corner asks for [m/s].
[[nodiscard]] double corner_speed(const PointMass& car, const RoadPlace& place);

//! Tyre force that is left along the road, sqrt((mu N)^2 - (m v^2 curvature)^2); 0 beyond the corner speed [N].
[[nodiscard]] double grip_left(const PointMass& car, const RoadPlace& place, double speed);

//! What engine and gears can put on the wheels at full throttle: power over speed, in gears no more than the torque at
//! full_power_from allows. The lowest gear that reaches the speed is in; changing gear takes no time; 0 above the last
//! gear's top speed; infinite at rest without gears [N].
[[nodiscard]] double engine_pull(const PointMass& car, double speed);

//! dv/dt at full throttle: engine or driven wheels' grip, less drag, rolling and grade; negative where the car cannot
//! hold its speed. Downforce is shared between the axles as the weight is. With r = grip_left / N the driven wheels
//! carry
//!   F = r (driven_load N + load_gain (F - resistance) / k_rot)   [m/s2]
[[nodiscard]] double full_throttle(const PointMass& car, const RoadPlace& place, double speed);

//! Deceleration -dv/dt at full braking: braking_share of the grip left, and drag, rolling and grade [m/s2].
[[nodiscard]] double full_braking(const PointMass& car, const RoadPlace& place, double speed);

}  // namespace hatring::models
