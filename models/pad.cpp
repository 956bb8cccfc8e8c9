// SPDX-License-Identifier: MIT
#include "models/pad.hpp"

#include <cmath>
#include <limits>
#include <numbers>

namespace hatring::models {

double PadFriction::operator()(double face_temperature, double rubbing_speed, double pad_pressure) const {
  return temperature(face_temperature) * (speed.empty() ? 1 : speed(rubbing_speed)) *
         (pressure.empty() ? 1 : pressure(pad_pressure));
}

double Clamp::torque(double line_pressure, double face_temperature, double rubbing_speed) const {
  const double force = line_pressure * piston_area;
  return 2 * friction(face_temperature, rubbing_speed, force / pad_area) * force * radius;
}

double Clamp::pressure(double wanted, double face_temperature, double rubbing_speed) const {
  if (wanted <= 0) return 0;
  if (friction.pressure.empty())
    return wanted / (2 * friction(face_temperature, rubbing_speed, 0) * piston_area * radius);
  double low = 0, high = kHighestPressure;
  if (torque(high, face_temperature, rubbing_speed) < wanted) return std::numeric_limits<double>::infinity();
  constexpr int kHalvings = 60;  // 1e9 Pa to 1e-9 Pa
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = (low + high) / 2;
    (torque(middle, face_temperature, rubbing_speed) < wanted ? low : high) = middle;
  }
  return (low + high) / 2;
}

double Wear::operator()(double temperature) const {
  const double a = std::numbers::ln2 / (1 / onset - 1 / (onset + doubling));
  return cold * (1 + std::exp(a * (1 / onset - 1 / temperature)));
}

}  // namespace hatring::models
