// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "models/convection.hpp"
#include "tests/models/smoothness.hpp"

using namespace hatring::models;
using Catch::WithinAbs;
using Catch::WithinRel;
using hatring::tests::slope_change_left;

namespace {
constexpr double kPressure = 101325;
const Air kCool = air(293.15, kPressure);
double wheel_rate(double kmh) {
  return kmh / 3.6 / 0.315;
}
}  // namespace

TEST_CASE("the slope test tells a kink and a jump from a smooth function", "[smoothness]") {
  CHECK(slope_change_left([](double x) { return std::abs(x - 0.3123); }, -1, 1) > 0.9);
  CHECK(slope_change_left([](double x) { return x > 0.3123 ? 1.1 : 1.0; }, -1, 1) > 4);
  CHECK(slope_change_left([](double x) { return std::sin(3 * x); }, -1, 1) < 0.2);
}

TEST_CASE(
    "free disc, laminar, 310 mm at 50, 150, 250 km/h: 14.5, 25, 33 W/m2/K (von Karman flow, separate calculation)",
    "[convection]") {
  // A radius small enough to be laminar at every speed; the laminar coefficient does not depend on it.
  CHECK_THAT(disc_face(wheel_rate(50), 0.1, kCool), WithinRel(14.5, 0.02));
  CHECK_THAT(disc_face(wheel_rate(150), 0.1, kCool), WithinRel(25, 0.02));
  CHECK_THAT(disc_face(wheel_rate(250), 0.1, kCool), WithinRel(33, 0.02));
  CHECK_THAT(disc_face(wheel_rate(150), 0.1, air(473.15, kPressure)), WithinRel(25, 0.02));
}

TEST_CASE("free disc, mean of the turbulent law over a disc is 0.0149 Re^0.8 (Dorfman 0.0151)", "[convection]") {
  const double rate = 2e4, radius = 0.3;  // turbulent from 4 % of the radius outward
  const double re = rate * radius * radius / kCool.kinematic_viscosity;
  const double nusselt = disc_band(rate, 0, radius, kCool) * radius / kCool.conductivity;
  CHECK_THAT(nusselt, WithinRel(0.0194 / 1.3 * std::pow(re, 0.8), 1e-3));
  CHECK_THAT(nusselt, WithinRel(0.0151 * std::pow(re, 0.8), 0.02));
}

TEST_CASE("free disc, laminar inside and turbulent outside, 310 mm at 250 km/h: 48 W/m2/K (separate calculation)",
          "[convection]") {
  CHECK_THAT(disc_band(wheel_rate(250), 0, 0.155, kCool), WithinRel(48, 0.03));
  CHECK_THAT(disc_band(wheel_rate(150), 0, 0.155, kCool), WithinRel(25, 0.02));
  CHECK_THAT(disc_band(wheel_rate(250), 0, 0.155, air(473.15, kPressure)), WithinRel(32, 0.02));
}

TEST_CASE("the band average adds up: two halves make the whole, and many midpoints make the band", "[convection]") {
  const double rate = wheel_rate(250);
  const auto area = [](double a, double b) { return b * b - a * a; };
  const double inner = disc_band(rate, 0.095, 0.12, kCool) * area(0.095, 0.12);
  const double outer = disc_band(rate, 0.12, 0.155, kCool) * area(0.12, 0.155);
  CHECK_THAT((inner + outer) / area(0.095, 0.155), WithinRel(disc_band(rate, 0.095, 0.155, kCool), 1e-4));
  // Around the bore at walking pace, laminar, on both sides of the transition, turbulent from bore to rim.
  for (const double now : {0.01, 20.0, rate, 1.3 * rate, 10 * rate}) {
    CAPTURE(now);
    double sum = 0;
    for (int i = 0; i < 20000; ++i) {
      const double r = 0.095 + 0.06 * (i + 0.5) / 20000;
      sum += disc_face(now, r, kCool) * 2 * r * 0.06 / 20000;
    }
    CHECK_THAT(disc_band(now, 0.095, 0.155, kCool), WithinRel(sum / area(0.095, 0.155), 1e-5));
  }
}

TEST_CASE(
    "solid disc by road speed, 310 mm at 50, 150, 250 km/h: 77, 185, 279 W/m2/K (Limpert's law, separate calculation)",
    "[convection]") {
  CHECK_THAT(solid_disc_road(50 / 3.6, 0.31, kCool), WithinRel(77, 0.02));
  CHECK_THAT(solid_disc_road(150 / 3.6, 0.31, kCool), WithinRel(185, 0.02));
  CHECK_THAT(solid_disc_road(250 / 3.6, 0.31, kCool), WithinRel(279, 0.02));
  const Air warm = air(473.15, kPressure);
  CHECK_THAT(solid_disc_road(50 / 3.6, 0.31, warm), WithinRel(56, 0.02));
  CHECK_THAT(solid_disc_road(150 / 3.6, 0.31, warm), WithinRel(144, 0.02));
}

TEST_CASE("free disc and Limpert's solid disc bracket each other by 4 to 7 times", "[convection]") {
  for (const double kmh : {50.0, 150.0, 250.0}) {
    const double ratio = solid_disc_road(kmh / 3.6, 0.31, kCool) / disc_band(wheel_rate(kmh), 0, 0.155, kCool);
    CHECK(ratio > 4);
    CHECK(ratio < 8);
  }
}

