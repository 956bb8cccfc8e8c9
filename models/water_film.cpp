// SPDX-License-Identifier: MIT
#include "models/water_film.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "models/constants.hpp"

namespace hatring::models {
namespace {

// Water and steam at 100 degC and 1 atm, from memory.
constexpr double kBoiling = kZeroCelsius + 100;
constexpr double kLatentHeat = 2.257e6;     // [J/kg]
constexpr double kLiquidDensity = 958;      // [kg/m3]
constexpr double kVapourDensity = 0.598;    // [kg/m3]
constexpr double kSurfaceTension = 0.0589;  // [N/m]
constexpr double kLiquidHeat = 4200;        // mean from 20 to 100 degC [J/kg/K]
constexpr double kZuberCritical = 0.131, kBerensonLeast = 0.09;
constexpr double kTransitionWidth = 100;  // above the Leidenfrost temperature, ours [K]

double wave_force() {
  return kSurfaceTension * kGravity * (kLiquidDensity - kVapourDensity);
}

}  // namespace

double critical_heat_flux() {
  return kZuberCritical * kLatentHeat * std::sqrt(kVapourDensity) * std::pow(wave_force(), 0.25);
}

double least_film_boiling_flux() {
  const double both = kLiquidDensity + kVapourDensity;
  return kBerensonLeast * kVapourDensity * kLatentHeat * std::pow(wave_force() / (both * both), 0.25);
}

double boiling_flux(const WaterFilm& film, double surface) {
  if (surface <= kBoiling) return 0;
  const double s = std::clamp((surface - film.leidenfrost) / kTransitionWidth, 0.0, 1.0);
  // On a logarithmic scale: the two ends differ by up to a factor of sixty.
  return std::pow(critical_heat_flux(), 1 - s) * std::pow(film.film_boiling, s);
}

double supplied_flux(const WaterFilm& film, double turns) {
  return kLiquidDensity * film.thickness * (kLiquidHeat * (kBoiling - film.water) + kLatentHeat) * turns;
}

double quench_flux(const WaterFilm& film, double surface, double turns) {
  return std::min(boiling_flux(film, surface), supplied_flux(film, turns));
}

double face_drop(double flux, double time, double effusivity, double surface) {
  if (!(time >= 0 && effusivity > 0))
    throw std::invalid_argument("face drop: a time of 0 or more and a positive effusivity needed");
  return std::min(2 * flux * std::sqrt(time / std::numbers::pi) / effusivity, std::max(0.0, surface - kBoiling));
}

double quench_stress(double modulus, double expansion, double poisson, double drop) {
  return modulus * expansion * drop / (1 - poisson);
}

}  // namespace hatring::models
