// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "tests/sim/solve/small_networks.hpp"

namespace hatring::solve {
namespace {

struct Seen {
  std::vector<double> times, first;  // [s], [K]
};

Seen record(WheelSystem& system, const std::vector<double>& restarts, const std::vector<double>& outputs,
            const StepOptions& options = {}) {
  Seen seen;
  Eigen::VectorXd x = system.initial_state(), t(system.nodes());
  (void)integrate(system, restarts, outputs, x, options, ros34pw2(), [&](double time, const Eigen::VectorXd& state) {
    system.temperatures_of(state, t);
    seen.times.push_back(time);
    seen.first.push_back(t[0]);
  });
  return seen;
}

}  // namespace

TEST_CASE("odeint's integrate_times moves the state") {
  const test::TwoNodes two;
  const network::Network net = two.network();
  WheelSystem system(net, [](double) { return Load{}; });
  const Seen seen = record(system, {0, 60}, {0, 30, 60});
  REQUIRE(seen.times == std::vector<double>{0, 30, 60});
  CHECK(seen.first[0] == Approx(test::kAmbientTemperature + two.start1).epsilon(1e-12));
  CHECK(seen.first[1] == Approx(test::kAmbientTemperature + two.exact(30).first).margin(0.05));
  CHECK(seen.first[2] == Approx(test::kAmbientTemperature + two.exact(60).first).margin(0.05));
}

TEST_CASE("every output is seen once and in order: at the start, on restarts, between them and at the end") {
  const network::Network net = test::TwoNodes().network();
  WheelSystem system(net, [](double) { return Load{}; });
  const std::vector<double> outputs{0, 0, 0.5, 1, 1.5, 1.5, 2, 2.25, 3};
  CHECK(record(system, {0, 1, 2, 2, 3}, outputs).times == outputs);
  CHECK(record(system, {0, 1, 3}, {}).times.empty());
}

TEST_CASE("a load that jumps at a restart is met exactly: heat in = power times time") {
  network::Network net = test::bare_network();
  test::add_node(net, "disc", 1000, test::kAmbientTemperature);
  test::add_node(net, "pad", 100, test::kAmbientTemperature);
  net.rubbings.push_back({.ring = 0, .pad = 1, .share = 1});
  net.fixed_ring_share = 1;
  // Inside [1, 1.5) and [4, 4.001): on; the load is asked strictly inside the stretch, whatever it says at the jump
  // itself.
  WheelSystem system(net, [](double t) {
    const bool on = (t > 1 && t < 1.5) || (t > 4 && t < 4.001);
    return Load{.heat = on ? 2e5 : -1e9 * (t == 1 || t == 1.5)};
  });
  const Seen seen = record(system, {0, 1, 1.5, 4, 4.001, 10}, {1, 1.5, 3, 4.001, 10});
  CHECK(seen.first[0] - test::kAmbientTemperature == Approx(0).margin(1e-9));
  for (const std::size_t i : {1U, 2U}) CHECK(seen.first[i] - test::kAmbientTemperature == Approx(100).epsilon(1e-9));
  for (const std::size_t i : {3U, 4U}) CHECK(seen.first[i] - test::kAmbientTemperature == Approx(100.2).epsilon(1e-9));
}

TEST_CASE("results do not depend on where the outputs lie") {
  const network::Network net = test::curved_chain();
  WheelSystem system(net, test::smooth_load);
  const Seen few = record(system, {0, 20}, {20});
  std::vector<double> many;
  for (int i = 0; i <= 2000; ++i) many.push_back(0.01 * i);
  CHECK(record(system, {0, 20}, many).first.back() == few.first.back());
}

TEST_CASE("the same run twice gives the same bits") {
  const network::Network net = test::curved_chain();
  WheelSystem system(net, test::smooth_load);
  const Seen a = record(system, {0, 7, 20}, {3, 20}), b = record(system, {0, 7, 20}, {3, 20});
  CHECK(a.first == b.first);
}

}  // namespace hatring::solve
