// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "models/convection.hpp"
#include "tests/models/smoothness.hpp"

using namespace hatring::models;
using Catch::WithinAbs;
using Catch::WithinRel;
using hatring::tests::slope_change_left;

namespace {
const Air kRoom = air(300, 101325);
const VaneGeometry kThinVanes{0.155, 0.095, 0.008, 0.006, 40};
double rate(double rpm) {
  return rpm * 2 * std::numbers::pi / 60;
}
}  // namespace

TEST_CASE(
    "vane coefficient at 342, 684, 1025 rpm in the ratio 1 : 1.95 : 2.90 within 10 % (McPhee and Johnson 2008, "
    "abstract, "
    "geometry not read)",
    "[vanes]") {
  for (const VaneGeometry& vanes : {reference_vanes(), kThinVanes}) {
    const double low = vane_coefficient(rate(342), vanes, kRoom);
    CHECK_THAT(vane_coefficient(rate(684), vanes, kRoom) / low, WithinRel(1.95, 0.10));
    CHECK_THAT(vane_coefficient(rate(1025), vanes, kRoom) / low, WithinRel(2.90, 0.10));
  }
}

TEST_CASE(
    "vane coefficient 27.0, 52.7, 78.3 W/m2/K on the assumed reference ring within 3 % (McPhee and Johnson 2008, "
    "abstract, "
    "geometry not read)",
    "[vanes]") {
  CHECK_THAT(vane_coefficient(rate(342), reference_vanes(), kRoom), WithinRel(27.0, 0.03));
  CHECK_THAT(vane_coefficient(rate(684), reference_vanes(), kRoom), WithinRel(52.7, 0.03));
  CHECK_THAT(vane_coefficient(rate(1025), reference_vanes(), kRoom), WithinRel(78.3, 0.03));
}

TEST_CASE("vane coefficient keeps the laminar floor Nu 3.66 at standstill", "[vanes]") {
  const double floor = 3.66 * kRoom.conductivity / vane_hydraulic_diameter(kThinVanes);
  CHECK_THAT(vane_coefficient(0, kThinVanes, kRoom), WithinRel(floor, 1e-12));
}

TEST_CASE("pumped air at 1000 rpm: density, inlet area and omega sqrt(Ro^2-Ri^2), hand-worked", "[vanes]") {
  // inlet (2 pi 0.095 - 40*0.006)*0.008 = 2.8552e-3 m2; 104.720*0.122474 = 12.8255 m/s; density 1.17661
  CHECK_THAT(vane_mass_flow(rate(1000), kThinVanes, kRoom, 1), WithinRel(1.17661 * 2.8552e-3 * 12.8255, 1e-4));
  CHECK_THAT(vane_mass_flow(rate(1000), kThinVanes, kRoom, 0.4),
             WithinRel(0.4 * vane_mass_flow(rate(1000), kThinVanes, kRoom, 1), 1e-14));
  CHECK(vane_mass_flow(0, kThinVanes, kRoom, 1) == 0);
}

TEST_CASE("0.052 n sqrt(D^2-d^2) is the same head velocity as omega sqrt(Ro^2-Ri^2) (Limpert, from memory)",
          "[vanes]") {
  const double speed = vane_mass_flow(rate(1000), kThinVanes, kRoom, 1) / (kRoom.density * vane_inlet_area(kThinVanes));
  CHECK_THAT(speed, WithinRel(0.052 * 1000 * std::sqrt(0.31 * 0.31 - 0.19 * 0.19), 0.01));
}

TEST_CASE("vane conductance lies below both the air's capacity and h A, and meets each in its limit", "[vanes]") {
  for (const double rpm : {50.0, 500.0, 1000.0, 2000.0}) {
    const double capacity = vane_mass_flow(rate(rpm), kThinVanes, kRoom, 0.4) * kRoom.specific_heat;
    const double walls = vane_coefficient(rate(rpm), kThinVanes, kRoom) * vane_wetted_area(kThinVanes);
    const double g = vane_conductance(rate(rpm), kThinVanes, kRoom, 0.4);
    CHECK(g < capacity);
    CHECK(g < walls);
    CHECK_THAT(g, WithinRel(capacity * (1 - std::exp(-walls / capacity)), 1e-12));
  }
  const double slow = rate(0.01);
  CHECK_THAT(vane_conductance(slow, kThinVanes, kRoom, 0.4),
             WithinRel(vane_mass_flow(slow, kThinVanes, kRoom, 0.4) * kRoom.specific_heat, 1e-9));
  const double plenty = 1e4;  // a flow so large that the air stays cold
  CHECK_THAT(vane_conductance(rate(1000), kThinVanes, kRoom, plenty),
             WithinRel(vane_coefficient(rate(1000), kThinVanes, kRoom) * vane_wetted_area(kThinVanes), 1e-3));
  CHECK(vane_conductance(0, kThinVanes, kRoom, 0.4) == 0);
}

TEST_CASE("vane coefficient and conductance have a continuous slope in speed from standstill on", "[vanes]") {
  CHECK(slope_change_left([](double w) { return vane_coefficient(w, kThinVanes, kRoom); }, -2, 2) < 0.2);
  CHECK(slope_change_left([](double w) { return vane_coefficient(w, kThinVanes, kRoom); }, 0, 250) < 0.2);
  CHECK(slope_change_left([](double w) { return vane_conductance(w, kThinVanes, kRoom, 0.4); }, 0, 2) < 0.2);
  CHECK(slope_change_left([](double w) { return vane_conductance(w, kThinVanes, kRoom, 0.4); }, 0, 250) < 0.2);
}

TEST_CASE(
    "published duct forms: dh 11.1 mm, 60 mm long, 20 degC, hand-worked, and their two-fold jump at Re 1e4 (Limpert, "
    "from "
    "memory)",
    "[vanes]") {
  const Air cool = air(293.15, 101325);
  const double d = 0.0111, length = 0.060;
  const double speed = 1e4 * cool.kinematic_viscosity / d;
  // laminar 1.86 (1e4*0.712*0.185)^(1/3) = 20.39, times k/d = 2.299; turbulent 0.023*(1+0.185^0.67)*1e4^0.8*0.712^0.33
  // = 43.0
  CHECK_THAT(duct_laminar(speed, d, length, cool), WithinRel(47, 0.02));
  CHECK_THAT(duct_turbulent(speed, d, length, cool), WithinRel(100, 0.02));
  CHECK(duct_laminar(0, d, length, cool) == 0);
  CHECK(duct_turbulent(0, d, length, cool) == 0);
  CHECK_THAT(duct_laminar(8 * speed, d, length, cool) / duct_laminar(speed, d, length, cool), WithinRel(2, 1e-12));
}
