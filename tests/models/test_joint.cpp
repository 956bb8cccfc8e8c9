// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "models/joint.hpp"

using namespace hatring::models;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {
constexpr double kIron = 12.5e-6, kAluminium = 24e-6;
double strain(double expansion, double celsius) {
  return expansion * (celsius - 20);
}
}  // namespace

TEST_CASE("lugs inside the bore: a 95, r_b 85 mm, ring 500 degC, lug 300 degC move 0.535 mm (arithmetic)", "[joint]") {
  CHECK_THAT(ring_growth(0.095, 0.085, strain(kIron, 500), strain(kIron, 300)), WithinAbs(0.535e-3, 1e-9));
  // neither the bolt circle with the ring's strain nor with the lug's alone
  CHECK_THAT(ring_growth(0.085, 0.085, strain(kIron, 500), 0), WithinAbs(0.510e-3, 1e-9));
  CHECK_THAT(ring_growth(0.085, 0.085, strain(kIron, 300), 0), WithinAbs(0.2975e-3, 1e-9));
}

TEST_CASE("holes outside the bore add their own strip", "[joint]") {
  CHECK_THAT(ring_growth(0.095, 0.105, 0.006, 0.005), WithinAbs(0.62e-3, 1e-12));
  CHECK_THAT(ring_growth(0.095, 0.105, 0.006, 0.006), WithinRel(0.105 * 0.006, 1e-14));
}

TEST_CASE(
    "ring minus hat at r 95 mm: 600/100 +0.506, 500/200 +0.160, 100/200 -0.315 mm (closed form, 12.5e-6 and 24e-6)",
    "[joint]") {
  const auto delta = [](double ring, double hat) {
    return differential_expansion(ring_growth(0.095, 0.095, strain(kIron, ring), 0),
                                  hat_growth(0.095, strain(kAluminium, hat), 0, 0));
  };
  CHECK_THAT(delta(600, 100), WithinAbs(0.506e-3, 2e-6));
  CHECK_THAT(delta(500, 200), WithinAbs(0.160e-3, 2e-6));
  CHECK_THAT(delta(100, 200), WithinAbs(-0.315e-3, 2e-6));
}

TEST_CASE("the sign turns where the hat's rise is 12.5/24 of the ring's", "[joint]") {
  const double ring = 300, hat = 20 + (ring - 20) * kIron / kAluminium;
  CHECK_THAT(0.095 * strain(kIron, ring) - hat_growth(0.095, strain(kAluminium, hat), 0, 0), WithinAbs(0, 1e-15));
}

TEST_CASE("a cooler bell holds the flange back by its share of the stiffness", "[joint]") {
  CHECK_THAT(hat_growth(0.09, 0.004, 0.002, 0), WithinRel(0.36e-3, 1e-12));
  CHECK_THAT(hat_growth(0.09, 0.004, 0.002, 0.25), WithinRel(0.315e-3, 1e-12));
  CHECK_THAT(hat_growth(0.09, 0.004, 0.002, 1), WithinRel(0.18e-3, 1e-12));
}

TEST_CASE(
    "bell restraint of an 80 mm, 6 mm wall on a 15 by 8 mm flange (Timoshenko and Woinowsky-Krieger, hand-worked)",
    "[joint]") {
  // beta = (3(1-0.1089))^(1/4)/sqrt(0.08*0.006) = 1.278680/0.0219089 = 58.363 /m; D/E = 2.16e-7/(12*0.8911)
  // = 2.01997e-8 m3 bell 2*198799*2.01997e-8 = 8.0314e-3 /m; flange 1.2e-4/6.4e-3 = 1.875e-2 /m; share 0.2999
  CHECK_THAT(bell_restraint(0.080, 0.006, 0.015, 0.008, 0.33), WithinRel(0.2999, 1e-3));
  CHECK(bell_restraint(0.080, 0.003, 0.015, 0.008, 0.33) < bell_restraint(0.080, 0.006, 0.015, 0.008, 0.33));
  CHECK_THROWS_AS(bell_restraint(0.080, 0, 0.015, 0.008, 0.33), std::invalid_argument);
}

TEST_CASE("clearances of a 0.30 mm float: half a millimetre of growth is interference outward, room inward",
          "[joint]") {
  CHECK_THAT(clearance_outward(0.30e-3, 0.506e-3), WithinAbs(-0.206e-3, 1e-12));
  CHECK_THAT(clearance_inward(0.30e-3, 0.506e-3), WithinAbs(0.806e-3, 1e-12));
  CHECK_THAT(clearance_inward(0.30e-3, -0.315e-3), WithinAbs(-0.015e-3, 1e-12));
}
