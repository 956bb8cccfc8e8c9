// SPDX-License-Identifier: MIT
#include "sim/answer/recorders.hpp"

namespace hatring::answer {

PedalRecorder::PedalRecorder(const session::Case& c, session::Axle axle, Columns& columns)
    : columns_(columns), line_(c, axle) {
  friction_coefficient_ =
      columns.add("pedal", "friction_coefficient", "1", "Friction coefficient at the mean temperature of both faces",
                  !line_.applicable());
  pressure_ = columns.add("pedal", "pressure", "Pa",
                          "Line pressure that the trace's deceleration needs; 0 off the brakes", !line_.applicable());
}

double brake_torque(const session::Car& car, const solve::Load& load) {
  constexpr double kWalkingPace = 1;  // [m/s]
  if (load.heat <= 0 || load.speed < kWalkingPace) return 0;
  return load.heat * car.tyre_radius / (load.speed * (1 - car.tyre_slip_share));
}

void PedalRecorder::observe(const Moments& rows) {
  if (!line_.applicable()) return;
  const solve::Series face = rows.mean_face();
  solve::Series pressure(rows.size()), friction(rows.size());
  for (Eigen::Index i = 0; i < rows.size(); ++i) {
    const solve::Load load = rows.load[i];
    pressure[i] = line_.pressure(load.heat, load.speed, face[i]);
    friction[i] = line_.friction(pressure[i], load.speed, face[i]);
  }
  columns_.append(friction_coefficient_, friction);
  columns_.append(pressure_, pressure);
}

}  // namespace hatring::answer
