// SPDX-License-Identifier: MIT
// Order observed when the step is halved, against the classical Runge-Kutta method with far smaller steps.
#include <catch2/catch.hpp>
#include <cmath>

#include "tests/sim/solve/small_networks.hpp"

namespace hatring::solve {
namespace {

using test::march;

constexpr double kDecay = 8;

// Expands anew at every step, and hands the stepper a matrix that is wrong by a factor.
class Skewed {
 public:
  Skewed(WheelSystem& inner, double factor) : lanes_(inner.lanes()), factor_(factor) {}
  using Vector = LaneSystem<double>::Vector;
  [[nodiscard]] Eigen::Index size() const { return lanes_.size(); }
  void linearise(double t, const Eigen::VectorXd& x, const Tolerance& tolerance, Eigen::VectorXd& f) {
    lanes_.renew();
    lanes_.linearise(t, x, tolerance, f);
    lanes_.derivatives() *= factor_;
  }
  [[nodiscard]] Eigen::Index temperatures() const { return lanes_.temperatures(); }
  void complete(Eigen::VectorXd& x, Vector& t) const { lanes_.complete(x, t); }
  void follow(Eigen::VectorXd& x, Eigen::VectorXd& f, Vector& t, Vector& dt) const { lanes_.follow(x, f, t, dt); }
  [[nodiscard]] double attempt(double h, const StepMethod& method, const Eigen::VectorXd& x, Eigen::VectorXd& next) {
    return lanes_.attempt(h, method, x, next);
  }
  [[nodiscard]] WorstNode worst(const StepMethod& method) const { return lanes_.worst(method); }

 private:
  LaneSystem<double>& lanes_;
  double factor_;
};

// Largest error of a node's temperature [K].
double error(const WheelSystem& system, const Eigen::VectorXd& x, const Eigen::VectorXd& exact) {
  Eigen::VectorXd a(system.nodes()), b(system.nodes());
  system.temperatures_of(x, a);
  system.temperatures_of(exact, b);
  return (a - b).lpNorm<Eigen::Infinity>();
}

double observed_order(const network::Network& net, const std::function<Load(double)>& load, const Tableau& tableau,
                      double factor = 1) {
  WheelSystem system(net, load);
  Skewed skewed(system, factor);
  const Eigen::VectorXd start = system.initial_state();
  const Eigen::VectorXd exact = test::march_explicit(system, start, kDecay, 16000);
  const double coarse = error(system, march(skewed, start, kDecay, 128, tableau), exact);
  const double fine = error(system, march(skewed, start, kDecay, 256, tableau), exact);
  CAPTURE(coarse, fine);
  CHECK(fine > 1e-9);  // above the rounding, so that the ratio means something
  return std::log2(coarse / fine);
}

Load no_load(double) {
  return {};
}

}  // namespace

TEST_CASE("ROS34PW2 is of order 3 on a constant-coefficient network, driven or not, whatever the matrix") {
  const network::Network net = test::linear_chain();
  for (const double factor : {1.0, 0.7, 1.3}) {
    CAPTURE(factor);
    const double free = observed_order(net, no_load, ros34pw2(), factor),
                 driven = observed_order(net, test::smooth_load, ros34pw2(), factor);
    CAPTURE(free, driven);
    CHECK(free > 2.8);
    CHECK(driven > 2.8);
  }
}

TEST_CASE("ROS34PW2 keeps order 3 with radiation and k(T) and c(T) and an inexact matrix") {
  network::Network net = test::curved_chain();
  net.tables.assign(1, {net.grid, [](double, double) { return 20.0; }});
  for (network::Surface& s : net.surfaces) s.table = 0;
  const double driven = observed_order(net, test::smooth_load, ros34pw2());
  CAPTURE(driven);
  CHECK(driven > 2.8);
}

// Within a step convection is followed by its slopes over temperature and speed.
TEST_CASE("with convection that curves over temperature and speed the order falls below 3 where errors are small") {
  const double driven = observed_order(test::curved_chain(), test::smooth_load, ros34pw2());
  CAPTURE(driven);
  CHECK(driven > 2.2);
  CHECK(driven < 2.8);
}

TEST_CASE("RODAS3 is of order 3 on a constant-coefficient network with the exact matrix") {
  const network::Network net = test::linear_chain();
  const double free = observed_order(net, no_load, rodas3()), driven = observed_order(net, test::smooth_load, rodas3());
  CAPTURE(free, driven);
  CHECK(free > 2.8);
  CHECK(driven > 2.8);
}

}  // namespace hatring::solve
