// SPDX-License-Identifier: MIT
//! \file
//! Retarding force and energy of the whole car (Newton's second law along the road). Checked by
//! tests/models/test_brake_power.cpp.
#pragma once

namespace hatring::models {

struct RoadLoad {
  double mass = 0;                //!< [kg]
  double rotating_factor = 1;     //!< effective over actual mass [-]
  double drag_area = 0;           //!< drag coefficient times frontal area [m2]
  double rolling_resistance = 0;  //!< [-]
  double air_density = 0;         //!< [kg/m3]
  [[nodiscard]] bool operator==(const RoadLoad&) const = default;
};

//! Forces at one moment [N]. `inertia` is positive when the car slows down (it pushes the car on); the other three are
//! positive when they hold the car back, so grade is negative downhill.
struct Resistances {
  double inertia = 0;  //!< -m k_rot dv/dt
  double drag = 0;     //!< rho CdA v^2 / 2
  double rolling = 0;  //!< m g Crr cos(slope)
  double grade = 0;    //!< m g sin(slope)
};

//! \param speed [m/s]
//! \param acceleration dv/dt, negative when slowing [m/s2]
//! \param grade rise over run, uphill positive [-]
[[nodiscard]] Resistances resistances(const RoadLoad& load, double speed, double acceleration, double grade);

//! Force that brakes and engine must add for this motion, less the engine's part [N]:
//! inertia - drag - rolling - grade - engine_drag. Positive: the friction brakes hold back. Negative: the car is
//! driven.
//! \param engine_drag engine braking at the tyres, positive when it holds back [N]
[[nodiscard]] double retarding_demand(const RoadLoad& load, double speed, double acceleration, double grade,
                                      double engine_drag);

[[nodiscard]] double kinetic_energy(const RoadLoad& load, double speed);  //!< m k_rot v^2 / 2 [J]

}  // namespace hatring::models
