// SPDX-License-Identifier: MIT
#include <cmath>

#include "sim/answer/recorders.hpp"

namespace hatring::answer {

PedalRecorder::PedalRecorder(const session::Case& c, session::Axle axle, Columns& columns)
    : car_(c.car), columns_(columns) {
  const session::Brake& brake = c.brake(axle);
  const session::FrictionTable& table = brake.pads.friction;
  if (!table.values.empty()) friction_ = models::Curve(table.temperature, table.values);
  // Uniform wear puts the resultant at the mean of the two radii.
  radius_ = 0.25 * (brake.rotor.ring.outer_diameter + brake.rotor.ring.swept_inner_diameter);
  one_side_ = brake.caliper.pistons / 2.0 * M_PI / 4 * brake.caliper.piston_diameter * brake.caliper.piston_diameter;
  applicable_ = !friction_.empty() && one_side_ > 0;
  friction_coefficient_ =
      columns.add("pedal", "friction_coefficient", "1",
                  "Friction coefficient at the mean temperature of both pads' surfaces", !applicable_);
  pressure_ = columns.add("pedal", "pressure", "Pa",
                          "Line pressure that the trace's deceleration needs; 0 off the brakes", !applicable_);
}

double brake_torque(const session::Car& car, const solve::Load& load) {
  constexpr double kWalkingPace = 1;  // [m/s]
  if (load.heat <= 0 || load.speed < kWalkingPace) return 0;
  return load.heat * car.tyre_radius / (load.speed * (1 - car.tyre_slip_share));
}

void PedalRecorder::observe(const Snapshot& now) {
  if (!applicable_) return;
  const double friction = friction_(now.mean_pad());
  columns_.push(friction_coefficient_, friction);
  // Torque = 2 mu p A r.
  columns_.push(pressure_, brake_torque(car_, now.load) / (2 * friction * one_side_ * radius_));
}

}  // namespace hatring::answer
