// SPDX-License-Identifier: MIT
#include "sim/answer/pedal_line.hpp"

#include <cmath>
#include <numbers>

namespace hatring::answer {
namespace {

constexpr double kStanding = 1;  // below this speed power says nothing about torque [m/s]

double circle(double diameter) {
  return std::numbers::pi / 4 * diameter * diameter;
}

}  // namespace

PedalLine::PedalLine(const session::Case& c, session::Axle axle)
    : tyre_radius_(c.car.tyre_radius), slip_(c.car.tyre_slip_share), hot_(c.brakes.hot_side_factor) {
  const session::Brake& brake = c.brake(axle);
  const session::Pads& pads = brake.pads;
  const auto curve = [](const auto& at, const auto& values) {
    return values.empty() ? models::Curve() : models::Curve(at, values);
  };
  clamp_.friction = {curve(pads.friction.temperature, pads.friction.values),
                     curve(pads.speed_factor.at, pads.speed_factor.values),
                     curve(pads.pressure_factor.at, pads.pressure_factor.values)};
  clamp_.piston_area = brake.caliper.pistons_of_a_pad() * circle(brake.caliper.piston_diameter);
  // Uniform wear puts the resultant at the mean of the two radii.
  clamp_.radius = 0.25 * (brake.rotor.ring.outer_diameter + brake.rotor.ring.swept_inner_diameter);
  clamp_.pad_area = pads.area;
  applicable_ = !clamp_.friction.temperature.empty() && clamp_.piston_area > 0 && pads.area > 0;
}

double PedalLine::rubbing_speed(double speed) const {
  // The wheel turns a little slower than the road by the tyre's slip.
  return speed * (1 - slip_) * clamp_.radius / tyre_radius_;
}

double PedalLine::pressure(double heat, double speed, double face) const {
  if (heat <= 0 || speed < kStanding) return 0;
  return clamp_.pressure(heat / hot_ * tyre_radius_ / (speed * (1 - slip_)), face, rubbing_speed(speed));
}

double PedalLine::friction(double line_pressure, double speed, double face) const {
  return clamp_.friction(face, rubbing_speed(speed), line_pressure * clamp_.piston_area / clamp_.pad_area);
}

double PedalLine::force(double line_pressure, double speed, double face) const {
  return 2 * clamp_.torque(line_pressure, face, rubbing_speed(speed)) / tyre_radius_;
}

std::optional<models::Hydraulics> pedal_of(const session::Case& c) {
  const session::Hydraulic& h = c.brakes.hydraulic;
  if (!(h.master_diameter > 0)) return std::nullopt;
  models::Hydraulics out{.pedal_ratio = h.pedal_ratio,
                         .booster = {h.booster_gain, h.booster_assist},
                         .front_area = circle(h.master_diameter),
                         .rear_area = circle(h.separate ? h.rear_master_diameter : h.master_diameter)};
  if (h.separate) {
    out.front_push = h.bias_bar;
    out.rear_push = 1 - h.bias_bar;
  }
  if (h.valve_pressure) {
    out.valve_pressure = *h.valve_pressure;
    out.valve_slope = h.valve_slope;
  }
  return out;
}

std::optional<models::Hydraulics> own_pedal_of(const session::Case& c) {
  return c.brakes.hydraulic.known ? pedal_of(c) : std::nullopt;
}

}  // namespace hatring::answer
