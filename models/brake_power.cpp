// SPDX-License-Identifier: MIT
#include "models/brake_power.hpp"

#include <cmath>

#include "models/constants.hpp"

namespace hatring::models {

Resistances resistances(const RoadLoad& load, double speed, double acceleration, double grade) {
  const double slope_length = std::sqrt(1 + grade * grade);  // cos = 1 / length, sin = grade / length
  const double weight = load.mass * kGravity;
  return {-load.mass * load.rotating_factor * acceleration, 0.5 * load.air_density * load.drag_area * speed * speed,
          weight * load.rolling_resistance / slope_length, weight * grade / slope_length};
}

double retarding_demand(const RoadLoad& load, double speed, double acceleration, double grade, double engine_drag) {
  const Resistances r = resistances(load, speed, acceleration, grade);
  return r.inertia - r.drag - r.rolling - r.grade - engine_drag;
}

double kinetic_energy(const RoadLoad& load, double speed) {
  return 0.5 * load.mass * load.rotating_factor * speed * speed;
}

}  // namespace hatring::models
