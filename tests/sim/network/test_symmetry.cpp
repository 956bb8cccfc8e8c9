// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <random>

#include "sim/network/assemble.hpp"
#include "sim/network/index.hpp"
#include "sim/network/symmetry.hpp"
#include "sim/solve/integrate.hpp"
#include "sim/solve/rubbed_surfaces.hpp"
#include "tests/sim/network/track_case.hpp"

namespace hatring::network {
namespace {

Network front(const std::function<void(session::Case&)>& change = [](session::Case&) {}) {
  session::Case c = test::track_case(session::Mesh::standard);
  change(c);
  return assemble(c, session::Axle::front, 50);
}

Symmetry alone(const Network& net) {
  return symmetry({&net}, {net.initial_heat()});
}

bool together(const Symmetry& s, const Network& net, const char* one, const char* other) {
  return s.group[at(net.find(one))] == s.group[at(net.find(other))];
}

solve::Load braking(double time) {
  return {.speed = 45 - 2 * time, .heat = 60e3, .applied = 1};
}

}  // namespace

TEST_CASE("in a fixed caliper one side of the disc stands for both, and nothing else merges") {
  const Network net = front();
  const Symmetry s = alone(net);
  std::map<std::string, int> group_of;
  for (int i = 0; i < net.size(); ++i) group_of[net.nodes[at(i)].name] = s.group[at(i)];
  for (const auto& [name, group] : group_of) {
    const std::size_t side = name.find(".outboard");
    if (side == std::string::npos) {
      if (name.find(".inboard") == std::string::npos) CHECK(s.members[at(group)] == 1);
      continue;
    }
    INFO(name);
    CHECK(group_of.at(std::string(name).replace(side, 9, ".inboard")) == group);
    CHECK(s.members[at(group)] == 2);
    CHECK(net.nodes[at(s.first[at(group)])].name == name);
  }
  CHECK(reduced(net, s).size() == static_cast<int>(s.first.size()));
}

TEST_CASE("what sets the two sides of a disc apart keeps all of their nodes") {
  const auto size = [](const std::function<void(session::Case&)>& change) {
    const Network net = front(change);
    return std::pair{alone(net).first.size(), net.nodes.size()};
  };
  const auto [shielded, all] = size([](session::Case& c) { c.brakes.front.cooling.shield = true; });
  CHECK(shielded == all);
  const auto [sliding, as_many] =
      size([](session::Case& c) { c.brakes.front.caliper.kind = session::CaliperKind::sliding; });
  CHECK(sliding == as_many);

  Network net = front();
  std::vector<double> heat = net.initial_heat();
  heat[at(net.find("pad.inboard.layer1"))] *= 1 + 1e-9;
  CHECK(symmetry({&net}, {heat}).first.size() == net.nodes.size());
  net.links.front().resistance += 1e-6;
  CHECK(alone(net).first.size() > alone(front()).first.size());
}

TEST_CASE("what is not a number is merged with nothing that is") {
  Network net = front();
  const NodeId inboard = net.find("backing.inboard");
  net.nodes[at(inboard)].mass = std::numeric_limits<double>::quiet_NaN();
  const Symmetry s = alone(net);
  CHECK_FALSE(together(s, net, "backing.outboard", "backing.inboard"));
  CHECK(std::isnan(reduced(net, s).nodes[at(s.group[at(inboard)])].mass));
}

TEST_CASE("groups hold in every scenario that goes side by side") {
  const Network plain = front();
  Network other = front();
  const NodeId plate = other.find("backing.outboard");
  other.nodes[at(plate)].mass *= 1.01;
  const Symmetry both = symmetry({&plain, &other}, {plain.initial_heat(), other.initial_heat()});
  CHECK_FALSE(together(both, plain, "backing.outboard", "backing.inboard"));
  CHECK_FALSE(together(both, plain, "ring.outboard.band1.layer1", "ring.inboard.band1.layer1"));
  CHECK(together(alone(plain), plain, "backing.outboard", "backing.inboard"));
}

TEST_CASE("a star of equal leaves is two nodes, and a part that only looks alike stays apart") {
  Network net;
  models::Material steel;
  steel.specific_heat = models::Curve(500);
  steel.conductivity = models::Curve(50);
  net.contents.emplace_back(steel);
  for (const char* name : {"hub", "a", "b", "c", "tail"}) net.add({.name = name, .mass = 1, .temperature = 300});
  for (const NodeId leaf : {1, 2, 3}) net.link(0, leaf, 5, "spoke");
  CHECK(alone(net).first.size() == 3);  // the tail hangs free
  const Network star = reduced(net, alone(net));
  CHECK(star.nodes[1].mass == Approx(3));
  REQUIRE(star.links.size() == 1);
  CHECK(1 / star.links[0].resistance == Approx(15));
  net.link(3, 4, 5, "spoke");  // one leaf has a tail now
  CHECK(alone(net).first.size() == 4);
}

TEST_CASE("the reduced network passes as much heat as all of its nodes") {
  const Network whole = front();
  const Symmetry s = alone(whole);
  const Network small = reduced(whole, s);
  std::mt19937 random(7);
  std::uniform_real_distribution<double> warm(300, 900);
  for (const double applied : {0.0, 0.4, 1.0}) {
    const auto load = [applied](double) { return solve::Load{.speed = 31, .heat = 4e4 * applied, .applied = applied}; };
    solve::WheelSystem all(whole, load), few(small, load);
    Eigen::VectorXd x = all.initial_state(), y = few.initial_state();
    for (std::size_t g = 0; g < s.first.size(); ++g)
      y[static_cast<Eigen::Index>(g)] =
          small.nodes[g].mass * small.contents[at(small.nodes[g].content)].enthalpy(warm(random));
    for (int i = 0; i < whole.size(); ++i) x[i] = y[s.group[at(i)]] / s.members[at(s.group[at(i)])];
    Eigen::VectorXd f(x.size()), g(y.size()), sum = Eigen::VectorXd::Zero(y.size());
    all.rates(0, x, f);
    few.rates(0, y, g);
    for (int i = 0; i < whole.size(); ++i) sum[s.group[at(i)]] += f[i];
    sum.tail(solve::kIntegrals) = f.tail(solve::kIntegrals);
    CHECK((sum - g).lpNorm<Eigen::Infinity>() < 1e-11 * g.lpNorm<Eigen::Infinity>());
  }
}

TEST_CASE("faces, pads and means read the same from the reduced network") {
  const std::pair<const char*, std::function<void(session::Case&)>> cars[] = {
      {"vented", [](session::Case&) {}},
      {"solid", [](session::Case& c) { c.brakes.front.rotor.ring.kind = session::RingKind::solid; }},
      {"split by effusivity", [](session::Case& c) { c.physics.partition = session::Physics::Partition::effusivity; }},
      {"one lump", [](session::Case& c) { c.physics.mesh = session::Mesh::lump; }},
      {"layers that do not conduct", [](session::Case& c) { c.physics.links["ring"] = 0; }},
      {"nothing merged", [](session::Case& c) { c.brakes.front.cooling.shield = true; }}};
  for (const auto& [name, change] : cars) {
    CAPTURE(name);
    const Network whole = front(change);
    const Symmetry s = alone(whole);
    const Network small = reduced(whole, s);
    CHECK((small.size() < whole.size()) == (std::string(name) != "nothing merged"));
    std::mt19937 random(11);
    std::uniform_real_distribution<double> warm(300, 900);
    Eigen::VectorXd t(whole.size()), u(small.size());
    for (double& value : u) value = warm(random);
    for (int i = 0; i < whole.size(); ++i) t[i] = u[s.group[at(i)]];
    const auto mean = [](const Weights& weights, const Eigen::VectorXd& of) {
      double sum = 0;
      for (const auto& [node, weight] : weights) sum += weight * of[node];
      return sum;
    };
    REQUIRE(small.probes.size() == whole.probes.size());
    for (std::size_t k = 0; k < whole.probes.size(); ++k) {
      CHECK(small.probes[k].name == whole.probes[k].name);
      CHECK(mean(small.probes[k].weights, u) == Approx(mean(whole.probes[k].weights, t)));
    }
    REQUIRE(small.ring_bands.size() == whole.ring_bands.size());
    for (std::size_t k = 0; k < whole.ring_bands.size(); ++k)
      CHECK(mean(small.ring_bands[k].mean, u) == Approx(mean(whole.ring_bands[k].mean, t)));
    solve::RubbedSurfaces all(whole), few(small);
    for (const double applied : {0.0, 0.4, 1.0}) {
      const solve::Load load{.speed = 31, .heat = 4e4 * applied, .applied = applied};
      all.find(t, load);
      few.find(u, load);
      for (std::size_t k = 0; k < whole.faces.size(); ++k) CHECK(few.face(k)[0] == Approx(all.face(k)[0]));
      for (const bool inboard : {false, true}) {
        CHECK(mean(small.cheeks[inboard ? 1 : 0], u) == Approx(mean(whole.cheeks[inboard ? 1 : 0], t)));
        CHECK(few.side(inboard)[0] == Approx(all.side(inboard)[0]));
        CHECK(few.pad(inboard)[0] == Approx(all.pad(inboard)[0]));
      }
    }
    Eigen::VectorXd heat = Eigen::VectorXd::Zero(small.size());
    for (int i = 0; i < whole.size(); ++i) heat[s.group[at(i)]] += t[i];
    CHECK((s.spread(heat) - t).lpNorm<Eigen::Infinity>() < 1e-12 * t.maxCoeff());
  }
}

TEST_CASE("solved once or twice, both sides end as hot") {
  const Network whole = front();
  const Symmetry s = alone(whole);
  const Network small = reduced(whole, s);
  const auto end = [](const Network& net) {
    solve::WheelSystem system(net, braking);
    Eigen::VectorXd x = system.initial_state();
    (void)solve::integrate(system, {0, 8}, {}, x, {}, solve::ros34pw2(), [](double, const Eigen::VectorXd&) {});
    return x;
  };
  const Eigen::VectorXd x = end(whole), y = end(small);
  CHECK(x[whole.find("ring.outboard.band2.layer1")] > 1e3);
  for (int i = 0; i < whole.size(); ++i) {
    const int g = s.group[at(i)];
    CHECK(x[i] == Approx(y[g] / s.members[at(g)]).epsilon(1e-9).margin(1e-9));
  }
  for (int k = 1; k <= solve::kIntegrals; ++k) CHECK(x[x.size() - k] == Approx(y[y.size() - k]).epsilon(1e-9));
}

}  // namespace hatring::network
