// SPDX-License-Identifier: MIT
#include "sim/network/cooling.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/air.hpp"
#include "models/convection.hpp"
#include "sim/network/assumed.hpp"
#include "sim/network/kept.hpp"
#include "sim/session/error.hpp"

namespace hatring::network {

using namespace models;

// One law at many speeds and differences. What depends on the difference alone is kept until another is asked for.
class Cooling::Laws {
 public:
  explicit Laws(const Surroundings& air) : air_(air) {}

  double operator()(const RingFace& face, double speed, double difference) {
    if (air_.pinned) return *air_.pinned;
    const Air& f = film(difference);
    const double free_disc = disc_band(speed / air_.tyre_radius, face.inner, face.outer, f);
    const double on_road = solid_disc_road(speed, air_.diameter, f);
    const double shield = face.shielded ? assumed::kShieldedFace : 1.0;
    const double wind = flat_plate(assumed::kWindInWheel * air_.wind, air_.diameter, f);
    // What McPhee and Johnson imply for the outside: internal coefficient times (1 - internal share) / share.
    const double level =
        free_disc > 0 && on_road > 0
            ? std::exp((1 - assumed::kRoadWeight) * std::log(free_disc) + assumed::kRoadWeight * std::log(on_road))
            : 0;
    return combine(natural(difference, air_.diameter), combine(level * shield, wind));
  }

  double operator()(const RingEdge& edge, double speed, double difference) {
    if (air_.pinned) return *air_.pinned;
    const double forced = disc_face(speed / air_.tyre_radius, edge.radius, film(difference));
    return combine(natural(difference, edge.radius), forced);
  }

  double operator()(const VanePassages& passages, double speed, double difference) {
    const VaneGeometry& vanes = passages.vanes;
    const double area = vane_wetted_area(vanes);
    if (air_.pinned) return *air_.pinned * area;
    const double forced = vane_conductance(speed / air_.tyre_radius, vanes, outside_, assumed::kVaneFlowFactor);
    // Standing, air rises through the passages.
    const double still = assumed::kStillPassage * area * natural(difference, vanes.outer_radius - vanes.inner_radius);
    return combine(still, forced);
  }

  double operator()(const BluntBody& body, double speed, double difference) {
    if (air_.pinned) return *air_.pinned;
    const double air_speed = std::hypot(assumed::kAirSpeedInWheel * speed, assumed::kWindInWheel * air_.wind);
    return combine(natural(difference, body.size), crossflow_cylinder(air_speed, body.size, film(difference)));
  }

  double operator()(const DuctedAir& duct, double speed, double difference) {
    if (air_.pinned) return 0;
    const double air_velocity = air_.duct_efficiency * speed;
    const double carried = outside_.density * air_.duct_area * air_velocity * outside_.specific_heat;
    if (carried <= 0) return 0;
    // Through passages the air runs as fast as they let it; in the open it keeps the hose's speed.
    const double along = duct.passage > 0 ? air_velocity * air_.duct_area / duct.passage : air_velocity;
    const double wall = duct.area * flat_plate(along, duct.length, film(difference));
    return carried * -std::expm1(-wall / carried);
  }

  double operator()(const AirExchange&, double speed, double difference) const {
    // The soft square root keeps the flow's slope finite at equal temperatures.
    const double buoyant = assumed::kWheelBuoyantFlow * std::sqrt(std::hypot(difference, 1.0) / 100);
    const double flow = std::hypot(assumed::kWheelVentArea * speed, assumed::kWheelWindArea * air_.wind) + buoyant;
    return outside_.density * outside_.specific_heat * flow;
  }

 private:
  const Air& film(double difference) {
    if (difference != film_.difference)
      film_ = {difference, air(std::max(air_.temperature + 0.5 * difference, 150.0), air_.pressure)};
    return film_.air;
  }

  // A law asks for one height.
  double natural(double difference, double height) {
    if (difference != natural_.difference)
      natural_ = {difference, assumed::kEnclosure * natural_plate(std::max(air_.temperature + difference, 120.0),
                                                                  air_.temperature, height, air_.pressure)};
    return natural_.coefficient;
  }

  static constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
  const Surroundings& air_;
  const Air outside_ = air(air_.temperature, air_.pressure);
  struct {
    double difference = kNone;
    Air air;
  } film_;
  struct {
    double difference = kNone, coefficient = 0;
  } natural_;
};

struct Cooling::Tabulated {
  Surroundings air;
  Law law;
  double highest_speed;  // of the grid
  ConductanceTable table;
};

Cooling::Cooling(const session::Case& c, session::Axle axle)
    : cooling_(c.brake(axle).cooling),
      air_{.pinned = c.physics.convection,
           .temperature = c.air.temperature,
           .pressure = c.air.pressure,
           .wind = c.air.wind,
           .tyre_radius = c.car.tyre_radius,
           .diameter = c.brake(axle).rotor.ring.outer_diameter,
           .duct_area = cooling_.duct_area,
           .duct_efficiency = cooling_.duct_efficiency} {
  if (!(cooling_.duct_area >= 0) || !std::isfinite(cooling_.duct_area))
    throw session::CaseError(fmt::format("cooling.duct_area = {} m2: it must be 0 or more", cooling_.duct_area));
}

double Cooling::scale() const {
  return pinned() ? 1 : cooling_.scale * assumed::kConvection;
}

double Cooling::at(const Law& law, double speed, double difference) const {
  Laws laws(air_);
  return scale() * std::visit([&](const auto& one) { return laws(one, speed, difference); }, law);
}

ConductanceTable Cooling::table(const Law& law, const ConductanceGrid& grid) const {
  thread_local Kept<Tabulated> kept(128);  // 50 kB each; a car has some 25
  const double top = grid.highest_speed();
  const auto known =
      kept.find([&](const Tabulated& t) { return t.highest_speed == top && t.law == law && t.air == air_; },
                [&] {
                  Laws laws(air_);
                  const auto tabulated = [&](const auto& one) {
                    return ConductanceTable(grid, [&](double v, double d) { return laws(one, v, d); });
                  };
                  return Tabulated{air_, law, top, std::visit(tabulated, law)};
                });
  return {known->table, scale()};
}

}  // namespace hatring::network
