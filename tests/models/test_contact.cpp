// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "models/contact.hpp"

using namespace hatring::models;
using Catch::WithinRel;

TEST_CASE(
    "clean iron on aluminium, 1.2 um, slope 0.12, at 1, 5, 10 MPa: 12, 55, 107 kW/m2/K (Cooper, Mikic and Yovanovich "
    "1969, "
    "separate calculation)",
    "[contact]") {
  const auto h = [](double pressure) { return contact_coefficient(50, 160, 1.2e-6, 0.12, pressure, 1.1e9); };
  CHECK_THAT(h(1e6), WithinRel(12000, 0.03));
  CHECK_THAT(h(5e6), WithinRel(55000, 0.03));
  CHECK_THAT(h(10e6), WithinRel(107000, 0.03));
}

TEST_CASE("contact coefficient: hand-worked at P = H / 1000, symmetric, zero without pressure", "[contact]") {
  // k_s = 2*40*60/100 = 48; 1.25*48*0.1/1e-6*(1e-3)^0.95 = 6e6 * 1.412538e-3
  CHECK_THAT(contact_coefficient(40, 60, 1e-6, 0.1, 1e6, 1e9), WithinRel(8475.23, 1e-6));
  CHECK(contact_coefficient(60, 40, 1e-6, 0.1, 1e6, 1e9) == contact_coefficient(40, 60, 1e-6, 0.1, 1e6, 1e9));
  CHECK(contact_coefficient(40, 60, 1e-6, 0.1, 0, 1e9) == 0);
  CHECK_THROWS_AS(contact_coefficient(40, 60, 0, 0.1, 1e6, 1e9), std::invalid_argument);
  CHECK_THROWS_AS(contact_coefficient(40, 60, 1e-6, 0.1, -1, 1e9), std::invalid_argument);
}

TEST_CASE("air gap of 4.6 um with 0.4 um jump distance, hand-worked: 0.03 / 5e-6 = 6000 W/m2/K", "[contact]") {
  CHECK_THAT(gap_coefficient(0.03, 4.6e-6, 0.4e-6), WithinRel(6000, 1e-12));
  CHECK_THROWS_AS(gap_coefficient(0.03, 0, 0), std::invalid_argument);
}

TEST_CASE(
    "joint faces: corrosion doubles the resistance, paste or gasket cuts it by 80 % or more (Voller and Tirovic 2007, "
    "abstract, paper not read)",
    "[contact]") {
  CHECK(1 / joint_surface_factor(JointSurface::dry) == 1);
  CHECK(1 / joint_surface_factor(JointSurface::corroded) == 2);
  CHECK(1 / joint_surface_factor(JointSurface::pasted) <= 0.2);
  CHECK(1 / joint_surface_factor(JointSurface::gasketed) <= 0.2);
}

TEST_CASE("area pressed by a 13 mm head over an 8 mm hole, hand-worked: 356.2 mm2", "[contact]") {
  // pi/4 (22.75^2 - 8^2) = 0.785398 * 453.5625
  CHECK_THAT(bolted_contact_pressure_area(0.013, 0.008), WithinRel(356.23e-6, 1e-4));
  CHECK_THROWS_AS(bolted_contact_pressure_area(0.004, 0.008), std::invalid_argument);
}
