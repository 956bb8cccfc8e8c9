// SPDX-License-Identifier: MIT
// The point-mass car against closed forms.
#include <catch2/catch.hpp>
#include <cmath>

#include "models/constants.hpp"
#include "models/point_mass.hpp"

using namespace hatring::models;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

PointMass plain() {
  return {.load = {.mass = 1000, .drag_area = 0.6, .rolling_resistance = 0.01, .air_density = 1.2},
          .grip = 1.1,
          .power = 120e3};
}

}  // namespace

TEST_CASE("a bend is taken at the root of mu g r") {
  CHECK_THAT(corner_speed(plain(), {.curvature = 1.0 / 50}), WithinRel(std::sqrt(1.1 * kGravity * 50), 1e-12));
  CHECK_THAT(corner_speed(plain(), {.curvature = -1.0 / 50}), WithinRel(std::sqrt(1.1 * kGravity * 50), 1e-12));
  CHECK_THAT(corner_speed(plain(), {.curvature = 0.02, .grip = 0.65}),
             WithinRel(std::sqrt(0.65 * 1.1 * kGravity * 50), 1e-12));
  CHECK(std::isinf(corner_speed(plain(), {})));
}

TEST_CASE("downforce raises the corner speed and in wide bends frees it") {
  PointMass car = plain();
  car.lift_area = -2;
  // m v^2 / r = mu (m g + rho A v^2 / 2)
  const double per_speed2 = 1.1 * 0.5 * 1.2 * 2 / 1000;
  CHECK_THAT(corner_speed(car, {.curvature = 0.02}), WithinRel(std::sqrt(1.1 * kGravity / (0.02 - per_speed2)), 1e-12));
  CHECK(std::isinf(corner_speed(car, {.curvature = 0.9 * per_speed2})));
  CHECK_THAT(tyre_load(car, 0, 50), WithinRel(1000 * kGravity + 0.5 * 1.2 * 2 * 2500, 1e-12));
  car.lift_area = 2;
  CHECK(corner_speed(car, {.curvature = 0.02}) < corner_speed(plain(), {.curvature = 0.02}));
}

TEST_CASE("grip along and across share a circle") {
  const PointMass car = plain();
  const RoadPlace bend{.curvature = 0.02};
  const double limit = corner_speed(car, bend), all = 1.1 * 1000 * kGravity;
  CHECK_THAT(grip_left(car, bend, 0), WithinRel(all, 1e-12));
  CHECK_THAT(grip_left(car, bend, limit), WithinAbs(0, 1e-3));
  const double half = grip_left(car, bend, limit * std::sqrt(0.6));  // 0.6 across leaves 0.8 along
  CHECK_THAT(half, WithinRel(0.8 * all, 1e-9));
  CHECK(grip_left(car, bend, 2 * limit) == 0);
}

TEST_CASE("full braking is grip and resistances") {
  PointMass car = plain();
  car.braking_share = 0.9;
  const double drag = 0.5 * 1.2 * 0.6 * 40 * 40;
  CHECK_THAT(full_braking(car, {}, 40),
             WithinRel(0.9 * 1.1 * kGravity + (drag + 0.01 * 1000 * kGravity) / 1000, 1e-12));
  CHECK(full_braking(car, {.grade = -0.1}, 40) < full_braking(car, {}, 40));
}

TEST_CASE("full throttle is bounded by power at speed and by the driven wheels' grip at rest") {
  PointMass car = plain();
  const double held = 0.5 * 1.2 * 0.6 * 1600 + 98.0665;
  CHECK_THAT(full_throttle(car, {}, 40), WithinRel((120e3 / 40 - held) / 1000, 1e-9));
  CHECK_THAT(full_throttle(car, {}, 0), WithinRel(1.1 * kGravity - 0.098066, 1e-4));
  // Driven rear wheels: F = mu (w m g + h/L m a), m a = F - R.
  car.driven_load = 0.55;
  car.load_gain = 0.2;
  const double a = (full_throttle(car, {}, 1));
  CHECK_THAT(1000 * a + 0.5 * 1.2 * 0.6 + 98.0665, WithinRel(1.1 * (0.55 * 1000 * kGravity + 0.2 * 1000 * a), 1e-9));
  car.load_gain = -0.2;
  CHECK(full_throttle(car, {}, 1) < a);
}

TEST_CASE("gears bound the pull by torque and end at the last one's top speed") {
  PointMass car = plain();
  car.gear_tops = {15, 25, 40};
  car.full_power_from = 0.8;
  CHECK_THAT(engine_pull(car, 0), WithinRel(120e3 / 12, 1e-12));
  CHECK_THAT(engine_pull(car, 12), WithinRel(120e3 / 12, 1e-12));
  CHECK_THAT(engine_pull(car, 14), WithinRel(120e3 / 14, 1e-12));
  CHECK_THAT(engine_pull(car, 15.5), WithinRel(120e3 / 20, 1e-12));
  CHECK(engine_pull(car, 40) > 0);
  CHECK(engine_pull(car, 40.01) == 0);
}
