// SPDX-License-Identifier: MIT
#include "models/bolted_joint.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace hatring::models {
namespace {

// ISO 724 (from memory): pitch and core diameter of the 60 degree thread.
constexpr double kPitchDiameter = 0.64952, kCoreDiameter = 1.22687;
// VDI 2230 (from memory): equivalent lengths over the diameter of head, engaged thread and nut; slope of the cone.
constexpr double kHeadLength = 0.5, kEngagedLength = 0.5, kNutLength = 0.4, kConeSlope = 0.6;

double circle(double diameter) {
  return std::numbers::pi / 4 * diameter * diameter;
}

}  // namespace

double coarse_pitch(double diameter) {
  struct Row {
    double diameter, pitch;
  };
  constexpr Row kRows[] = {{20e-3, 2.5e-3},  {18e-3, 2.5e-3}, {16e-3, 2e-3},   {14e-3, 2e-3},
                           {12e-3, 1.75e-3}, {10e-3, 1.5e-3}, {8e-3, 1.25e-3}, {7e-3, 1e-3},
                           {6e-3, 1e-3},     {5e-3, 0.8e-3},  {4e-3, 0.7e-3},  {3e-3, 0.5e-3}};
  constexpr double kRounding = 1e-9, kLargest = 20e-3;
  if (diameter <= kLargest + kRounding)
    for (const Row& row : kRows)
      if (diameter >= row.diameter - kRounding) return row.pitch;
  throw std::invalid_argument("thread: expected a diameter of 3 to 20 mm");
}

double stress_area(double diameter, double pitch) {
  const double mean = diameter - (kPitchDiameter + kCoreDiameter) / 2 * pitch;
  if (!(pitch > 0 && diameter - kCoreDiameter * pitch > 0))
    throw std::invalid_argument("thread: the pitch leaves no core");
  return circle(mean);
}

double bolt_compliance(const Fastener& fastener, double grip, double modulus) {
  const double d = fastener.diameter, core = circle(d - kCoreDiameter * fastener.pitch), full = circle(d);
  if (!(d > kCoreDiameter * fastener.pitch && fastener.pitch > 0 && fastener.shank >= 0 && grip >= fastener.shank &&
        modulus > 0))
    throw std::invalid_argument("bolt: a core, a grip not below the shank and a positive modulus needed");
  return ((kHeadLength + kNutLength) * d / full + fastener.shank / full + (grip - fastener.shank) / core +
          kEngagedLength * d / core) /
         modulus;
}

double clamped_compliance(const Fastener& fastener, std::span<const ClampedLayer> layers, double outside) {
  double length = 0, softness = 0;
  for (const ClampedLayer& layer : layers) {
    if (!(layer.thickness > 0 && layer.modulus > 0)) throw std::invalid_argument("clamped layer: not positive");
    length += layer.thickness;
    softness += layer.thickness / layer.modulus;
  }
  const double hole = fastener.hole_diameter, head = std::min(fastener.head_diameter, outside);
  if (!(length > 0 && hole > 0 && head > hole))
    throw std::invalid_argument("clamped parts: a thickness and a head wider than its hole needed");
  // Two cones meet half-way unless they reach the part's edge first; between them it is pressed over its whole width.
  const double widest = std::min(outside, head + kConeSlope * length);
  const double cones = (widest - head) / kConeSlope;
  const double in_cones =
      2 / (hole * kConeSlope) * std::log((head + hole) * (widest - hole) / ((head - hole) * (widest + hole)));
  const double in_sleeve = 4 * (length - cones) / (widest * widest - hole * hole);
  return (in_cones + in_sleeve) / std::numbers::pi * softness / length;
}

double preload_change(double mismatch, double bolt_compliance, double clamped_compliance) {
  return mismatch / (bolt_compliance + clamped_compliance);
}

double bearing_area(const Fastener& fastener) {
  if (!(fastener.hole_diameter > 0 && fastener.head_diameter > fastener.hole_diameter))
    throw std::invalid_argument("fastener: the head must be wider than its hole");
  return circle(fastener.head_diameter) - circle(fastener.hole_diameter);
}

Preload::Preload(double cold, double cold_compliance)
    : assembled_(cold), cold_compliance_(cold_compliance), force_(cold) {
  if (!(cold >= 0 && cold_compliance > 0))
    throw std::invalid_argument("preload: a force of 0 or more and a positive compliance needed");
}

double Preload::step(const Now& now) {
  if (!(now.compliance > 0)) throw std::invalid_argument("preload: a positive compliance needed");
  hottest_ = std::max(hottest_, now.temperature);
  const double limit = std::max(0.0, now.limit);
  force_ = std::max(0.0, (assembled_ * cold_compliance_ + now.mismatch - set_) / now.compliance);
  if (force_ > limit) {
    set_ += (force_ - limit) * now.compliance;
    force_ = limit;
    yielded_at_ = now.temperature;
  }
  return force_;
}

double Preload::cold() const {
  return std::max(0.0, assembled_ - set_ / cold_compliance_);
}

}  // namespace hatring::models
