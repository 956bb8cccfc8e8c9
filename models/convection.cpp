// SPDX-License-Identifier: MIT
#include "models/convection.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "models/constants.hpp"

namespace hatring::models {
namespace {

// Below these Reynolds numbers the boundary-layer laws mean nothing, and re^exponent would have an endless slope at
// zero.
constexpr double kLowReynolds = 100;
constexpr double kLowReynoldsCylinder = 1;

// re^exponent, continued below `low` as a x^2 + b x^3 with the same value and slope, so that it is C1 through zero.
double soft_power(double re, double exponent, double low = kLowReynolds) {
  if (re >= low) return exponent == 0.5 ? std::sqrt(re) : std::pow(re, exponent);
  if (re == 0) return 0;
  const double x = re / low;
  return std::pow(low, exponent) * x * x * ((3 - exponent) - (2 - exponent) * x);
}

// 0 to 1 with level ends.
double smooth_step(double x) {
  x = std::clamp(x, 0.0, 1.0);
  return x * x * (3 - 2 * x);
}

struct Transition {
  double reynolds;  // middle
  double width;     // in ln(Re)
  double start = reynolds * std::exp(-width / 2), end = reynolds * std::exp(width / 2);

  template <class Laminar, class Turbulent>
  [[nodiscard]] double blend(double re, Laminar laminar, Turbulent turbulent) const {
    if (re <= start) return laminar(re);
    if (re >= end) return turbulent(re);
    const double weight = smooth_step(std::log(re / reynolds) / width + 0.5);
    return (1 - weight) * laminar(re) + weight * turbulent(re);
  }
};

const Transition kDiscTransition{2.4e5, 0.5};
const Transition kPlateTransition{5e5, 1.3862943611198906};  // ln 4

// Four-point Gauss-Legendre on [-1, 1].
constexpr std::array<double, 4> kGaussPoints{-0.861136311594053, -0.339981043584856, 0.339981043584856,
                                             0.861136311594053};
constexpr std::array<double, 4> kGaussWeights{0.347854845137454, 0.652145154862546, 0.652145154862546,
                                              0.347854845137454};

constexpr double kVaneExponent = 0.97;        // FITTED: slope of ln h against ln n, McPhee and Johnson 2008 (abstract)
constexpr double kVaneNusselt = 4.7735e-3;    // FITTED: 52.7 W/m2/K at 684 rpm with reference_vanes() and air at 300 K
constexpr double kLaminarDuctNusselt = 3.66;  // fully developed, uniform wall temperature, Incropera, from memory

double pumping_speed(double omega, const VaneGeometry& vanes) {
  return std::abs(omega) * std::sqrt(vanes.outer_radius * vanes.outer_radius - vanes.inner_radius * vanes.inner_radius);
}

}  // namespace

double disc_face(double omega, double radius, const Air& film) {
  if (radius <= 0) return 0;
  const double re = std::abs(omega) * radius * radius / film.kinematic_viscosity;
  const double nusselt = kDiscTransition.blend(
      re, [](double r) { return 0.33 * soft_power(r, 0.5); }, [](double r) { return 0.0194 * std::pow(r, 0.8); });
  return nusselt * film.conductivity / radius;
}

double disc_band(double omega, double inner_radius, double outer_radius, const Air& film) {
  const double rate = std::abs(omega);
  if (rate == 0 || outer_radius <= inner_radius) return disc_face(omega, outer_radius, film);
  const auto radius_at = [&](double re) {
    return std::clamp(std::sqrt(re * film.kinematic_viscosity / rate), inner_radius, outer_radius);
  };
  // Of coefficient times r dr. Each regime has its part of the band.
  const auto by_points = [&](double from, double to) {
    const double half = (to - from) / 2;
    double sum = 0;
    for (std::size_t i = 0; half > 0 && i < kGaussPoints.size(); ++i) {
      const double r = from + half + half * kGaussPoints[i];
      sum += kGaussWeights[i] * half * r * disc_face(omega, r, film);
    }
    return sum;
  };
  const double soft = radius_at(kLowReynolds), start = radius_at(kDiscTransition.start),
               end = radius_at(kDiscTransition.end);
  double sum = by_points(inner_radius, soft) + by_points(start, end);
  // The laminar coefficient is the same at every radius, the turbulent one goes with r^0.6.
  if (start > soft) sum += disc_face(omega, start, film) * (start * start - soft * soft) / 2;
  if (outer_radius > end) {
    const auto moment = [&](double r) { return r * r * disc_face(omega, r, film); };
    sum += (moment(outer_radius) - moment(end)) / 2.6;
  }
  return 2 * sum / (outer_radius * outer_radius - inner_radius * inner_radius);
}

double solid_disc_road(double speed, double diameter, const Air& film) {
  const double re = std::abs(speed) * diameter / film.kinematic_viscosity;
  const double nusselt = kDiscTransition.blend(
      re, [](double r) { return 0.70 * soft_power(r, 0.55); }, [](double r) { return 0.04 * std::pow(r, 0.8); });
  return nusselt * film.conductivity / diameter;
}

double vane_mass_flow(double omega, const VaneGeometry& vanes, const Air& inlet, double flow_factor) {
  return flow_factor * inlet.density * vane_inlet_area(vanes) * pumping_speed(omega, vanes);
}

VaneGeometry reference_vanes() {
  return {0.150, 0.090, 0.010, 0.006, 36};
}

double vane_coefficient(double omega, const VaneGeometry& vanes, const Air& film) {
  const double d = vane_hydraulic_diameter(vanes);
  const double re = pumping_speed(omega, vanes) * d / film.kinematic_viscosity;
  const double pumped = kVaneNusselt * soft_power(re, kVaneExponent);
  return combine(kLaminarDuctNusselt, pumped) * film.conductivity / d;
}

double vane_conductance(double omega, const VaneGeometry& vanes, const Air& inlet, double flow_factor) {
  const double capacity = vane_mass_flow(omega, vanes, inlet, flow_factor) * inlet.specific_heat;
  if (capacity <= 0) return 0;
  const double transfer_units = vane_coefficient(omega, vanes, inlet) * vane_wetted_area(vanes) / capacity;
  return -capacity * std::expm1(-transfer_units);
}

double duct_laminar(double mean_speed, double hydraulic_diameter, double length, const Air& film) {
  const double re = std::abs(mean_speed) * hydraulic_diameter / film.kinematic_viscosity;
  return 1.86 * soft_power(re, 1.0 / 3) * std::cbrt(film.prandtl * hydraulic_diameter / length) * film.conductivity /
         hydraulic_diameter;
}

double duct_turbulent(double mean_speed, double hydraulic_diameter, double length, const Air& film) {
  const double re = std::abs(mean_speed) * hydraulic_diameter / film.kinematic_viscosity;
  return 0.023 * (1 + std::pow(hydraulic_diameter / length, 0.67)) * soft_power(re, 0.8) *
         std::pow(film.prandtl, 0.33) * film.conductivity / hydraulic_diameter;
}

double natural_plate(double surface_temperature, double air_temperature, double height, double pressure) {
  const Air film = air((surface_temperature + air_temperature) / 2, pressure);
  const double nu = film.kinematic_viscosity;
  const double rayleigh = kGravity / film.temperature * std::abs(surface_temperature - air_temperature) * height *
                          height * height / (nu * nu) * film.prandtl;
  const double prandtl_term = std::pow(1 + std::pow(0.492 / film.prandtl, 9.0 / 16), 8.0 / 27);
  const double root = 0.825 + 0.387 * std::pow(rayleigh, 1.0 / 6) / prandtl_term;
  return root * root * film.conductivity / height;
}

double crossflow_cylinder(double speed, double diameter, const Air& film) {
  const double re = std::abs(speed) * diameter / film.kinematic_viscosity;
  const double pr = film.prandtl;
  const double nusselt = 0.3 + 0.62 * soft_power(re, 0.5, kLowReynoldsCylinder) * std::cbrt(pr) /
                                   std::sqrt(std::sqrt(1 + std::pow(0.4 / pr, 2.0 / 3))) *
                                   std::pow(1 + std::pow(re / 282000, 0.625), 0.8);
  return nusselt * film.conductivity / diameter;
}

double flat_plate(double speed, double length, const Air& film) {
  const double re = std::abs(speed) * length / film.kinematic_viscosity;
  const double nusselt = kPlateTransition.blend(
      re, [](double r) { return 0.664 * soft_power(r, 0.5); }, [](double r) { return 0.037 * std::pow(r, 0.8); });
  return nusselt * std::cbrt(film.prandtl) * film.conductivity / length;
}

double combine(double natural, double forced) {
  return std::cbrt(natural * natural * natural + forced * forced * forced);
}

}  // namespace hatring::models
