// SPDX-License-Identifier: MIT
#include "sim/network/cooling.hpp"

#include <fmt/format.h>

#include <cmath>

#include "models/convection.hpp"
#include "sim/network/assumed.hpp"
#include "sim/session/error.hpp"

namespace hatring::network {

using namespace models;

Cooling::Cooling(const session::Case& c, session::Axle axle)
    : physics_(c.physics),
      cooling_(c.brake(axle).cooling),
      scale_(c.brake(axle).cooling.scale * assumed::kConvection),
      ambient_(c.air.temperature),
      pressure_(c.air.pressure),
      wind_(c.air.wind),
      tyre_radius_(c.car.tyre_radius),
      diameter_(c.brake(axle).rotor.ring.outer_diameter) {
  if (!(cooling_.duct_area >= 0) || !std::isfinite(cooling_.duct_area))
    throw session::CaseError(fmt::format("cooling.duct_area = {} m2: it must be 0 or more", cooling_.duct_area));
}

const Air& Cooling::film(double difference) const {
  if (difference != film_.difference)
    film_ = {difference, air(std::max(ambient_ + 0.5 * difference, 150.0), pressure_)};
  return film_.air;
}

double Cooling::natural(double difference, double height) const {
  if (difference != natural_.difference || height != natural_.height)
    natural_ = {
        difference, height,
        assumed::kEnclosure * natural_plate(std::max(ambient_ + difference, 120.0), ambient_, height, pressure_)};
  return natural_.coefficient;
}

double Cooling::air_speed(double speed) const {
  return std::hypot(assumed::kAirSpeedInWheel * speed, assumed::kWindInWheel * wind_);
}

double Cooling::ring_face(double speed, double difference, double inner, double outer, bool inboard) const {
  if (pinned()) return *physics_.convection;
  const Air& f = film(difference);
  const double free_disc = disc_band(speed / tyre_radius_, inner, outer, f);
  const double on_road = solid_disc_road(speed, diameter_, f);
  const double shield = inboard && cooling_.shield ? assumed::kShieldedFace : 1.0;
  const double wind = flat_plate(assumed::kWindInWheel * wind_, diameter_, f);
  // What McPhee and Johnson imply for the outside: internal coefficient times (1 - internal share) / share.
  const double level =
      free_disc > 0 && on_road > 0
          ? std::exp((1 - assumed::kRoadWeight) * std::log(free_disc) + assumed::kRoadWeight * std::log(on_road))
          : 0;
  const double forced = combine(level * shield, wind);
  return scale_ * combine(natural(difference, diameter_), forced);
}

double Cooling::ring_edge(double speed, double difference, double radius) const {
  if (pinned()) return *physics_.convection;
  const double forced = disc_face(speed / tyre_radius_, radius, film(difference));
  return scale_ * combine(natural(difference, radius), forced);
}

double Cooling::vanes(double speed, double difference, const VaneGeometry& vanes) const {
  const double area = vane_wetted_area(vanes);
  if (pinned()) return *physics_.convection * area;
  const Air inlet = air(ambient_, pressure_);
  const double forced = vane_conductance(speed / tyre_radius_, vanes, inlet, assumed::kVaneFlowFactor);
  // Standing, air rises through the passages.
  const double still = assumed::kStillPassage * area * natural(difference, vanes.outer_radius - vanes.inner_radius);
  return scale_ * combine(still, forced);
}

double Cooling::body(double speed, double difference, double size) const {
  if (pinned()) return *physics_.convection;
  const double forced = crossflow_cylinder(air_speed(speed), size, film(difference));
  return scale_ * combine(natural(difference, size), forced);
}

double Cooling::duct(double speed, double difference, double area, double length, double passage) const {
  if (pinned() || cooling_.duct_area <= 0) return 0;
  const double air_velocity = cooling_.duct_efficiency * speed;
  const Air outside = air(ambient_, pressure_);
  const double carried = outside.density * cooling_.duct_area * air_velocity * outside.specific_heat;
  if (carried <= 0) return 0;
  // Through passages the air runs as fast as they let it; in the open it keeps the hose's speed.
  const double along = passage > 0 ? air_velocity * cooling_.duct_area / passage : air_velocity;
  const double wall = area * flat_plate(along, length, film(difference));
  return scale_ * carried * -std::expm1(-wall / carried);
}

double Cooling::exchange(double speed, double difference) const {
  const Air outside = air(ambient_, pressure_);
  // The soft square root keeps the flow's slope finite at equal temperatures.
  const double buoyant = assumed::kWheelBuoyantFlow * std::sqrt(std::hypot(difference, 1.0) / 100);
  const double flow = std::hypot(assumed::kWheelVentArea * speed, assumed::kWheelWindArea * wind_) + buoyant;
  return scale_ * outside.density * outside.specific_heat * flow;
}

}  // namespace hatring::network
