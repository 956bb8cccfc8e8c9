// SPDX-License-Identifier: MIT
// Order conditions as in Hairer and Wanner II, sec. IV.7, table 7.1 (exact Jacobian), and for a W-method of order 2
// those of Steihaug and Wolfbrandt 1979.
#include "tools/bench/tableaus.hpp"

#include <Eigen/LU>
#include <catch2/catch.hpp>

namespace hatring::bench {
namespace {

using solve::Tableau;

// Left sides less right sides of all conditions up to an order; beta = alpha + gamma.
std::vector<double> rosenbrock_defects(const Tableau& t, const Tableau::Vector& b, int order) {
  const Tableau::Matrix beta = t.alpha + t.gamma;
  const Tableau::Vector one = Tableau::Vector::Ones(), alpha = t.alpha * one, sum = beta * one,
                        alpha2 = alpha.cwiseProduct(alpha);
  std::vector<double> d{b.sum() - 1, b.dot(sum) - 1.0 / 2};
  if (order >= 3) d.insert(d.end(), {b.dot(alpha2) - 1.0 / 3, b.dot(beta * sum) - 1.0 / 6});
  if (order >= 4)
    d.insert(d.end(), {b.dot(alpha2.cwiseProduct(alpha)) - 1.0 / 4, b.dot(alpha.cwiseProduct(t.alpha * sum)) - 1.0 / 8,
                       b.dot(beta * alpha2) - 1.0 / 12, b.dot(beta * (beta * sum)) - 1.0 / 24});
  return d;
}

double largest(const std::vector<double>& values) {
  double most = 0;
  for (const double v : values) most = std::max(most, std::abs(v));
  return most;
}

double stability(const Tableau& t, double z) {
  const Tableau::Matrix beta = t.alpha + t.gamma;
  return 1 + z * t.b.dot((Tableau::Matrix::Identity() - z * beta).inverse() * Tableau::Vector::Ones());
}

}  // namespace

TEST_CASE("ROS2 (Verwer and others 1999) is a W-method of order 2 with two stages, its embedded method of order 1") {
  const Tableau& t = ros2();
  const Tableau::Vector one = Tableau::Vector::Ones();
  CHECK(t.step.stages == 2);
  CHECK(t.b.sum() == Approx(1));
  CHECK(t.b.dot(t.alpha * one) == Approx(0.5));
  CHECK(std::abs(t.b.dot(t.gamma * one)) < 1e-15);
  CHECK(t.b_embedded.sum() == Approx(1));
  CHECK(std::abs(rosenbrock_defects(t, t.b_embedded, 2).back()) > 0.01);
}

TEST_CASE("ROS4 (Hairer and Wanner) meets the conditions of order 4 with the exact Jacobian, its embedded of order 3") {
  const Tableau& t = ros4();
  CHECK(t.step.stages == 4);
  CHECK(largest(rosenbrock_defects(t, t.b, 4)) < 1e-12);
  CHECK(largest(rosenbrock_defects(t, t.b_embedded, 3)) < 1e-12);
  CHECK(largest(rosenbrock_defects(t, t.b_embedded, 4)) > 1e-3);
}

TEST_CASE("both damp stiff modes and never amplify a decaying one") {
  for (const Tableau* t : {&ros2(), &ros4()}) {
    CAPTURE(t->name);
    CHECK(std::abs(stability(*t, -1e8)) < 1e-4);  // ROS4: as far as the five digits of its diagonal go
    for (double z = 1e-3; z < 1e6; z *= 1.2) CHECK(std::abs(stability(*t, -z)) < 1);
  }
}

}  // namespace hatring::bench
