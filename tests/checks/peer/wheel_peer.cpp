// SPDX-License-Identifier: MIT
#include "tests/checks/peer/wheel_peer.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <stdexcept>

#include "models/convection.hpp"
#include "sim/network/assumed.hpp"

namespace hatring::test {

namespace assumed = network::assumed;
using network::kAmbient;

namespace {

constexpr double kSigma = 5.670374419e-8;  // [W/m2/K4]

}  // namespace

WheelPeer::WheelPeer(const session::Case& c, session::Axle axle, const network::Network& network,
                     std::function<solve::Load(double)> load)
    : case_(c), brake_(c.brake(axle)), network_(network), load_(std::move(load)) {
  const models::Air outside = models::air(c.air.temperature, c.air.pressure);
  for (const network::Node& n : network.nodes) {
    const std::string& name = network.materials.at(static_cast<std::size_t>(n.content));
    if (n.part == network::Part::air)
      material_.push_back({.name = name,
                           .conductivity = models::Curve(outside.conductivity),
                           .specific_heat = models::Curve(outside.specific_heat)});
    else
      material_.push_back(c.materials.at(name));
  }
  for (const network::Surface& s : network.surfaces) laws_.push_back(law_of(s));
}

WheelPeer::Law WheelPeer::law_of(const network::Surface& s) const {
  using namespace models;
  const double ambient = case_.air.temperature, pressure = case_.air.pressure,
               wind = assumed::kWindInWheel * case_.air.wind;
  const double tyre = case_.car.tyre_radius, diameter = brake_.rotor.ring.outer_diameter, area = s.scale;
  const Air outside = air(ambient, pressure);
  const auto film = [=](double d) { return air(ambient + d / 2, pressure); };
  const auto still = [=](double d, double size) {
    return assumed::kEnclosure * natural_plate(ambient + d, ambient, size, pressure);
  };
  const auto body = [=](double size) -> Law {
    return [=](double v, double d) {
      return area * combine(still(d, size),
                            crossflow_cylinder(std::hypot(assumed::kAirSpeedInWheel * v, wind), size, film(d)));
    };
  };
  const auto edge = [=](double radius) -> Law {
    return [=](double v, double d) { return area * combine(still(d, radius), disc_face(v / tyre, radius, film(d))); };
  };
  const session::Ring& ring = brake_.rotor.ring;
  const VaneGeometry vanes{ring.outer_diameter / 2, ring.inner_diameter / 2, ring.thickness - 2 * ring.cheek_thickness,
                           ring.vanes.thickness, ring.vanes.count};

  double inner = 0, outer = 0;
  if (std::sscanf(s.law.c_str(), "ring face %lf to %lf m", &inner, &outer) == 2) {
    return [=](double v, double d) {
      const double road = solid_disc_road(v, diameter, film(d)), free = disc_band(v / tyre, inner, outer, film(d));
      const double level =
          v > 0 ? std::exp(assumed::kRoadWeight * std::log(road) + (1 - assumed::kRoadWeight) * std::log(free)) : 0;
      return area * combine(still(d, diameter), combine(level, flat_plate(wind, diameter, film(d))));
    };
  }
  if (s.law == "vane passages") {
    return [=](double v, double d) {
      const double rising =
          assumed::kStillPassage * vane_wetted_area(vanes) * still(d, vanes.outer_radius - vanes.inner_radius);
      return area * combine(rising, vane_conductance(v / tyre, vanes, outside, assumed::kVaneFlowFactor));
    };
  }
  if (s.law == "duct into the eye") {
    const double efficiency = brake_.cooling.duct_efficiency, hose = brake_.cooling.duct_area;
    return [=](double v, double d) {
      const double carried = outside.density * hose * efficiency * v * outside.specific_heat;
      if (carried <= 0) return 0.0;
      const double wall = vane_wetted_area(vanes) * flat_plate(efficiency * v * hose / vane_inlet_area(vanes),
                                                               vanes.outer_radius - vanes.inner_radius, film(d));
      return area * carried * (1 - std::exp(-wall / carried));
    };
  }
  if (s.law == "ring rim") return edge(vanes.outer_radius);
  if (s.law == "ring bore") return edge(vanes.inner_radius);
  if (s.law == "hat and hub") return body(brake_.rotor.hat.outer_diameter);
  if (s.law == "pad edge") return body(std::sqrt(brake_.pads.area));
  if (s.law == "caliper") return body(0.12);
  if (s.law == "wheel") return body(0.4);
  if (s.law == "air exchange of the wheel") {
    const double blown = assumed::kWheelWindArea * case_.air.wind;
    return [=](double v, double d) {
      const double rising = assumed::kWheelBuoyantFlow * std::sqrt(std::sqrt(d * d + 1) / 100);
      const double flow = std::sqrt(std::pow(assumed::kWheelVentArea * v, 2) + blown * blown) + rising;
      return outside.density * outside.specific_heat * flow;
    };
  }
  throw std::runtime_error("the peer knows no law called '" + s.law + "'");
}

void WheelPeer::rates(double time, const double* t, double* rate) const {
  const solve::Load load = load_(std::clamp(time, begin_ + 1e-8, end_ - 1e-8));
  const auto k = [&](int i) { return material_[static_cast<std::size_t>(i)].conductivity(t[i]); };
  std::vector<double> heat(network_.nodes.size(), 0.0);
  const auto flow = [&](int from, int to, double q) {
    heat[static_cast<std::size_t>(from)] -= q;
    if (to != kAmbient) heat[static_cast<std::size_t>(to)] += q;
  };
  const auto other = [&](int i) { return i == kAmbient ? case_.air.temperature : t[i]; };

  for (const network::Link& l : network_.links) {
    double contact = l.resistance;
    if (l.pressed > 0) contact = 1 / (1 / l.resistance + l.pressed * load.applied);
    flow(l.a, l.b, (t[l.a] - t[l.b]) / (l.shape_a / k(l.a) + contact + l.shape_b / k(l.b)));
  }
  for (const network::Rubbing& r : network_.rubbings) {
    // q = P/2 + G (pad surface - ring surface), each surface a half cell away from its node, over the part of the pad
    // that bears: the power per area that bears is P / applied.
    const double power = load.heat * r.share, g = r.contact;
    const double ring = r.shape_ring / k(r.ring), pad = r.shape_pad / k(r.pad);
    const double q = (power / 2 + g * (load.applied * (t[r.pad] - t[r.ring]) + power * pad)) / (1 + g * (ring + pad));
    heat[static_cast<std::size_t>(r.ring)] += q;
    heat[static_cast<std::size_t>(r.pad)] += power - q;
  }
  for (std::size_t i = 0; i < laws_.size(); ++i) {
    const network::Surface& s = network_.surfaces[i];
    const double difference = t[s.node] - other(s.air);
    flow(s.node, s.air, laws_[i](load.speed, difference) * difference);
  }
  for (const network::Radiation& r : network_.radiations)
    flow(r.a, r.b, kSigma * r.factor * (std::pow(t[r.a], 4) - std::pow(other(r.b), 4)));

  for (std::size_t i = 0; i < heat.size(); ++i)
    rate[i] = heat[i] / (network_.nodes[i].mass * material_[i].specific_heat(t[i]));
}

}  // namespace hatring::test
