// SPDX-License-Identifier: MIT
// Every number of a network can say where it comes from.
#include <catch2/catch.hpp>
#include <fstream>
#include <set>
#include <string>

#include "sim/network/assemble.hpp"
#include "sim/network/assumed.hpp"
#include "sim/network/origin.hpp"
#include "tests/sim/network/track_case.hpp"

using namespace hatring;

namespace {

constexpr session::Mesh kMeshes[] = {session::Mesh::lump, session::Mesh::coarse, session::Mesh::standard,
                                     session::Mesh::fine};
constexpr session::JointKind kJoints[] = {session::JointKind::rigid, session::JointKind::floating,
                                          session::JointKind::one_piece};
constexpr double kHighestSpeed = 60;

}  // namespace

TEST_CASE("every family of links and every law that can be built has an origin") {
  std::set<std::string> families, laws;
  for (const session::Mesh mesh : kMeshes)
    for (const session::JointKind joint : kJoints)
      for (const session::DuctAim aim : {session::DuctAim::eye, session::DuctAim::face, session::DuctAim::caliper})
        for (const session::Axle axle : {session::Axle::front, session::Axle::rear}) {
          session::Case c = test::track_case(mesh);
          c.brakes.front.rotor.joint.kind = c.brakes.rear.rotor.joint.kind = joint;
          c.brakes.front.cooling.aim = aim;
          c.brakes.rear.caliper.kind = session::CaliperKind::sliding;
          const network::Network net = network::assemble(c, axle, kHighestSpeed);
          for (const network::Link& l : net.links) {
            families.insert(l.family);
            CAPTURE(l.family);
            CHECK_FALSE(network::origin(l.family, joint).empty());
          }
          for (const network::Surface& s : net.surfaces) {
            laws.insert(s.law);
            CAPTURE(s.law);
            CHECK_FALSE(network::origin_of_law(s.law).phrase.empty());
          }
        }
  CHECK(families.size() >= 15);
  CHECK(laws.size() >= 10);
}

TEST_CASE("what is not built has no origin, and each joint has its own") {
  CHECK(network::origin("no_such_family", session::JointKind::rigid).empty());
  CHECK(network::origin_of_law("no such law").phrase.empty());
  CHECK(network::origin("ring_hat", session::JointKind::rigid) !=
        network::origin("ring_hat", session::JointKind::floating));
  CHECK(network::origin("ring_hat", session::JointKind::one_piece) !=
        network::origin("ring_hat", session::JointKind::floating));
}

TEST_CASE("a surface's scale is an area only where its law is a coefficient") {
  CHECK(network::origin_of_law("ring face 0.1 to 0.2 m").by_area);
  CHECK_FALSE(network::origin_of_law("vane passages").by_area);
  CHECK_FALSE(network::origin_of_law("duct into the eye").by_area);
}

TEST_CASE("priors lie in their bands and say what they are") {
  std::set<std::string> names;
  for (const network::assumed::Prior* p : network::assumed::all()) {
    REQUIRE(p != nullptr);
    CAPTURE(p->name);
    CHECK(p->low > 0);
    CHECK(p->low <= p->likely);
    CHECK(p->likely <= p->high);
    CHECK(p->low < p->high);
    CHECK_FALSE(std::string(p->unit).empty());
    CHECK_FALSE(std::string(p->reason).empty());
    CHECK(names.insert(p->name).second);
  }
}

TEST_CASE("the list of priors leaves none out") {
  std::ifstream header("sim/network/assumed.hpp");
  REQUIRE(header);
  std::size_t declared = 0;
  for (std::string line; std::getline(header, line);)
    if (line.starts_with("inline constexpr Prior k")) ++declared;
  CHECK(network::assumed::all().size() == declared);
}

TEST_CASE("a prior stands for its likely value in a formula") {
  STATIC_REQUIRE(network::assumed::kCoveredFace == network::assumed::kCoveredFace.likely);
  STATIC_REQUIRE(1 - network::assumed::kCoveredFace == 1 - network::assumed::kCoveredFace.likely);
}

TEST_CASE("a link's conductance follows its material and its contact") {
  session::Case c = test::track_case(session::Mesh::coarse);
  const network::Network net = network::assemble(c, session::Axle::front, kHighestSpeed);
  bool iron = false, pressed = false;
  for (const network::Link& l : net.links) {
    if (l.family == "ring") {  // iron conducts less when hot
      iron = true;
      CHECK(net.conductance(l, 673.15) < net.conductance(l, 293.15));
      CHECK(net.conductance(l, 293.15) == Approx(55 / (l.shape_a + l.shape_b)).epsilon(1e-3));
    }
    if (l.family == "pad_piston") {
      pressed = true;
      CHECK(net.conductance(l, 293.15, 1) > 2 * net.conductance(l, 293.15, 0));
    }
  }
  CHECK(iron);
  CHECK(pressed);
  const network::Node& caliper = net.nodes[static_cast<std::size_t>(net.find("caliper"))];
  CHECK(net.heat_capacity(caliper, 293.15) == Approx(2.4 * 911).epsilon(1e-3));
  REQUIRE(net.materials.size() == net.contents.size());
  CHECK(net.materials[static_cast<std::size_t>(caliper.content)] == "caliper_aluminium");
}
