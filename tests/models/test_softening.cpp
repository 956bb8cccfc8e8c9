// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "models/softening.hpp"

using namespace hatring::models;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

constexpr double kHour = 3600;
constexpr Overageing k6061{472.15, 16 * kHour, 491.15, 4 * kHour};

double kelvin(double celsius) {
  return celsius + 273.15;
}

}  // namespace

TEST_CASE("over-ageing: both measured points and 92 h at 177 degC where 64 h were not enough (project of 2015)",
          "[softening]") {
  CHECK_THAT(overageing_time(k6061, kelvin(199)), WithinRel(16 * kHour, 1e-9));
  CHECK_THAT(overageing_time(k6061, kelvin(218)), WithinRel(4 * kHour, 1e-9));
  CHECK_THAT(overageing_time(k6061, kelvin(177)), WithinRel(92.2 * kHour, 5e-3));
  CHECK_THAT(activation_energy(k6061), WithinRel(140.7e3, 1e-3));
  CHECK_THROWS_AS(overageing_time({}, 400), std::invalid_argument);
  CHECK_THROWS_AS(overageing_time({491.15, 4 * kHour, 472.15, 16 * kHour}, 400), std::invalid_argument);
}

TEST_CASE("over-ageing: the long soak table lies on the curve at the shares that the law gives it", "[softening]") {
  const auto soaked = [](double celsius) {
    return overaged_strength_left(10000 * kHour / overageing_time(k6061, kelvin(celsius)));
  };
  CHECK_THAT(soaked(149), WithinAbs(0.775, 2e-3));
  CHECK_THAT(soaked(204), WithinAbs(0.373, 2e-3));
  CHECK_THAT(soaked(260), WithinAbs(0.123, 2e-3));
}

TEST_CASE("over-ageing: strength left falls from 1 through 240/276 and never rises", "[softening]") {
  CHECK(overaged_strength_left(0) == 1);
  CHECK(overaged_strength_left(0.01) == 1);
  CHECK_THAT(overaged_strength_left(1), WithinRel(240.0 / 276, 1e-12));
  CHECK_THAT(overaged_strength_left(1e9), WithinRel(0.123, 1e-12));
  double before = 1;
  for (double share = 1e-3; share < 1e6; share *= 1.1) {
    const double now = overaged_strength_left(share);
    REQUIRE(now <= before);
    before = now;
  }
  CHECK_THROWS_AS(overaged_strength_left(-1), std::invalid_argument);
}

TEST_CASE("over-ageing: shares of sessions add up and a ramp is close to its exact integral", "[softening]") {
  const std::vector<double> time{0, 8 * kHour}, held{kelvin(199), kelvin(199)};
  CHECK_THAT(overageing_share(k6061, time, held), WithinRel(0.5, 1e-9));
  const auto ramp = [](int steps) {
    std::vector<double> t, temperature;
    for (int i = 0; i <= steps; ++i) {
      t.push_back(3600.0 * i / steps);
      temperature.push_back(kelvin(100 + 100.0 * i / steps));
    }
    return overageing_share(k6061, t, temperature);
  };
  CHECK_THAT(ramp(20), WithinRel(ramp(2000), 0.015));
  const std::vector<double> cold{300, 300};
  CHECK(overageing_share(k6061, time, cold) < 1e-5);
  const std::vector<double> one{300};
  CHECK_THROWS_AS(overageing_share(k6061, time, one), std::invalid_argument);
}

TEST_CASE("time above a threshold is cut at the crossings", "[softening]") {
  const std::vector<double> time{0, 10, 20, 30, 50}, temperature{400, 500, 500, 400, 440};
  CHECK_THAT(time_above(450, time, temperature), WithinRel(20.0, 1e-12));
  CHECK_THAT(time_above(420, time, temperature), WithinRel(36.0, 1e-12));
  CHECK_THAT(time_above(300, time, temperature), WithinRel(50.0, 1e-12));
  CHECK(time_above(500, time, temperature) == 0);
  CHECK_THROWS_AS(time_above(1, time, std::vector<double>{1}), std::invalid_argument);
}
