// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numeric>

#include "models/friction.hpp"

using namespace hatring::models;
using Catch::WithinAbs;
using Catch::WithinRel;

TEST_CASE("effusivity of iron (50, 7200, 500) is 13,400 W s^0.5/m2/K (separate calculation)", "[friction]") {
  CHECK_THAT(effusivity(50, 7200, 500), WithinRel(13400, 0.002));
}

TEST_CASE(
    "share by effusivity at an area ratio of 0.12: 0.985, 0.97, 0.935 for organic, semi-metallic, sintered (Charron's "
    "form, "
    "separate calculation)",
    "[friction]") {
  CHECK_THAT(effusivity_share(1, 13400, 0.12, 1700), WithinAbs(0.985, 0.001));
  CHECK_THAT(effusivity_share(1, 13400, 0.12, 3600), WithinAbs(0.970, 0.002));
  CHECK_THAT(effusivity_share(1, 13400, 0.12, 7800), WithinAbs(0.935, 0.001));
}

TEST_CASE("contact split solves the four equations it eliminates", "[friction]") {
  const double power = GENERATE(0.0, 4000.0), contact = GENERATE(1.0, 80.0, 5000.0);
  const double r_ring = 0.002, r_pad = 0.06, ring = 500, pad = 430;
  const ContactSplit split = contact_split(contact, r_ring, r_pad);
  const double into_ring = split.ring_share * power + split.conductance * (pad - ring);
  const double into_pad = power - into_ring;
  const double ring_surface = ring + into_ring * r_ring, pad_surface = pad + into_pad * r_pad;
  CHECK_THAT(power / 2 + contact * (pad_surface - ring_surface), WithinRel(into_ring, 1e-11));
  CHECK_THAT(ring_surface_temperature(split, power, ring, pad, r_ring), WithinRel(ring_surface, 1e-14));
}

TEST_CASE("contact split limits: no contact halves the heat, perfect contact splits it by the half-cell conductances",
          "[friction]") {
  const ContactSplit none = contact_split(0, 0.002, 0.06);
  CHECK(none.ring_share == 0.5);
  CHECK(none.conductance == 0);
  const ContactSplit perfect = contact_split(std::numeric_limits<double>::infinity(), 0.002, 0.06);
  const double ring = 1 / 0.002, pad = 1 / 0.06;
  CHECK_THAT(perfect.ring_share, WithinRel(ring / (ring + pad), 1e-14));
  CHECK_THAT(perfect.conductance, WithinRel(ring * pad / (ring + pad), 1e-14));
  CHECK_THAT(contact_split(1e12, 0.002, 0.06).ring_share, WithinRel(perfect.ring_share, 1e-9));
  CHECK_THAT(contact_split(1e-9, 0.002, 0.06).ring_share, WithinRel(0.5, 1e-9));
  CHECK_THAT(contact_split(80, 0, 0).ring_share, WithinRel(0.5, 1e-14));
  CHECK_THAT(contact_split(80, 0, 0).conductance, WithinRel(80, 1e-14));
  CHECK_THROWS_AS(contact_split(std::numeric_limits<double>::infinity(), 0, 0), std::invalid_argument);
  CHECK_THROWS_AS(contact_split(-1, 0.1, 0.1), std::invalid_argument);
}

TEST_CASE("radial weights on 100/110/120 mm: uniform wear by area, uniform pressure by r cubed (hand-worked)",
          "[friction]") {
  const std::vector<double> edges{0.10, 0.11, 0.12};
  const auto wear = radial_weights(edges, 0.10, 0.12, false);
  CHECK_THAT(wear[0], WithinRel(21.0 / 44, 1e-12));
  CHECK_THAT(wear[1], WithinRel(23.0 / 44, 1e-12));
  const auto pressure = radial_weights(edges, 0.10, 0.12, true);
  CHECK_THAT(pressure[0], WithinRel(331.0 / 728, 1e-12));
  CHECK_THAT(pressure[1], WithinRel(397.0 / 728, 1e-12));
}

TEST_CASE("radial weights: bands outside the rubbed track get nothing, and all sum to 1", "[friction]") {
  const std::vector<double> edges{0.095, 0.105, 0.12, 0.14, 0.155};
  for (const bool uniform_pressure : {false, true}) {
    const auto weights = radial_weights(edges, 0.105, 0.13, uniform_pressure);
    CHECK(weights[0] == 0);
    CHECK(weights[1] > 0);
    CHECK(weights[2] > 0);
    CHECK(weights[3] == 0);
    CHECK_THAT(std::accumulate(weights.begin(), weights.end(), 0.0), WithinRel(1, 1e-14));
  }
  CHECK_THROWS_AS(radial_weights(edges, 0.16, 0.17, false), std::invalid_argument);
  CHECK_THROWS_AS(radial_weights(edges, 0.12, 0.12, false), std::invalid_argument);
  CHECK_THROWS_AS(radial_weights(std::vector<double>{0.1}, 0.1, 0.12, false), std::invalid_argument);
}
