// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "sim/network/assemble.hpp"
#include "sim/network/assumed.hpp"
#include "sim/solve/integrate.hpp"
#include "tests/sim/network/track_case.hpp"

namespace hatring::network {
namespace {

// The assembled wheel, cut down to one pad with its plate and the pistons; both ends hold their temperature.
double steady_flow(const session::Case& c, double hot, double cold) {
  Network net = assemble(c, session::Axle::front, 50);
  net.surfaces.clear();
  net.radiations.clear();
  net.rubbings.clear();
  net.faces.clear();
  const auto kept = [&](NodeId i) {
    const std::string& name = net.nodes[static_cast<std::size_t>(i)].name;
    return name.starts_with("pad.outboard") || name == "backing.outboard" || name == "piston";
  };
  std::erase_if(net.links, [&](const Link& l) { return !kept(l.a) || !kept(l.b); });
  const NodeId first = net.find("pad.outboard.layer1"), last = net.find("piston");
  for (Node& n : net.nodes) n.temperature = cold;
  for (const auto& [node, temperature] : {std::pair{first, hot}, std::pair{last, cold}}) {
    net.nodes[static_cast<std::size_t>(node)].mass = 1e9;
    net.nodes[static_cast<std::size_t>(node)].temperature = temperature;
  }
  solve::WheelSystem system(net, [](double) { return solve::Load{.speed = 0, .heat = 0, .applied = 1}; });
  Eigen::VectorXd x = system.initial_state();
  constexpr double kLong = 5e4;  // a hundred times what the plate needs [s]
  solve::integrate(system, {0, kLong}, {kLong}, x, {.tolerance = {.reference = net.ambient}}, solve::ros34pw2(),
                   [](double, const Eigen::VectorXd&) {});
  Eigen::VectorXd rate = x;
  system.rates(kLong, x, rate);
  return rate[last];
}

session::Case constant_case() {
  session::Case c = test::track_case(session::Mesh::standard);
  c.physics.constant_properties = true;
  return c;
}

// From the middle of the first pad layer, half plates and halves of the pistons in series.
double by_hand(const session::Case& c, double first_layer) {
  const session::Pads& pads = c.brakes.front.pads;
  const session::Caliper& cal = c.brakes.front.caliper;
  const auto k = [&](const std::string& name) { return c.materials.at(name).conductivity(293.15); };
  const double rim = std::numbers::pi * (cal.piston_diameter - cal.piston_wall) * cal.piston_wall;
  const double seat = rim * cal.pistons / 2;
  return (pads.thickness - first_layer / 2) / (k(pads.material) * pads.area) +
         pads.backing_thickness / (k(pads.backing_material) * pads.area) + 1 / (assumed::kBackingPiston * seat) +
         pads.shim_resistance / pads.area + cal.piston_length / 2 / (k(cal.piston_material) * seat);
}

double first_layer(const session::Case& c) {
  const Network net = assemble(c, session::Axle::front, 50);
  const session::Pads& pads = c.brakes.front.pads;
  return net.nodes[static_cast<std::size_t>(net.find("pad.outboard.layer1"))].mass /
         (c.materials.at(pads.material).density * pads.area);
}

}  // namespace

TEST_CASE("steady heat through pad and backing plate and piston is that of their resistances in series") {
  session::Case c = constant_case();
  const double layer = first_layer(c);
  CHECK(steady_flow(c, 693.15, 393.15) == Approx(300 / by_hand(c, layer)).epsilon(1e-3));
  // A shim of 1 mm at 0.3 W/m/K lies in the same row.
  c.brakes.front.pads.shim_resistance = 1e-3 / 0.3;
  CHECK(steady_flow(c, 693.15, 393.15) == Approx(300 / by_hand(c, layer)).epsilon(1e-3));
}

TEST_CASE("a sliding caliper: pistons behind the inboard pad alone, the body's fingers behind the other") {
  session::Case c = constant_case();
  const Network fixed = assemble(c, session::Axle::front, 50);
  c.brakes.front.caliper.kind = session::CaliperKind::sliding;
  c.brakes.front.caliper.pistons /= 2;
  const Network sliding = assemble(c, session::Axle::front, 50);
  const auto link = [](const Network& net, const char* from, const char* to, const char* family) {
    const auto found = std::find_if(net.links.begin(), net.links.end(), [&](const Link& l) {
      return l.family == family && l.a == net.find(from) && l.b == net.find(to);
    });
    return found == net.links.end() ? 0 : net.conductance(*found, 293.15, 1);
  };
  const double seat = link(fixed, "backing.inboard", "piston", "pad_piston");
  CHECK(seat > 0);
  CHECK(link(fixed, "backing.outboard", "piston", "pad_piston") == seat);
  CHECK(link(sliding, "backing.inboard", "piston", "pad_piston") == Approx(seat));  // as many pistons behind that pad
  CHECK(link(sliding, "backing.outboard", "piston", "pad_piston") == 0);
  CHECK(link(sliding, "backing.outboard", "caliper", "pad_fingers") > 0);
  CHECK(link(fixed, "backing.outboard", "caliper", "pad_fingers") == 0);
  const auto mass = [](const Network& net) { return net.nodes[static_cast<std::size_t>(net.find("piston"))].mass; };
  CHECK(mass(sliding) == Approx(mass(fixed) / 2));
}

TEST_CASE("contact of a pad's config stands in for its prior") {
  session::Case c = constant_case();
  const auto contact = [&] {
    double sum = 0;
    for (const Rubbing& r : assemble(c, session::Axle::front, 50).rubbings) sum += r.contact;
    return sum / (2 * c.brakes.front.pads.area);
  };
  CHECK(contact() == Approx(assumed::kPadContact.likely));
  c.brakes.front.pads.contact = 1e4;
  CHECK(contact() == Approx(1e4));
}

}  // namespace hatring::network
