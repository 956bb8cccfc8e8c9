// SPDX-License-Identifier: MIT
#include "models/contact.hpp"

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace hatring::models {
namespace {
constexpr double kPressedDiameters = 1.75;  // head diameters, between the 1.5 and 2 of common statements, from memory
}

double contact_coefficient(double conductivity1, double conductivity2, double roughness, double slope, double pressure,
                           double hardness) {
  if (!(conductivity1 > 0) || !(conductivity2 > 0) || !(roughness > 0) || !(hardness > 0) || !(slope >= 0) ||
      !(pressure >= 0)) {
    throw std::invalid_argument(
        "contact: conductivities, roughness and hardness must be positive, pressure not negative");
  }
  const double harmonic = 2 * conductivity1 * conductivity2 / (conductivity1 + conductivity2);
  return 1.25 * harmonic * slope / roughness * std::pow(pressure / hardness, 0.95);
}

double gap_coefficient(double air_conductivity, double gap, double jump) {
  if (!(gap + jump > 0)) throw std::invalid_argument("contact: gap and jump distance must add to more than zero");
  return air_conductivity / (gap + jump);
}

double joint_surface_factor(JointSurface surface) {
  switch (surface) {
    case JointSurface::dry:
      return 1;
    case JointSurface::corroded:
      return 0.5;
    case JointSurface::pasted:
    case JointSurface::gasketed:
      return 5;
  }
  throw std::invalid_argument("contact: unknown joint surface");
}

double bolted_contact_pressure_area(double head_diameter, double hole_diameter) {
  const double pressed = kPressedDiameters * head_diameter;
  if (!(hole_diameter >= 0) || !(pressed > hole_diameter)) {
    throw std::invalid_argument("contact: the hole must be smaller than the pressed circle");
  }
  return std::numbers::pi / 4 * (pressed * pressed - hole_diameter * hole_diameter);
}

}  // namespace hatring::models
