// SPDX-License-Identifier: MIT
#include "models/joint.hpp"

#include <cmath>
#include <stdexcept>

namespace hatring::models {

double ring_growth(double bore_radius, double bolt_radius, double mean_strain, double lug_strain) {
  return bore_radius * mean_strain + (bolt_radius - bore_radius) * lug_strain;
}

double hat_growth(double bolt_radius, double flange_strain, double bell_strain, double restraint) {
  return bolt_radius * (flange_strain + restraint * (bell_strain - flange_strain));
}

double bell_restraint(double bell_radius, double wall_thickness, double flange_width, double flange_thickness,
                      double poisson) {
  if (!(bell_radius > 0) || !(wall_thickness > 0) || !(flange_width > 0) || !(flange_thickness > 0)) {
    throw std::invalid_argument("joint: lengths of bell and flange must be positive");
  }
  // Both stiffnesses per arc length and per modulus, so that the modulus drops out.
  const double plate = 12 * (1 - poisson * poisson);
  const double beta = std::pow(plate / 4 / (bell_radius * bell_radius * wall_thickness * wall_thickness), 0.25);
  const double bell = 2 * beta * beta * beta * wall_thickness * wall_thickness * wall_thickness / plate;
  const double flange = flange_width * flange_thickness / (bell_radius * bell_radius);
  return bell / (bell + flange);
}

double differential_expansion(double ring_growth, double hat_growth) {
  return ring_growth - hat_growth;
}

double clearance_outward(double float_clearance, double differential) {
  return float_clearance - differential;
}

double clearance_inward(double float_clearance, double differential) {
  return float_clearance + differential;
}

}  // namespace hatring::models
