// SPDX-License-Identifier: MIT
// Order conditions as in Hairer and Wanner II, sec. IV.7 (exact Jacobian: tables 7.1 and 7.2) and, for W-methods with
// any matrix, the wider set of Steihaug and Wolfbrandt 1979.
#include <Eigen/LU>
#include <catch2/catch.hpp>

#include "sim/solve/tableau.hpp"

namespace hatring::solve {
namespace {

constexpr double kRound = 2e-14;

double sum(const Tableau::Vector& b, const Tableau::Vector& v) {
  return b.dot(v);
}

// Every condition of order 1 to 3 that a W-method of order 3 meets for the weights b, up to `order`.
void check_w_conditions(const Tableau& t, const Tableau::Vector& b, int order) {
  const Tableau::Vector one = Tableau::Vector::Ones(), alpha = t.alpha * one, gamma = t.gamma * one;
  CHECK(b.sum() == Approx(1).epsilon(kRound));
  if (order < 2) return;
  CHECK(sum(b, alpha) == Approx(0.5).epsilon(kRound));
  CHECK(std::abs(sum(b, gamma)) < kRound);
  if (order < 3) return;
  CHECK(sum(b, alpha.cwiseProduct(alpha)) == Approx(1.0 / 3).epsilon(kRound));
  CHECK(sum(b, t.alpha * alpha) == Approx(1.0 / 6).epsilon(kRound));
  CHECK(std::abs(sum(b, t.alpha * gamma)) < kRound);
  CHECK(std::abs(sum(b, t.gamma * alpha)) < kRound);
  CHECK(std::abs(sum(b, t.gamma * gamma)) < kRound);
}

void check_rosenbrock_conditions(const Tableau& t, const Tableau::Vector& b, int order) {
  const Tableau::Matrix beta = t.alpha + t.gamma;
  const Tableau::Vector one = Tableau::Vector::Ones(), alpha = t.alpha * one;
  CHECK(b.sum() == Approx(1).epsilon(kRound));
  CHECK(sum(b, beta * one) == Approx(0.5).epsilon(kRound));
  if (order < 3) return;
  CHECK(sum(b, alpha.cwiseProduct(alpha)) == Approx(1.0 / 3).epsilon(kRound));
  CHECK(sum(b, beta * (beta * one)) == Approx(1.0 / 6).epsilon(kRound));
}

void check_form(const Tableau& t) {
  for (int i = 0; i < Tableau::kStages; ++i) {
    CHECK(t.gamma(i, i) == Approx(t.step.diagonal).epsilon(kRound));
    for (int j = i; j < Tableau::kStages; ++j) {
      CHECK(t.alpha(i, j) == 0);
      if (j > i) CHECK(t.gamma(i, j) == 0);
    }
  }
}

// The last stage is the new state: b_j = alpha_sj + gamma_sj.
void check_stiffly_accurate(const Tableau& t) {
  const int last = Tableau::kStages - 1;
  CHECK((t.alpha.row(last) + t.gamma.row(last) - t.b.transpose()).norm() < kRound);
  CHECK(t.alpha.row(last).sum() == Approx(1).epsilon(kRound));
}

// R(z) = 1 + z b (I - z beta)^-1 1
double stability(const Tableau& t, const Tableau::Vector& b, double z) {
  const Tableau::Matrix beta = t.alpha + t.gamma;
  return 1 + z * b.dot((Tableau::Matrix::Identity() - z * beta).inverse() * Tableau::Vector::Ones());
}

}  // namespace

TEST_CASE(
    "ROS34PW2 (Rang and Angermann 2005) meets every W-method condition of order 3, its embedded method of order 2") {
  const Tableau& t = ros34pw2();
  check_form(t);
  check_w_conditions(t, t.b, 3);
  check_w_conditions(t, t.b_embedded, 2);
  check_rosenbrock_conditions(t, t.b, 3);
  check_stiffly_accurate(t);
  CHECK((t.b - t.b_embedded).norm() > 0.1);
}

TEST_CASE(
    "RODAS3 (Sandu and others 1997) meets the conditions of order 3 with the exact Jacobian, its embedded method of "
    "order 2") {
  const Tableau& t = rodas3();
  check_form(t);
  check_rosenbrock_conditions(t, t.b, 3);
  check_rosenbrock_conditions(t, t.b_embedded, 2);
  check_stiffly_accurate(t);
  CHECK((t.b - t.b_embedded).norm() > 0.1);
}

TEST_CASE("both methods damp stiff modes completely and never amplify a decaying one") {
  for (const Tableau* t : {&ros34pw2(), &rodas3()}) {
    CAPTURE(t->name);
    CHECK(std::abs(stability(*t, t->b, -1e8)) < 1e-7);
    for (double z = 1e-3; z < 1e6; z *= 1.2) CHECK(std::abs(stability(*t, t->b, -z)) < 1);
  }
}

TEST_CASE("the transformed coefficients are those of the textbook form") {
  for (const Tableau* t : {&ros34pw2(), &rodas3()}) {
    CAPTURE(t->name);
    const StepMethod& step = t->step;
    using Rows = Eigen::Matrix<double, 4, 4, Eigen::RowMajor>;
    const Tableau::Matrix a = Eigen::Map<const Rows>(&step.a[0][0]), stated_c = Eigen::Map<const Rows>(&step.c[0][0]);
    const Tableau::Vector m(step.m), error(step.error), time(step.time);
    CHECK((a * t->gamma - t->alpha).norm() < kRound * 10);
    CHECK((t->gamma.transpose() * m - t->b).norm() < kRound * 10);
    CHECK((t->gamma.transpose() * error - (t->b - t->b_embedded)).norm() < kRound * 10);
    const Tableau::Matrix c = Tableau::Matrix::Identity() / step.diagonal - t->gamma.inverse();
    CHECK((stated_c - c).norm() < 1e-12 * c.norm() + 1e-12);
    CHECK((time - t->alpha.rowwise().sum()).norm() < kRound);
  }
}

}  // namespace hatring::solve
