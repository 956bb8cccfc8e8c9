// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "models/brake_power.hpp"

using namespace hatring::models;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {
constexpr double kPound = 0.45359237;
constexpr double kMilePerHour = 0.44704;
const RoadLoad kCar{1400, 1.05, 0.6, 0.013, 1.2};
}  // namespace

TEST_CASE("a 3,000 lb car at 60 mph carries about half a megajoule (common practice, no source)", "[brake_power]") {
  const RoadLoad car{3000 * kPound, 1, 0, 0, 0};
  CHECK_THAT(kinetic_energy(car, 60 * kMilePerHour), WithinRel(0.5e6, 0.05));
  // shared by four 10 lb discs of 0.13 BTU/lb/F: 90 F
  CHECK_THAT(kinetic_energy(car, 60 * kMilePerHour) / 1055.056 / (4 * 10 * 0.13), WithinAbs(90, 1));
}

TEST_CASE("1500 kg from 120 to 60 km/h gives up 625 kJ (closed form, snub speeds of 49 CFR 571.135, from memory)",
          "[brake_power]") {
  const RoadLoad car{1500, 1, 0, 0, 0};
  CHECK_THAT(kinetic_energy(car, 120 / 3.6) - kinetic_energy(car, 60 / 3.6), WithinRel(625e3, 1e-12));
}

TEST_CASE("each resistance at 40 m/s, 8 m/s2 braking, 5 % uphill, hand-worked", "[brake_power]") {
  const Resistances r = resistances(kCar, 40, -8, 0.05);
  CHECK_THAT(r.inertia, WithinRel(11760, 1e-12));
  CHECK_THAT(r.drag, WithinRel(576, 1e-12));
  const double cosine = 1 / std::sqrt(1.0025);
  CHECK_THAT(r.rolling, WithinRel(1400 * 9.80665 * 0.013 * cosine, 1e-12));
  CHECK_THAT(r.grade, WithinRel(1400 * 9.80665 * 0.05 * cosine, 1e-12));
  CHECK_THAT(retarding_demand(kCar, 40, -8, 0.05, 350), WithinRel(11760 - 576 - r.rolling - r.grade - 350, 1e-12));
}

TEST_CASE("signs: downhill asks for more brake, coasting for none, driving for a negative amount", "[brake_power]") {
  CHECK(retarding_demand(kCar, 40, -8, -0.05, 0) > retarding_demand(kCar, 40, -8, 0, 0));
  const Resistances rolling = resistances(kCar, 40, 0, 0);
  const double coasting = -(rolling.drag + rolling.rolling) / (kCar.mass * kCar.rotating_factor);
  CHECK_THAT(retarding_demand(kCar, 40, coasting, 0, 0), WithinAbs(0, 1e-9));
  CHECK(retarding_demand(kCar, 40, 1, 0, 0) < 0);
}
