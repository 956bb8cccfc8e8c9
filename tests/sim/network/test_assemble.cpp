// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <map>

#include "models/disc_geometry.hpp"
#include "sim/network/assemble.hpp"
#include "sim/session/error.hpp"
#include "sim/solve/wheel_system.hpp"
#include "tests/sim/network/track_case.hpp"

namespace hatring::network {
namespace {

using Catch::Matchers::Contains;
using session::Axle;
using session::Mesh;

constexpr double kHighestSpeed = 65;

Network front(const session::Case& c) {
  return assemble(c, Axle::front, kHighestSpeed);
}

double mass_of(const Network& net, Part part) {
  double sum = 0;
  for (const Node& n : net.nodes)
    if (n.part == part) sum += n.mass;
  return sum;
}

double conductance_of(const Network& net, const std::string& family) {
  double sum = 0;
  for (const Link& l : net.links)
    if (l.family == family) sum += net.conductance(l, models::kReferenceTemperature);
  return sum;
}

// The node on the other side of the disc; itself if it lies on neither.
NodeId mirrored(const Network& net, NodeId i) {
  std::string name = net.nodes[static_cast<std::size_t>(i)].name;
  const auto swap = [&](const std::string& from, const std::string& to) {
    const auto at = name.find(from);
    if (at == std::string::npos) return false;
    name.replace(at, from.size(), to);
    return true;
  };
  if (!swap("outboard", "inboard")) (void)swap("inboard", "outboard");
  return net.find(name);
}

}  // namespace

TEST_CASE("meshes have the sizes that were decided: lump, coarse, standard, fine") {
  const std::map<Mesh, std::pair<int, int>> limits{
      {Mesh::lump, {5, 14}}, {Mesh::coarse, {15, 25}}, {Mesh::standard, {45, 65}}, {Mesh::fine, {150, 230}}};
  for (const auto& [mesh, limit] : limits) {
    const session::Case c = test::track_case(mesh);
    for (const Axle axle : {Axle::front, Axle::rear}) {
      const Network net = assemble(c, axle, kHighestSpeed);
      CAPTURE(static_cast<int>(mesh), net.size());
      CHECK(net.size() >= limit.first);
      CHECK(net.size() <= limit.second);
    }
  }
}

TEST_CASE("inboard and outboard heat and cool alike when nothing sets them apart") {
  session::Case c = test::track_case(Mesh::standard);
  const Network net = front(c);
  solve::WheelSystem system(net, [](double) { return solve::Load{.speed = 40, .heat = 30e3, .applied = 1}; });
  Eigen::VectorXd x = system.initial_state(), f = x;
  for (NodeId i = 0; i < net.size(); ++i) {
    const NodeId first = std::min(i, mirrored(net, i));
    x[i] += net.nodes[static_cast<std::size_t>(i)].mass * 500 * (20 + 7 * first);
  }
  system.rates(0, x, f);
  int pairs = 0;
  for (NodeId i = 0; i < net.size(); ++i) {
    const NodeId other = mirrored(net, i);
    REQUIRE(other >= 0);
    if (other == i) continue;
    ++pairs;
    CAPTURE(net.nodes[static_cast<std::size_t>(i)].name);
    CHECK(f[i] == Approx(f[other]).epsilon(1e-10).margin(1e-6));
  }
  CHECK(pairs > 20);
}

TEST_CASE("a shield and a duct on the face set the inboard side apart") {
  session::Case c = test::track_case(Mesh::standard);
  const auto rates_of_faces = [](const session::Case& with) {
    const Network net = front(with);
    solve::WheelSystem system(net, [](double) { return solve::Load{.speed = 40}; });
    Eigen::VectorXd x = system.initial_state(), f = x;
    for (NodeId i = 0; i < net.size(); ++i) x[i] += net.nodes[static_cast<std::size_t>(i)].mass * 500 * 300;
    system.rates(0, x, f);
    double outboard = 0, inboard = 0;
    for (const Face& face : net.faces) (face.inboard ? inboard : outboard) += f[face.cell];
    return std::pair{outboard, inboard};
  };
  c.brakes.front.cooling.shield = true;
  const auto [open, shielded] = rates_of_faces(c);
  CHECK(shielded > open);  // loses less
  c.brakes.front.cooling.shield = false;
  c.brakes.front.cooling.aim = session::DuctAim::face;
  const auto [still, ducted] = rates_of_faces(c);
  CHECK(ducted < still);
}

TEST_CASE("nodes weigh what the geometry gives, on every mesh") {
  for (const Mesh mesh : {Mesh::lump, Mesh::coarse, Mesh::standard, Mesh::fine}) {
    const session::Case c = test::track_case(mesh);
    const Network net = front(c);
    const session::Ring& ring = c.brakes.front.rotor.ring;
    const models::VaneGeometry vanes{ring.outer_diameter / 2, ring.inner_diameter / 2,
                                     ring.thickness - 2 * ring.cheek_thickness, ring.vanes.thickness, ring.vanes.count};
    const double iron = c.materials.at("iron").density * models::vented_ring_volume(ring.cheek_thickness, vanes);
    const session::Pads& pads = c.brakes.front.pads;
    CAPTURE(static_cast<int>(mesh));
    // A lump keeps the lugs in the ring and the fasteners in the hat.
    CHECK(mass_of(net, Part::ring) == Approx(iron).epsilon(mesh == Mesh::lump ? 0.05 : 1e-9));
    CHECK(net.ring_mass == Approx(mass_of(net, Part::ring) + mass_of(net, Part::lug)));
    CHECK(mass_of(net, Part::pad) == Approx(2 * 2800 * pads.area * pads.thickness));
    CHECK(mass_of(net, Part::backing) == Approx(2 * 7850 * pads.area * pads.backing_thickness));
    CHECK(mass_of(net, Part::caliper) == Approx(c.brakes.front.caliper.mass));
    CHECK(mass_of(net, Part::fluid) == Approx(1055 * c.brakes.front.caliper.fluid_volume));
    CHECK(net.hat_mass == Approx(mass_of(net, Part::hat)));
    double share = 0, face = 0;
    for (const Rubbing& r : net.rubbings) share += r.share;
    for (const Face& f : net.faces) face += f.area;
    CHECK(share == Approx(1));
    // The coarsest meshes have no unrubbed band.
    if (mesh >= Mesh::standard)
      CHECK(face == Approx(2 * models::annulus_area(ring.swept_inner_diameter / 2, ring.outer_diameter / 2)));
  }
}

TEST_CASE("a weighed ring and hat keep their weighed mass and a remark tells when that is far from the dimensions") {
  session::Case c = test::track_case(Mesh::standard);
  c.brakes.front.rotor.ring.mass = 7.5;
  c.brakes.front.rotor.hat.mass = 0.9;
  const Network net = front(c);
  CHECK(mass_of(net, Part::ring) + mass_of(net, Part::lug) == Approx(7.5));
  CHECK(mass_of(net, Part::hat) == Approx(0.9));
  const double geometry = front(test::track_case(Mesh::standard)).ring_mass;
  CHECK(net.ring_mass == Approx(geometry));
  c.brakes.front.rotor.ring.mass = 1.3 * geometry;
  c.brakes.front.rotor.hat.mass.reset();
  const Network heavy = front(c);
  REQUIRE(heavy.remarks.size() == 1);
  CHECK_THAT(heavy.remarks[0], Contains("front ring") && Contains("+30 %"));
}

TEST_CASE("a pinned link family conducts the given total, pinned to nothing it is gone") {
  session::Case c = test::track_case(Mesh::standard);
  c.physics.links = {{"hat_hub", 12}, {"ring_hat", 3.5}};
  const Network net = front(c);
  CHECK(conductance_of(net, "hat_hub") == Approx(12));
  CHECK(conductance_of(net, "ring_hat") == Approx(3.5));
  c.physics.links = {{"hat_hub", 0}};
  CHECK(conductance_of(front(c), "hat_hub") == 0);
}

TEST_CASE("names that are not there are refused with those that are") {
  session::Case c = test::track_case(Mesh::standard);
  c.physics.links = {{"hat_hubb", 12}};
  CHECK_THROWS_AS(front(c), session::CaseError);
  CHECK_THROWS_WITH(front(c), Contains("hat_hubb") && Contains("hat_hub,"));
  c = test::track_case(Mesh::standard);
  c.brakes.front.rotor.ring.material = "irom";
  CHECK_THROWS_WITH(front(c), Contains("irom") && Contains("front"));
  c = test::track_case(Mesh::standard);
  c.initial.node = {{"calliper", 300}};
  CHECK_THROWS_WITH(front(c), Contains("calliper") && Contains("caliper"));
}

TEST_CASE("initial temperatures reach the nodes they name") {
  session::Case c = test::track_case(Mesh::standard);
  c.initial.everything = 310;
  c.initial.node = {{"ring_mean", 500}, {"pad_outboard", 420}, {"fluid", 350}};
  const Network net = front(c);
  for (const Node& n : net.nodes) {
    const double expected = n.part == Part::ring                 ? 500
                            : n.name.starts_with("pad.outboard") ? 420
                            : n.part == Part::fluid              ? 350
                            : n.part == Part::air                ? c.air.temperature
                                                                 : 310;
    CAPTURE(n.name);
    CHECK(n.temperature == expected);
  }
}

TEST_CASE("face records point at the link from their cell to the cell below") {
  for (const Mesh mesh : {Mesh::coarse, Mesh::standard, Mesh::fine}) {
    const Network net = front(test::track_case(mesh));
    for (const Face& f : net.faces) {
      REQUIRE(f.link >= 0);
      const Link& l = net.links[static_cast<std::size_t>(f.link)];
      CHECK(((l.a == f.cell && l.b == f.below) || (l.b == f.cell && l.a == f.below)));
    }
  }
}

}  // namespace hatring::network
