// SPDX-License-Identifier: MIT
#include "models/radiation.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "models/constants.hpp"

namespace hatring::models {

double grey_flux(double emissivity, double temperature, double surroundings) {
  const double hot = temperature * temperature, cold = surroundings * surroundings;
  // Factored: no cancellation between two large fourth powers when the temperatures are close.
  return emissivity * kStefanBoltzmann * (hot + cold) * (temperature + surroundings) * (temperature - surroundings);
}

double exchange_factor(double emissivity1, double area1, double emissivity2, double area2, double view12) {
  if (emissivity1 <= 0 || emissivity2 <= 0 || area1 <= 0 || area2 <= 0 || view12 <= 0) return 0;
  return 1 /
         ((1 - emissivity1) / (emissivity1 * area1) + 1 / (area1 * view12) + (1 - emissivity2) / (emissivity2 * area2));
}

double bore_to_bell_view(double outer_radius, double inner_radius, double length) {
  if (!(inner_radius > 0) || !(outer_radius > inner_radius) || !(length > 0)) {
    throw std::invalid_argument("view factor: 0 < inner radius < outer radius and a positive length needed");
  }
  const double r = outer_radius / inner_radius;
  const double h = length / inner_radius;
  const double a = h * h + r * r - 1;
  const double b = h * h - r * r + 1;
  const double bracket = std::sqrt((a + 2) * (a + 2) - 4 * r * r) * std::acos(b / (r * a)) + b * std::asin(1 / r) -
                         std::numbers::pi * a / 2;
  return std::max(0.0, (1 - (std::acos(b / a) - bracket / (2 * h)) / std::numbers::pi) / r);
}

}  // namespace hatring::models
