// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "models/material.hpp"
#include "tests/models/smoothness.hpp"

using Catch::WithinAbs;
using Catch::WithinRel;
using hatring::models::Curve;
using hatring::models::kReferenceTemperature;
using hatring::models::Material;

namespace {

// Data that make an ordinary spline overshoot (Akima's shape: flat, then a steep rise, then nearly flat).
const std::vector<double> kPlaces{0, 2, 3, 5, 6, 8, 9, 11, 12, 14, 15};
const std::vector<double> kHeights{10, 10, 10, 10, 10, 10, 10.5, 15, 50, 60, 85};

double simpson(const Curve& f, double from, double to, int halves) {
  const double h = (to - from) / (2 * halves);
  double sum = f(from) + f(to);
  for (int i = 1; i < 2 * halves; ++i) sum += (i % 2 == 1 ? 4 : 2) * f(from + h * i);
  return sum * h / 3;
}

}  // namespace

TEST_CASE("a curve passes through its table and keeps its shape (Fritsch and Carlson 1980)", "[material]") {
  const Curve curve(kPlaces, kHeights);
  for (std::size_t i = 0; i < kPlaces.size(); ++i) CHECK_THAT(curve(kPlaces[i]), WithinRel(kHeights[i], 1e-14));
  double before = curve(0);
  for (int i = 1; i <= 3000; ++i) {
    const double here = curve(15.0 * i / 3000);
    REQUIRE(here >= before - 1e-12);
    before = here;
  }
  CHECK(curve(4.3) == 10);  // flat data stay flat
}

TEST_CASE("an extremum of the table is the extremum of the curve", "[material]") {
  const Curve curve({0, 1, 2, 3, 4}, {0, 3, 1, 1, 5});
  for (int i = 0; i <= 400; ++i) {
    CHECK(curve(0.01 * i) <= 5);
    if (i <= 200) CHECK(curve(0.01 * i) <= 3);
    CHECK(curve(0.01 * i) >= 0);
    if (i >= 100) CHECK(curve(0.01 * i) >= 1 - 1e-12);
  }
  CHECK_THAT(curve.derivative(1), WithinAbs(0, 1e-15));
}

TEST_CASE("a curve on a straight table is the straight line", "[material]") {
  const Curve curve({300, 350, 500, 900}, {2, 3, 6, 14});
  for (const double t : {300.0, 320.0, 420.0, 777.0, 900.0}) {
    CHECK_THAT(curve(t), WithinRel(2 + (t - 300) / 50, 1e-14));
    CHECK_THAT(curve.derivative(t), WithinRel(0.02, 1e-13));
  }
}

TEST_CASE("two points make a straight line", "[material]") {
  const Curve curve({300, 400}, {1, 2});
  CHECK_THAT(curve(325), WithinRel(1.25, 1e-15));
  CHECK_THAT(curve.integral(300, 400), WithinRel(150, 1e-15));
}

TEST_CASE("a smooth function is met to third order", "[material]") {
  const auto worst = [](int points) {
    std::vector<double> t, y;
    for (int i = 0; i < points; ++i) {
      t.push_back(1.0 * i / (points - 1));
      y.push_back(std::exp(t.back()));
    }
    const Curve curve(t, y);
    double error = 0;
    for (int i = 0; i <= 1000; ++i) error = std::max(error, std::abs(curve(i / 1000.0) - std::exp(i / 1000.0)));
    return error;
  };
  CHECK(worst(11) < 2e-4);
  CHECK(worst(21) < worst(11) / 6.5);
}

TEST_CASE("the integral of a curve is exact (Simpson's rule is exact for cubics)", "[material]") {
  const Curve curve(kPlaces, kHeights);
  double sum = 0;
  for (std::size_t i = 0; i + 1 < kPlaces.size(); ++i) sum += simpson(curve, kPlaces[i], kPlaces[i + 1], 1);
  CHECK_THAT(curve.integral(0, 15), WithinRel(sum, 1e-13));
  CHECK_THAT(curve.integral(8.5, 13), WithinRel(simpson(curve, 8.5, 9, 1) + simpson(curve, 9, 11, 1) +
                                                    simpson(curve, 11, 12, 1) + simpson(curve, 12, 13, 1),
                                                1e-13));
  CHECK(curve.integral(13, 8.5) == -curve.integral(8.5, 13));
}

