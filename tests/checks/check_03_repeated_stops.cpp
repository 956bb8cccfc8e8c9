// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "tests/sim/solve/small_networks.hpp"

namespace hatring {
namespace {

// Limpert's disc as one lump: 7 kg of 500 J/kg/K, 60 W/m2/K over 0.15 m2, stops of 60 K every 45 s.
constexpr double kCapacity = 3500, kLoss = 9, kRise = 60, kCycle = 45;
constexpr double kDecay = kLoss / kCapacity;  // [1/s]

network::Network one_lump() {
  network::Network net = test::bare_network();
  test::add_node(net, "disc", kCapacity, test::kAmbientTemperature);
  test::add_node(net, "pad", 100, test::kAmbientTemperature);
  net.rubbings.push_back({.ring = 0, .pad = 1, .share = 1});
  net.fixed_ring_share = 1;
  net.surfaces.push_back({0, network::kAmbient, 0, kLoss, "constant"});
  return net;
}

// Rise above ambient at the end of each of `stops` stops; `power` over the stop's time from 0 to `length` [W].
std::vector<double> rise_after_stops(int stops, double length, const std::function<double(double)>& power) {
  const network::Network net = one_lump();
  solve::WheelSystem system(net, [&](double t) {
    const double since = std::fmod(t, kCycle);
    return solve::Load{.heat = since < length ? power(since) : 0, .applied = since < length ? 1.0 : 0.0};
  });
  std::vector<double> restarts{0}, ends, rises;
  for (int i = 0; i < stops; ++i) {
    ends.push_back(i * kCycle + length);
    restarts.push_back(ends.back());
    restarts.push_back((i + 1) * kCycle);
  }
  Eigen::VectorXd x = system.initial_state(), t(system.nodes());
  (void)solve::integrate(system, restarts, ends, x, {}, solve::ros34pw2(), [&](double, const Eigen::VectorXd& state) {
    system.temperatures_of(state, t);
    rises.push_back(t[0] - test::kAmbientTemperature);
  });
  return rises;
}

// Geometric sum of stops that each leave `rise` at their end.
double geometric(double rise, int n) {
  return rise * -std::expm1(-n * kDecay * kCycle) / -std::expm1(-kDecay * kCycle);
}

}  // namespace

TEST_CASE(
    "check 3: repeated stops of one lump as pulses of 0.1 s (Limpert, geometric sum, original not opened): 60.00, "
    "241.22, 376.47, 452.31 K after 1, 5, 10, 15") {
  constexpr double kPulse = 0.1;
  const std::vector<double> rises = rise_after_stops(50, kPulse, [](double) { return kCapacity * kRise / kPulse; });
  CHECK(rises[0] == Approx(60.00).epsilon(1e-3));
  CHECK(rises[4] == Approx(241.22).epsilon(1e-3));
  CHECK(rises[9] == Approx(376.47).epsilon(1e-3));
  CHECK(rises[14] == Approx(452.31).epsilon(1e-3));
  CHECK(rises[49] == Approx(547.41).epsilon(1e-3));
  CHECK(geometric(kRise, 10000) == Approx(549.10).epsilon(1e-5));  // the limit
}

TEST_CASE("check 3: repeated stops of 5.56 s at constant power against their own closed form, 0.71 % below pulses") {
  constexpr double kStop = 5.56;
  const std::vector<double> rises = rise_after_stops(15, kStop, [](double) { return kCapacity * kRise / kStop; });
  // P/(hA) (1 - e^(-b ts)) is left at the end of one stop.
  const double each = kRise / (kDecay * kStop) * -std::expm1(-kDecay * kStop);
  CHECK(each / kRise - 1 == Approx(-0.0071).margin(1e-4));
  for (const int n : {1, 5, 10, 15})
    CHECK(rises[static_cast<std::size_t>(n - 1)] == Approx(geometric(each, n)).epsilon(1e-4));
}

TEST_CASE(
    "check 3: repeated stops of 5.56 s at constant deceleration against their own closed form, 0.95 % below pulses") {
  constexpr double kStop = 5.56;
  const double first = 2 * kCapacity * kRise / kStop;
  const std::vector<double> rises = rise_after_stops(15, kStop, [&](double t) { return first * (1 - t / kStop); });
  // Integral of P0/C (1 - t/ts) e^(-b (ts - t)): with z = b ts, 2 dT (1/z^2)(1 - e^-z (1 + z)).
  const double z = kDecay * kStop;
  const double each = 2 * kRise / (z * z) * (1 - std::exp(-z) * (1 + z));
  CHECK(each / kRise - 1 == Approx(-0.0095).margin(1e-4));
  for (const int n : {1, 5, 10, 15})
    CHECK(rises[static_cast<std::size_t>(n - 1)] == Approx(geometric(each, n)).epsilon(1e-4));
}

}  // namespace hatring
