// SPDX-License-Identifier: MIT
#include "models/hydraulic.hpp"

#include <algorithm>

#include "models/constants.hpp"

namespace hatring::models {

double Booster::output(double rod) const {
  return rod + std::min((gain - 1) * rod, assist);
}

double Booster::rod(double wanted) const {
  // Before run-out (gain - 1) rod <= assist; the two branches meet there, so the larger rod is the right one.
  return std::max(wanted / gain, wanted - assist);
}

LinePressures Hydraulics::pressures(double effort) const {
  const double push = booster.output(effort * pedal_ratio);
  const double rear = push * rear_push / rear_area;
  return {push * front_push / front_area,
          rear <= valve_pressure ? rear : valve_pressure + valve_slope * (rear - valve_pressure)};
}

double Hydraulics::effort_for_front(double pressure) const {
  return booster.rod(pressure * front_area / front_push) / pedal_ratio;
}

double Hydraulics::effort_for_rear(double pressure) const {
  if (pressure > valve_pressure) {
    if (valve_slope <= 0) return std::numeric_limits<double>::infinity();
    pressure = valve_pressure + (pressure - valve_pressure) / valve_slope;
  }
  return booster.rod(pressure * rear_area / rear_push) / pedal_ratio;
}

double ideal_front_share(double fraction, double cg_height, double wheelbase, double deceleration) {
  return std::clamp(fraction + deceleration / kGravity * cg_height / wheelbase, 0.0, 1.0);
}

}  // namespace hatring::models
