// SPDX-License-Identifier: MIT
// The expansion of the rates that a step begins with serves those after it, while they stay near it.
#include <catch2/catch.hpp>
#include <cmath>

#include "tests/sim/solve/small_networks.hpp"

namespace hatring::solve {
namespace {

// One wheel under a steady load, at heats that differ from those at the start by temperatures.
class SteadyWheel {
 public:
  explicit SteadyWheel(double speed = 30, double start = 0) : net_(chain_at(start)), speed_(speed) {}
  // How far the rates that a step begins with are from those that the network states, against the largest.
  double linearise(double warmer) {
    Eigen::VectorXd x = start_, stated = start_, local = start_;
    for (int i = 0; i < system_.nodes(); ++i) x[i] += warmer * net_.heat_capacity(net_.nodes[index(i)], 500);
    system_.lanes().linearise(0, x, {}, local);
    system_.rates(0, x, stated);
    return (local - stated).lpNorm<Eigen::Infinity>() / stated.lpNorm<Eigen::Infinity>();
  }
  // Whether that made an expansion of its own; capacities are of where it was made.
  bool anew(double warmer) {
    const Eigen::VectorXd before = system_.lanes().capacity();
    (void)linearise(warmer);
    return system_.lanes().capacity() != before;
  }
  void drive_at(double speed) { speed_ = speed; }
  // As a step does that ends at a speed.
  void look_ahead(double speed) {
    Eigen::VectorXd rates = start_;
    drive_at(speed);
    lanes().local_rates(1, 1, Eigen::VectorXd::Zero(system_.nodes()), rates);
  }
  LaneSystem<double>& lanes() { return system_.lanes(); }

 private:
  static std::size_t index(int i) { return static_cast<std::size_t>(i); }
  static network::Network chain_at(double start) {
    network::Network net = test::curved_chain();
    if (start > 0)
      for (network::Node& node : net.nodes) node.temperature = start;
    return net;
  }
  network::Network net_;
  double speed_;
  WheelSystem system_{net_, [this](double) { return Load{.speed = speed_, .heat = 2e4, .applied = 0.7}; }};
  Eigen::VectorXd start_ = system_.initial_state();
};

}  // namespace

TEST_CASE("an expansion serves states near it, and gives their rates") {
  SteadyWheel wheel;
  CHECK(wheel.linearise(0) < 1e-7);
  CHECK_FALSE(wheel.anew(4));
  CHECK(wheel.linearise(4) < 2e-5);
  CHECK_FALSE(wheel.anew(-4));
  CHECK(wheel.linearise(-4) < 2e-5);
  CHECK_FALSE(wheel.anew(0));
  CHECK(wheel.linearise(0) < 1e-7);
}

TEST_CASE("an expansion is made anew far from it in temperature, and exact there") {
  for (const double warmer : {60.0, -60.0}) {
    SteadyWheel wheel;
    (void)wheel.linearise(0);
    CHECK(wheel.anew(warmer));
    CHECK(wheel.linearise(warmer) < 1e-7);
  }
}

TEST_CASE("an expansion serves speeds near it, and near standstill nothing but where it was made") {
  SteadyWheel wheel(30);
  (void)wheel.linearise(0);
  wheel.drive_at(32);
  CHECK(wheel.anew(1));  // nobody has looked ahead yet
  wheel.look_ahead(33);
  wheel.drive_at(34);
  CHECK_FALSE(wheel.anew(2));
  CHECK(wheel.linearise(2) < 1e-4);
  wheel.drive_at(40);
  CHECK(wheel.anew(3));
  SteadyWheel slow(3);
  (void)slow.linearise(0);
  CHECK(slow.anew(1));
  CHECK(slow.linearise(2) < 1e-7);
}

// Properties are held beyond their tables: their slopes jump there, and the expansion no longer follows them.
TEST_CASE("an expansion does not reach past the end of a property's table") {
  const double end = test::curved_material().specific_heat.highest();
  SteadyWheel far(30, end - 40), near(30, end - 3);
  (void)far.linearise(0);
  (void)near.linearise(0);
  CHECK_FALSE(far.anew(8));
  CHECK(near.anew(8));
}

// Coefficients are held beyond it: to look farther ahead would bend what is this side of it.
TEST_CASE("convection is followed as well just below the tables' highest speed as elsewhere") {
  network::Network net = test::bare_network();
  test::add_node(net, "disc", 1000, test::kAmbientTemperature + 300);
  net.tables.emplace_back(net.grid, [](double speed, double) { return 5 + speed; });
  net.surfaces.push_back({0, network::kAmbient, 1, 1, "loss"});
  const double top = net.grid.highest_speed();
  for (const double from : {0.5 * top, 0.95 * top}) {
    WheelSystem system(net, [&](double t) { return Load{.speed = from + 0.04 * top * t}; });
    const Eigen::VectorXd x = system.initial_state();
    Eigen::VectorXd slope = x, stated = x, local = x;
    system.lanes().linearise(0, x, {}, slope);
    system.lanes().local_rates(1, 1, Eigen::VectorXd::Zero(1), local);
    system.rates(1, x, stated);
    CAPTURE(from, local[0], stated[0]);
    CHECK(local[0] == Approx(stated[0]).epsilon(5e-4));
  }
}

TEST_CASE("an expansion is given up when asked to") {
  SteadyWheel wheel;
  (void)wheel.linearise(0);
  wheel.lanes().renew();
  CHECK(wheel.anew(1));
}

TEST_CASE("a run whose expansions serve several steps errs no more than its tolerance allows") {
  const network::Network net = test::curved_chain();
  const Eigen::VectorXd exact = test::after_a_minute(net, 1e-7);
  double before = 1e300;
  for (const double tolerance : {0.2, 0.02, 0.002}) {
    const double error = (test::after_a_minute(net, tolerance) - exact).lpNorm<Eigen::Infinity>();
    CAPTURE(tolerance, error);
    CHECK(error < 3 * tolerance);
    CHECK(error < before);
    before = error;
  }
}

}  // namespace hatring::solve