TEST_CASE(
    "natural convection of a 310 mm plate at 100, 200, 400, 600 degC: 6.2, 7.4, 8.2, 8.3 W/m2/K (Churchill and Chu "
    "1975, "
    "separate calculation)",
    "[convection]") {
  const auto h = [](double celsius) { return natural_plate(celsius + 273.15, 293.15, 0.31, kPressure); };
  CHECK_THAT(h(100), WithinAbs(6.2, 0.15));
  CHECK_THAT(h(200), WithinAbs(7.4, 0.15));
  CHECK_THAT(h(400), WithinAbs(8.2, 0.15));
  CHECK_THAT(h(600), WithinAbs(8.3, 0.15));
}

TEST_CASE("Churchill and Chu 1975 at Ra -> 0 is Nu 0.825^2", "[convection]") {
  CHECK_THAT(natural_plate(300, 300, 0.31, kPressure) * 0.31 / air(300, kPressure).conductivity,
             WithinRel(0.680625, 1e-12));
}

TEST_CASE(
    "Churchill and Bernstein 1977: cylinder at Re 6071, Pr 0.70 has Nu 40.6 (Incropera's worked example, from memory)",
    "[convection]") {
  Air stream = air(300, kPressure);
  stream.prandtl = 0.70;
  const double speed = 6071 * stream.kinematic_viscosity / 0.0127;
  CHECK_THAT(crossflow_cylinder(speed, 0.0127, stream) * 0.0127 / stream.conductivity, WithinRel(40.6, 0.01));
  CHECK_THAT(crossflow_cylinder(0, 0.0127, stream) * 0.0127 / stream.conductivity, WithinRel(0.3, 1e-12));
}

TEST_CASE("flat plate: Nu 0.664 Re^0.5 Pr^(1/3) at Re 1e5 and 0.037 Re^0.8 Pr^(1/3) at 2e6 (hand-worked)",
          "[convection]") {
  const auto nusselt = [](double re) {
    return flat_plate(re * kCool.kinematic_viscosity / 0.3, 0.3, kCool) * 0.3 / kCool.conductivity /
           std::cbrt(kCool.prandtl);
  };
  CHECK_THAT(nusselt(1e5), WithinRel(209.97, 1e-4));
  CHECK_THAT(nusselt(2e6), WithinRel(4065.0, 1e-3));
}

TEST_CASE("natural and forced convection join by cubes", "[convection]") {
  CHECK_THAT(combine(3, 4), WithinRel(std::cbrt(91.0), 1e-14));
  CHECK(combine(0, 0) == 0);
  CHECK_THAT(combine(5, 0), WithinRel(5, 1e-14));
  CHECK_THAT(combine(0, 50), WithinRel(50, 1e-14));
}

TEST_CASE("every coefficient is finite and not negative at standstill", "[convection]") {
  for (const double h :
       {disc_face(0, 0.12, kCool), disc_face(10, 0, kCool), disc_band(0, 0.1, 0.15, kCool),
        solid_disc_road(0, 0.31, kCool), crossflow_cylinder(0, 0.01, kCool), flat_plate(0, 0.1, kCool)}) {
    CHECK(std::isfinite(h));
    CHECK(h >= 0);
  }
}

TEST_CASE("coefficients have a continuous slope in speed, through standstill and every regime", "[convection]") {
  CHECK(slope_change_left([](double w) { return disc_face(w, 0.12, kCool); }, -1, 1) < 0.2);
  CHECK(slope_change_left([](double w) { return disc_face(w, 0.12, kCool); }, 1, 600) < 0.2);
  CHECK(slope_change_left([](double w) { return disc_band(w, 0.095, 0.155, kCool); }, -1, 1) < 0.2);
  CHECK(slope_change_left([](double w) { return disc_band(w, 0.095, 0.155, kCool); }, 1, 600) < 0.2);
  CHECK(slope_change_left([](double v) { return solid_disc_road(v, 0.31, kCool); }, -0.1, 0.1) < 0.2);
  CHECK(slope_change_left([](double v) { return solid_disc_road(v, 0.31, kCool); }, 0.1, 80) < 0.2);
  CHECK(slope_change_left([](double v) { return crossflow_cylinder(v, 0.01, kCool); }, -0.01, 0.01) < 0.2);
  CHECK(slope_change_left([](double v) { return crossflow_cylinder(v, 0.01, kCool); }, 0.5, 80) < 0.2);
  CHECK(slope_change_left([](double v) { return flat_plate(v, 0.2, kCool); }, -0.1, 0.1) < 0.2);
  CHECK(slope_change_left([](double v) { return flat_plate(v, 0.2, kCool); }, 0.1, 120) < 0.2);
  CHECK(slope_change_left([](double v) { return combine(6, disc_band(v, 0.095, 0.155, kCool)); }, -1, 50) < 0.2);
}

TEST_CASE("the heat flux has a continuous slope in temperature where surface and air are equal", "[convection]") {
  const auto flux = [](double surface) {
    const Air film = air((surface + 300) / 2, kPressure);
    const double h = combine(natural_plate(surface, 300, 0.31, kPressure), disc_face(30, 0.12, film));
    return h * (surface - 300);
  };
  CHECK(slope_change_left(flux, 250.1, 900) < 0.2);
  // Without forced flow the slope only goes as the sixth root of the difference: 8^(-1/6) = 0.71, a kink would leave 1.
  const auto still = [](double surface) { return natural_plate(surface, 300, 0.31, kPressure) * (surface - 300); };
  CHECK(slope_change_left(still, 299.013, 301) < 0.8);
}