TEST_CASE("outside its table a curve is held, and so is its integral", "[material]") {
  const Curve curve({300, 400, 500}, {2, 3, 5});
  CHECK(curve(200) == 2);
  CHECK(curve(900) == 5);
  CHECK(curve.derivative(200) == 0);
  CHECK(curve.derivative(900) == 0);
  CHECK_THAT(curve.integral(200, 300), WithinRel(200, 1e-14));
  CHECK_THAT(curve.integral(500, 600), WithinRel(500, 1e-14));
  CHECK(curve.lowest() == 300);
  CHECK(curve.highest() == 500);
}

TEST_CASE("value, slope and integral of a curve agree by finite differences", "[material]") {
  const Curve curve(kPlaces, kHeights);
  const double h = 1e-6;
  for (const double t : {0.7, 5.5, 8.2, 10.1, 11.9, 14.4}) {
    CHECK_THAT(curve.derivative(t), WithinAbs((curve(t + h) - curve(t - h)) / (2 * h), 1e-6));
    CHECK_THAT(curve(t), WithinRel(curve.integral(t - h, t + h) / (2 * h), 1e-7));
  }
  CHECK(hatring::tests::slope_change_left(curve, 0.01, 14.99) < 0.2);
}

TEST_CASE("followed along a row of temperatures a curve has the values that it has one by one", "[material]") {
  const Curve f(kPlaces, kHeights);
  std::vector<double> row{-1, 0, 0.5, 2, 2.5, 14.9, 15, 16, std::numeric_limits<double>::quiet_NaN(), 11.5, 0.5, 7};
  std::vector<double> values(row.size());
  CHECK_THROWS_AS(f.follow(row, {}), std::invalid_argument);
  for (const Curve& curve : {f, Curve(3)}) {
    curve.follow(row, values);
    for (std::size_t i = 0; i < row.size(); ++i) {
      CAPTURE(row[i]);
      if (std::isnan(curve(row[i])))
        CHECK(std::isnan(values[i]));
      else
        CHECK(values[i] == curve(row[i]));
    }
  }
}

TEST_CASE("a constant curve", "[material]") {
  const Curve curve(7.5);
  CHECK(curve.constant());
  CHECK_FALSE(curve.empty());
  CHECK(curve(10) == 7.5);
  CHECK(curve.derivative(10) == 0);
  CHECK(curve.integral(2, 4) == 15);
  CHECK(curve.highest() == std::numeric_limits<double>::infinity());
  CHECK(Curve().empty());
}

TEST_CASE("a curve refuses a bad table", "[material]") {
  CHECK_THROWS_AS(Curve({300, 400}, {1}), std::invalid_argument);
  CHECK_THROWS_AS(Curve(std::vector<double>{}, std::vector<double>{}), std::invalid_argument);
  CHECK_THROWS_AS(Curve({300, 300}, {1, 2}), std::invalid_argument);
  CHECK_THROWS_AS(Curve({400, 300}, {1, 2}), std::invalid_argument);
  CHECK_THROWS_AS(Curve(std::nan("")), std::invalid_argument);
}

TEST_CASE("enthalpy and thermal strain count from 20 degC", "[material]") {
  Material iron;
  iron.specific_heat = Curve({293.15, 493.15}, {400, 500});
  iron.mean_expansion = Curve(12.5e-6);
  CHECK(iron.enthalpy(kReferenceTemperature) == 0);
  CHECK_THAT(iron.enthalpy(493.15), WithinRel(90000, 1e-14));
  CHECK_THAT(iron.thermal_strain(773.15), WithinRel(0.006, 1e-14));
}
