// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include <functional>
#include <limits>
#include <stdexcept>

#include "tests/sim/solve/small_networks.hpp"

namespace hatring::test {

using network::Network;

TEST_CASE("a network that cannot be solved is refused with the name of what is wrong") {
  constexpr double kNan = std::numeric_limits<double>::quiet_NaN(), kInf = std::numeric_limits<double>::infinity();
  const auto refusal = [](const std::function<void(Network&)>& spoil) {
    Network net = curved_chain();
    net.validate();
    spoil(net);
    try {
      net.validate();
    } catch (const std::invalid_argument& e) {
      return std::string(e.what());
    }
    return std::string("taken");
  };
  const auto named = [](const std::string& words) { return Catch::Matchers::StartsWith(words); };
  const std::string node = "node " + curved_chain().nodes[1].name + ": ";
  for (const double mass : {0.0, -1.0, kNan, kInf})
    CHECK_THAT(refusal([&](Network& n) { n.nodes[1].mass = mass; }), named(node + "mass"));
  for (const double temperature : {0.0, -5.0, kNan, kInf})
    CHECK_THAT(refusal([&](Network& n) { n.nodes[1].temperature = temperature; }), named(node + "starts at"));
  for (const int content : {-1, 99})
    CHECK_THAT(refusal([&](Network& n) { n.nodes[1].content = content; }), named(node + "no material"));
  for (const int end : {-7, 99, curved_chain().links[0].b})
    CHECK_THAT(refusal([&](Network& n) { n.links[0].a = end; }), named("link "));
  for (const double resistance : {-1.0, kNan})
    CHECK_THAT(refusal([&](Network& n) { n.links[0].resistance = resistance; }), named("link "));
  CHECK_THAT(refusal([](Network& n) { n.links[0].shape_a = n.links[0].shape_b = n.links[0].resistance = 0; }),
             named("link "));
  CHECK_THAT(refusal([](Network& n) { n.rubbings[0].pad = 99; }), named("rubbing"));
  CHECK_THAT(refusal([](Network& n) { n.rubbings[0].share = kNan; }), named("rubbing"));
  CHECK_THAT(refusal([](Network& n) { n.surfaces[0].table = 99; }), named("surface"));
  CHECK_THAT(refusal([](Network& n) { n.surfaces[0].air = n.surfaces[0].node; }), named("surface"));
  for (const double factor : {-1.0, kNan, kInf})
    CHECK_THAT(refusal([&](Network& n) { n.radiations[0].factor = factor; }), named("radiation of "));
}

}  // namespace hatring::test
