// SPDX-License-Identifier: MIT
#include "models/thermal_stress.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <stdexcept>
#include <utility>

namespace hatring::models {
namespace {

double squared(double x) {
  return x * x;
}

double cubed(double x) {
  return x * x * x;
}

// (b^2 + a^2) / (b^2 - a^2)
double thickness_ratio(const ThickRing& ring) {
  if (!(ring.inner >= 0 && ring.outer > ring.inner && ring.modulus > 0))
    throw std::invalid_argument("thick ring: outer > inner >= 0 and a positive modulus needed");
  const double a2 = squared(ring.inner), b2 = squared(ring.outer);
  return (b2 + a2) / (b2 - a2);
}

void check(const ConstrainedFibre::Properties& p) {
  if (!(p.stiffness > 0 && p.tensile_yield > 0 && p.compressive_yield > 0))
    throw std::invalid_argument("fibre: stiffness and yield stresses must be positive");
}

}  // namespace

AnnulusStress::AnnulusStress(double bore, double outer, std::vector<double> centres)
    : bore_(bore), outer_(outer), centres_(std::move(centres)) {
  if (!(bore > 0 && outer > bore)) throw std::invalid_argument("annulus: outer > bore > 0 needed");
  if (centres_.empty() || centres_.front() < bore || centres_.back() > outer ||
      std::adjacent_find(centres_.begin(), centres_.end(), std::greater_equal<>()) != centres_.end())
    throw std::invalid_argument("annulus: band centres must rise between bore and outer edge");
}

// Share of each band's strain in the strain at a radius.
std::vector<double> AnnulusStress::shares(double radius) const {
  std::vector<double> share(centres_.size(), 0);
  const auto above = std::upper_bound(centres_.begin(), centres_.end(), radius);
  if (above == centres_.begin()) {
    share.front() = 1;
  } else if (above == centres_.end()) {
    share.back() = 1;
  } else {
    const auto i = static_cast<std::size_t>(above - centres_.begin());
    share[i] = (radius - centres_[i - 1]) / (centres_[i] - centres_[i - 1]);
    share[i - 1] = 1 - share[i];
  }
  return share;
}

// Weights of the integral of eps r dr from the bore. eps r is quadratic between centres: Simpson's rule is exact.
std::vector<double> AnnulusStress::moments(double to) const {
  std::vector<double> weight(centres_.size(), 0);
  std::vector<double> edges{bore_};
  for (const double centre : centres_)
    if (centre > bore_ && centre < to) edges.push_back(centre);
  edges.push_back(to);
  for (std::size_t piece = 0; piece + 1 < edges.size(); ++piece) {
    const double from = edges[piece], end = edges[piece + 1], middle = (from + end) / 2;
    for (const auto& [radius, part] : {std::pair{from, 1.0}, {middle, 4.0}, {end, 1.0}}) {
      const std::vector<double> share = shares(radius);
      for (std::size_t i = 0; i < weight.size(); ++i) weight[i] += part / 6 * (end - from) * radius * share[i];
    }
  }
  return weight;
}

std::vector<double> AnnulusStress::hoop_weights(double radius) const {
  const double r2 = squared(radius), whole = (r2 + squared(bore_)) / (squared(outer_) - squared(bore_));
  const std::vector<double> all = moments(outer_), inside = moments(radius), here = shares(radius);
  std::vector<double> weight(all.size());
  for (std::size_t i = 0; i < weight.size(); ++i) weight[i] = (whole * all[i] + inside[i]) / r2 - here[i];
  return weight;
}

std::vector<double> AnnulusStress::radial_weights(double radius) const {
  const double r2 = squared(radius), whole = (r2 - squared(bore_)) / (squared(outer_) - squared(bore_));
  const std::vector<double> all = moments(outer_), inside = moments(radius);
  std::vector<double> weight(all.size());
  for (std::size_t i = 0; i < weight.size(); ++i) weight[i] = (whole * all[i] - inside[i]) / r2;
  return weight;
}

double face_stress(double modulus, double poisson, double mean_strain, double face_strain) {
  return modulus * (mean_strain - face_strain) / (1 - poisson);
}

double ConstrainedFibre::step(double strain, const Properties& now) {
  check(now);
  stress_ = std::clamp(now.stiffness * (strain - plastic_), -now.compressive_yield, now.tensile_yield);
  // Only what lies beyond yield is plastic: elsewhere this leaves it as it was, but for rounding.
  const double elastic = stress_ / now.stiffness;
  if (stress_ == -now.compressive_yield || stress_ == now.tensile_yield) plastic_ = strain - elastic;
  return stress_;
}

double ConstrainedFibre::residual(const Properties& cold) const {
  check(cold);
  return std::clamp(-cold.stiffness * plastic_, -cold.compressive_yield, cold.tensile_yield);
}

double bore_compliance(const ThickRing& ring) {
  return ring.inner / ring.modulus * (thickness_ratio(ring) + ring.poisson);
}

double rim_compliance(const ThickRing& ring) {
  return ring.outer / ring.modulus * (thickness_ratio(ring) - ring.poisson);
}

double bore_stiffness(const ThickRing& ring, double thickness) {
  return 2 * std::numbers::pi * ring.inner * thickness / bore_compliance(ring);
}

double rim_stiffness(const ThickRing& ring, double thickness) {
  return 2 * std::numbers::pi * ring.outer * thickness / rim_compliance(ring);
}

Interference lame_interference(const ThickRing& ring, const ThickRing& flange, double interference) {
  constexpr double kFit = 0.1;
  if (std::abs(ring.inner - flange.outer) > kFit * flange.outer)
    throw std::invalid_argument("interference: the flange's rim must lie at the ring's bore");
  const double pressure = std::max(0.0, interference) / (bore_compliance(ring) + rim_compliance(flange));
  const double flange_ratio = thickness_ratio(flange);
  return {pressure, pressure * thickness_ratio(ring), -pressure * (flange.inner > 0 ? flange_ratio + 1 : 1),
          -pressure * flange_ratio};
}

Coning coning(double outboard_strain, double inboard_strain, double outboard_thickness, double inboard_thickness,
              double gap, double bore, double outer) {
  if (!(outboard_thickness > 0 && inboard_thickness > 0 && gap >= 0 && bore >= 0 && outer > bore))
    throw std::invalid_argument("coning: positive thicknesses and outer > bore >= 0 needed");
  const double distance = gap + (outboard_thickness + inboard_thickness) / 2;
  const double area = outboard_thickness * inboard_thickness / (outboard_thickness + inboard_thickness);
  const double own = (cubed(outboard_thickness) + cubed(inboard_thickness)) / 12;
  const double curvature = (outboard_strain - inboard_strain) * distance * area / (own + area * squared(distance));
  return {curvature, -curvature * outer, -curvature * (squared(outer) - squared(bore)) / 2};
}

double notch_concentration(double depth, double root_radius) {
  if (!(depth >= 0 && root_radius > 0)) throw std::invalid_argument("notch: depth >= 0 and radius > 0 needed");
  return 1 + 2 * std::sqrt(depth / root_radius);
}

double felt_concentration(double concentration, double sensitivity) {
  if (!(sensitivity >= 0) || !(sensitivity <= 1)) {
    throw std::invalid_argument("thermal stress: notch sensitivity lies between 0 and 1");
  }
  return 1 + sensitivity * (concentration - 1);
}

double biot_number(double coefficient, double length, double conductivity) {
  return coefficient * length / conductivity;
}

double shock_resistance(double strength, double poisson, double modulus, double expansion) {
  return strength * (1 - poisson) / (modulus * expansion);
}

double utilisation(double stress, double strength) {
  return strength > 0 ? std::abs(stress) / strength : std::numeric_limits<double>::infinity();
}

}  // namespace hatring::models
