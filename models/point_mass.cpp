// SPDX-License-Identifier: MIT
#include "models/point_mass.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/constants.hpp"

namespace hatring::models {
namespace {

constexpr double kUnbounded = std::numeric_limits<double>::infinity();

double resistance(const PointMass& car, double grade, double speed) {
  const Resistances r = resistances(car.load, speed, 0, grade);
  return r.drag + r.rolling + r.grade;
}

}  // namespace

double tyre_load(const PointMass& car, double grade, double speed) {
  const double weight = car.load.mass * kGravity / std::sqrt(1 + grade * grade);
  return std::max(0.0, weight - 0.5 * car.load.air_density * car.lift_area * speed * speed);
}

double corner_speed(const PointMass& car, const RoadPlace& place) {
  const double grip = car.grip * place.grip;
  // m v^2 kappa = mu (W - lift v^2), solved for v^2
  const double asked = car.load.mass * std::abs(place.curvature) + grip * 0.5 * car.load.air_density * car.lift_area;
  return asked > 0 ? std::sqrt(grip * tyre_load(car, place.grade, 0) / asked) : kUnbounded;
}

double grip_left(const PointMass& car, const RoadPlace& place, double speed) {
  const double all = car.grip * place.grip * tyre_load(car, place.grade, speed);
  const double across = car.load.mass * speed * speed * place.curvature;
  return std::sqrt(std::max(0.0, all * all - across * across));
}

double engine_pull(const PointMass& car, double speed) {
  if (car.gear_tops.empty()) return speed > 0 ? car.power / speed : kUnbounded;
  const auto gear = std::lower_bound(car.gear_tops.begin(), car.gear_tops.end(), speed);
  return gear == car.gear_tops.end() ? 0 : car.power / std::max(speed, car.full_power_from * *gear);
}

double full_throttle(const PointMass& car, const RoadPlace& place, double speed) {
  const double load = tyre_load(car, place.grade, speed), held = resistance(car, place.grade, speed);
  const double r = load > 0 ? grip_left(car, place, speed) / load : 0;
  const double gain = r * car.load_gain / car.load.rotating_factor;
  // The load that acceleration brings to the wheels cannot exceed all there is.
  const double wheels = gain < 1 ? (r * car.driven_load * load - gain * held) / (1 - gain) : r * load;
  const double pull = std::min(engine_pull(car, speed), std::clamp(wheels, 0.0, r * load));
  return (pull - held) / (car.load.mass * car.load.rotating_factor);
}

double full_braking(const PointMass& car, const RoadPlace& place, double speed) {
  return (car.braking_share * grip_left(car, place, speed) + resistance(car, place.grade, speed)) /
         (car.load.mass * car.load.rotating_factor);
}

}  // namespace hatring::models
