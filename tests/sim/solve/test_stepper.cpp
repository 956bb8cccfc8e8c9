// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "tests/sim/solve/allocation_count.hpp"
#include "tests/sim/solve/small_networks.hpp"

namespace hatring::solve {
namespace {

using Catch::Matchers::Contains;

Eigen::VectorXd temperatures(const WheelSystem& system, const Eigen::VectorXd& x) {
  Eigen::VectorXd t(system.nodes());
  system.temperatures_of(x, t);
  return t;
}

// Largest error of the interpolated state in the middle of the steps.
double error_between_steps(const network::Network& net, int steps) {
  constexpr double kDuration = 8;
  WheelSystem system(net, test::smooth_load), peer(net, test::smooth_load);
  const double step = kDuration / steps;
  WheelStepper<double> stepper(system.lanes(), ros34pw2(), test::fixed_step(step));
  const Eigen::VectorXd start = system.initial_state();
  stepper.start(system.lanes(), start, 0);
  DenseState<Eigen::VectorXd> between = stepper.current_state();
  stepper.initialize(between, 0, step);
  Eigen::VectorXd exact = start;
  double worst = 0;
  for (int i = 0; i < steps; ++i) {
    system.lanes().renew();
    const auto [begin, end] = stepper.do_step(system.lanes());
    const double middle = 0.5 * (begin + end);
    stepper.calc_state(middle, between);
    exact = test::march_explicit(peer, start, middle, 4000);
    const Eigen::VectorXd right = temperatures(system, exact);
    for (const Eigen::VectorXd& found : {temperatures(system, between), Eigen::VectorXd(between.temperature())})
      worst = std::max(worst, (found - right).lpNorm<Eigen::Infinity>());
  }
  return worst;
}

}  // namespace

TEST_CASE("the state between two steps is of order 3 as well") {
  const network::Network net = test::curved_chain();
  // Steps so short that all have the same matrix.
  const double coarse = error_between_steps(net, 64), fine = error_between_steps(net, 128);
  CAPTURE(coarse, fine);
  CHECK(std::log2(coarse / fine) > 2.8);
}

TEST_CASE("the interpolated state meets the states at both ends of the step") {
  const network::Network net = test::curved_chain();
  WheelSystem system(net, test::smooth_load);
  WheelStepper<double> stepper(system.lanes(), ros34pw2(), {});
  stepper.start(system.lanes(), system.initial_state(), 0);
  DenseState<Eigen::VectorXd> at = stepper.current_state();
  const Eigen::VectorXd start = at, warm = at.temperature();
  stepper.initialize(at, 0, 0.1);
  const auto [begin, end] = stepper.do_step(system.lanes());
  stepper.calc_state(begin, at);
  CHECK((at.x() - start).norm() <= 1e-14 * start.norm());
  CHECK((at.temperature() - warm).norm() <= 1e-12 * warm.norm());
  stepper.calc_state(end, at);
  const Eigen::VectorXd after = at;
  CHECK((after - start).norm() > 1e-6 * start.norm());
  CHECK((temperatures(system, at) - at.temperature()).lpNorm<Eigen::Infinity>() < 1e-3);  // by the expansion
  const auto behind = at.x_tail(kBehindNodes);
  CHECK(behind[kAllHeat] == Approx(at.x().head(system.nodes()).sum()).epsilon(1e-14));
  CHECK(behind[kWheelHeat] == Approx(at.x()[3]).epsilon(1e-14));  // the last of the chain
  stepper.do_step(system.lanes());
  stepper.calc_state(end, at);
  CHECK((at.x() - after).norm() <= 1e-14 * start.norm());
  CHECK_THROWS_WITH(stepper.initialize(at, end, 0.1), Contains("another time"));
}

TEST_CASE("a step, its factorisation and its interpolation touch no heap") {
  const long before_vector = test::allocations();
  if (before_vector < 0) return;  // a sanitizer owns malloc
  {
    const Eigen::VectorXd counted = Eigen::VectorXd::Ones(100);
    CHECK(counted.sum() == 100);
  }
  REQUIRE(test::allocations() > before_vector);  // the counter counts

  for (const Tableau* tableau : {&ros34pw2(), &rodas3()}) {
    const network::Network net = test::curved_chain();
    WheelSystem system(net, test::smooth_load);
    WheelStepper<double> stepper(system.lanes(), *tableau, {});
    stepper.start(system.lanes(), system.initial_state(), 0);
    DenseState<Eigen::VectorXd> at = stepper.current_state();
    stepper.initialize(at, 0, 0.01);
    Eigen::VectorXd x = at, t = at.temperature();
    stepper.do_step(system.lanes());
    const long before = test::allocations();
    for (int i = 0; i < 50; ++i) {
      const auto [begin, end] = stepper.do_step(system.lanes());
      stepper.calc_state(0.5 * (begin + end), at);
      x = at.x();
      t = at.temperature();
    }
    const long after = test::allocations();
    CAPTURE(tableau->name);
    CHECK(after == before);
  }
}

TEST_CASE("a load that is not a number ends in an error that names time, step and node, and keeps the last good time") {
  const network::Network net = test::curved_chain();
  WheelSystem system(net, [](double t) {
    Load load = test::smooth_load(t);
    if (t > 3) load.heat = std::numeric_limits<double>::quiet_NaN();
    return load;
  });
  Eigen::VectorXd x = system.initial_state();
  try {
    (void)integrate(system, {0, 10}, {}, x, {}, ros34pw2(), [](double, const Eigen::VectorXd&) {});
    FAIL("no error");
  } catch (const SolveError& e) {
    CAPTURE(e.what());
    CHECK(e.last_good_time <= 3);
    CHECK(e.last_good_time > 2.9);
    CHECK(e.time == e.last_good_time);
    CHECK(e.step < 1e-8);
    CHECK(net.find(e.node) >= 0);
    CHECK_THAT(e.what(), Contains("step too small") && Contains(e.node) && Contains("degC"));
  }
}

TEST_CASE("a step that cannot meet its tolerance names the node that needs most") {
  const network::Network net = test::linear_chain();
  WheelSystem system(net, [](double t) { return Load{0, t > 1 ? 1e7 : 0.0, t > 1 ? 1.0 : 0.0}; });
  Eigen::VectorXd x = system.initial_state();
  StepOptions options;
  options.tolerance.absolute = 1e-6;
  options.smallest_step = 0.01;
  try {
    (void)integrate(system, {0, 10}, {}, x, options, ros34pw2(), [](double, const Eigen::VectorXd&) {});
    FAIL("no error");
  } catch (const SolveError& e) {
    CAPTURE(e.what());
    CHECK_THAT(e.what(), Contains("step too small"));
    CHECK(net.find(e.node) >= 0);
  }
}

TEST_CASE("the number of steps is bounded, rejected ones included") {
  const network::Network net = test::linear_chain();
  WheelSystem system(net, test::smooth_load);
  Eigen::VectorXd x = system.initial_state();
  StepOptions options;
  options.most_steps = 20;
  CHECK_THROWS_WITH(integrate(system, {0, 1000}, {}, x, options, ros34pw2(), [](double, const Eigen::VectorXd&) {}),
                    Contains("too many steps"));
}

TEST_CASE("a tighter tolerance gives a smaller error, about as large as the tolerance") {
  const network::Network net = test::curved_chain();
  const Eigen::VectorXd exact = test::after_a_minute(net, 1e-7);
  double last = 1;
  for (const double tolerance : {0.1, 0.01, 0.001}) {
    const double error = (test::after_a_minute(net, tolerance) - exact).lpNorm<Eigen::Infinity>();
    CAPTURE(tolerance, error);
    CHECK(error < 2 * tolerance);
    CHECK(error < last);
    last = error;
  }
}

}  // namespace hatring::solve
