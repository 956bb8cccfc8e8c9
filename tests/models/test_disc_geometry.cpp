// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "models/disc_geometry.hpp"

using namespace hatring::models;
using Catch::WithinRel;

namespace {
const VaneGeometry kVanes{0.155, 0.095, 0.012, 0.006, 40};
}

TEST_CASE("annulus 95 to 155 mm, hand-worked: pi * 0.015 m2", "[geometry]") {
  CHECK_THAT(annulus_area(0.095, 0.155), WithinRel(0.0471239, 1e-6));
  CHECK_THAT(annulus_volume(0.095, 0.155, 0.01), WithinRel(4.71239e-4, 1e-6));
  CHECK_THROWS_AS(annulus_area(0.155, 0.095), std::invalid_argument);
  CHECK_THROWS_AS(annulus_volume(0.095, 0.155, -1), std::invalid_argument);
}

TEST_CASE("40 vanes of 6 mm in a 12 mm gap from 95 to 155 mm, hand-worked", "[geometry]") {
  // inlet (0.596903-0.24)*0.012; outlet (0.973894-0.24)*0.012; passage at r 125 mm (0.785398-0.24)/40 = 13.635 mm wide
  CHECK_THAT(vane_inlet_area(kVanes), WithinRel(4.28283e-3, 1e-5));
  CHECK_THAT(vane_outlet_area(kVanes), WithinRel(8.80673e-3, 1e-5));
  CHECK_THAT(vane_hydraulic_diameter(kVanes), WithinRel(0.012765, 1e-4));
  // cheeks 2*(pi*0.015 - 40*0.006*0.06) = 0.0654478, vane sides 2*40*0.06*0.012 = 0.0576
  CHECK_THAT(vane_wetted_area(kVanes), WithinRel(0.1230478, 1e-5));
  CHECK_THAT(vane_volume(kVanes), WithinRel(1.728e-4, 1e-12));
  CHECK_THAT(vented_ring_volume(0.01, kVanes), WithinRel(2 * 4.712389e-4 + 1.728e-4, 1e-6));
}

TEST_CASE("vanes that leave no room or have no size are refused", "[geometry]") {
  CHECK_THROWS_AS(vane_inlet_area({0.155, 0.095, 0.012, 0.006, 100}), std::invalid_argument);
  CHECK_THROWS_AS(vane_volume({0.155, 0.095, 0, 0.006, 40}), std::invalid_argument);
  CHECK_THROWS_AS(vane_volume({0.095, 0.155, 0.012, 0.006, 40}), std::invalid_argument);
}

TEST_CASE("hat volumes: flange 80 to 95 by 8 mm, wall 6 mm of 50 less 8 mm, face 32 to 80 by 8 mm (hand-worked)",
          "[geometry]") {
  const HatVolumes hat = hat_volumes({0.080, 0.006, 0.095, 0.008, 0.032, 0.008, 0.050});
  CHECK_THAT(hat.flange, WithinRel(6.59734e-5, 1e-5));  // pi (0.009025-0.0064) 0.008
  CHECK_THAT(hat.wall, WithinRel(1.219188e-4, 1e-5));   // pi (0.0064-0.005476) 0.042
  CHECK_THAT(hat.face, WithinRel(1.351137e-4, 1e-5));   // pi (0.0064-0.001024) 0.008
  CHECK_THROWS_AS(hat_volumes({0.080, 0.090, 0.095, 0.008, 0.032, 0.008, 0.050}), std::invalid_argument);
  CHECK_THROWS_AS(hat_volumes({0.080, 0.006, 0.095, 0.008, 0.032, 0.008, 0.005}), std::invalid_argument);
}

TEST_CASE("squared radii of gyration, hand-worked: annulus 95 to 155 mm, its 40 vanes, a hat", "[geometry]") {
  CHECK_THAT(annulus_gyration(0.095, 0.155), WithinRel(0.016525, 1e-9));  // (0.009025 + 0.024025) / 2
  CHECK_THAT(vane_gyration(kVanes), WithinRel(0.0159250, 1e-6));          // (0.009025 + 0.014725 + 0.024025) / 3
  // cheeks 2 x 4.712389e-4 m3, vanes 1.728e-4 m3
  CHECK_THAT(vented_ring_gyration(0.01, kVanes),
             WithinRel((9.424778e-4 * 0.016525 + 1.728e-4 * 0.015925) / 1.1152778e-3, 1e-6));
  // flange 6.59734e-5 at 0.0077125, wall 1.21935e-4 at 0.005938, face 1.35109e-4 at 0.003712
  CHECK_THAT(hat_gyration({0.080, 0.006, 0.095, 0.008, 0.032, 0.008, 0.050}),
             WithinRel((6.59734e-5 * 0.0077125 + 1.21944e-4 * 0.005938 + 1.35109e-4 * 0.003712) /
                           (6.59734e-5 + 1.21944e-4 + 1.35109e-4),
                       1e-3));
  CHECK_THROWS_AS(annulus_gyration(0.155, 0.095), std::invalid_argument);
}
