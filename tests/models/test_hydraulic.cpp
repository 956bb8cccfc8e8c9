// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "models/constants.hpp"
#include "models/hydraulic.hpp"

using namespace hatring::models;
using Catch::WithinRel;

TEST_CASE("servo: gain up to run-out, then the driver adds alone and rod undoes output", "[hydraulic]") {
  const Booster b{4, 2400};  // run-out at a rod force of 2400 / (4 - 1) = 800 N
  CHECK(b.output(500) == 2000);
  CHECK(b.output(800) == 3200);
  CHECK(b.output(1000) == 3400);
  for (const double rod : {10.0, 500.0, 800.0, 801.0, 3000.0}) CHECK_THAT(b.rod(b.output(rod)), WithinRel(rod, 1e-12));
  CHECK(Booster{}.output(700) == 700);
}

TEST_CASE("line pressure by hand: 200 N on a 4:1 pedal, gain 4, on 4 cm2 is 80 bar in a tandem", "[hydraulic]") {
  const Hydraulics h{.pedal_ratio = 4, .booster = {4, 1e9}, .front_area = 4e-4, .rear_area = 4e-4};
  CHECK_THAT(h.pressures(200).front, WithinRel(80e5, 1e-12));
  CHECK_THAT(h.pressures(200).rear, WithinRel(80e5, 1e-12));
  CHECK_THAT(h.effort_for_front(80e5), WithinRel(200, 1e-12));
}

TEST_CASE("separate cylinders share the push by the bar, and by their areas the pressure", "[hydraulic]") {
  const Hydraulics h{
      .pedal_ratio = 5, .booster = {}, .front_area = 2e-4, .rear_area = 3e-4, .front_push = 0.6, .rear_push = 0.4};
  const LinePressures p = h.pressures(300);
  CHECK_THAT(p.front, WithinRel(1500 * 0.6 / 2e-4, 1e-12));
  CHECK_THAT(p.rear, WithinRel(1500 * 0.4 / 3e-4, 1e-12));
}

TEST_CASE("rear valve: free below, held back above, and a limiter lets nothing more through", "[hydraulic]") {
  Hydraulics h{.pedal_ratio = 1,
               .booster = {},
               .front_area = 1e-4,
               .rear_area = 1e-4,
               .valve_pressure = 30e5,
               .valve_slope = 0.3};
  CHECK_THAT(h.pressures(200).rear, WithinRel(20e5, 1e-12));
  CHECK_THAT(h.pressures(500).rear, WithinRel(30e5 + 0.3 * 20e5, 1e-12));
  CHECK_THAT(h.effort_for_rear(36e5), WithinRel(500, 1e-12));
  h.valve_slope = 0;
  CHECK(h.pressures(500).rear == 30e5);
  CHECK(std::isinf(h.effort_for_rear(31e5)));
}

TEST_CASE("ideal share: the weight at rest, plus deceleration over g times height over wheelbase", "[hydraulic]") {
  CHECK(ideal_front_share(0.47, 0.44, 2.39, 0) == 0.47);
  CHECK_THAT(ideal_front_share(0.47, 0.44, 2.39, kGravity), WithinRel(0.47 + 0.44 / 2.39, 1e-12));
  CHECK(ideal_front_share(0.9, 1, 1, 10 * kGravity) == 1);
}
