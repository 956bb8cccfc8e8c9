// SPDX-License-Identifier: MIT
//! \file
//! From the driver's foot to the pressure in the lines, and how the axles share the braking. Statics of levers and
//! pistons, no losses. Checked by tests/models/test_hydraulic.cpp.
#pragma once

#include <limits>

namespace hatring::models {

//! Force of a servo on its output: rod + min((gain - 1) rod, assist). Beyond run-out the driver adds alone.
struct Booster {
  double gain = 1;    //!< output over input before run-out; 1 is no servo [-]
  double assist = 0;  //!< the most it helps [N]

  [[nodiscard]] double output(double rod) const;
  [[nodiscard]] double rod(double output) const;  //!< inverse of output()
};

struct LinePressures {
  double front = 0, rear = 0;  //!< [Pa]
};

//! Pedal, servo, master cylinders and the valve in the rear line.
struct Hydraulics {
  double pedal_ratio = 1;  //!< rod force over pedal force [-]
  Booster booster;
  double front_area = 0, rear_area = 0;  //!< of the master cylinder pistons [m2]
  double front_push = 1, rear_push = 1;  //!< share of the push that each piston sees: 1 and 1 in a tandem [-]
  double valve_pressure = std::numeric_limits<double>::infinity();  //!< rear line: above it the valve holds back [Pa]
  double valve_slope = 1;  //!< rear pressure gained per pressure behind the valve; 0 is a limiter [-]

  //! \param effort pedal force [N]
  [[nodiscard]] LinePressures pressures(double effort) const;
  //! Pedal force for a pressure in the front line [N].
  [[nodiscard]] double effort_for_front(double pressure) const;
  //! The same for the rear line; infinite where a limiter lets no more through.
  [[nodiscard]] double effort_for_rear(double pressure) const;
};

//! Share of the weight, and so of the braking that uses both axles' tyres alike, on the front axle while slowing:
//! fraction + (deceleration / g) cg_height / wheelbase, within 0 and 1. Rigid car, no lift, no slope.
//! \param fraction at rest [-]  \param deceleration [m/s2]
[[nodiscard]] double ideal_front_share(double fraction, double cg_height, double wheelbase, double deceleration);

}  // namespace hatring::models
