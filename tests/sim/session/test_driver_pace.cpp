// SPDX-License-Identifier: MIT
// Slower laps from a trace alone.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/session/drive.hpp"
#include "sim/session/driver_pace.hpp"
#include "sim/session/error.hpp"
#include "synthetic_lap.hpp"

using namespace hatring::session;
using namespace hatring::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

Case fast_car() {
  Case c = plain_case();
  c.car.power = 140e3;
  c.car.grip = 1.15;
  return c;
}

// A computed lap, so that its slower twin is known.
Track track() {
  return {"four corners",
          {{.length = 450},
           {.length = 60, .curvature = 1.0 / 30},
           {.length = 180},
           {.length = 80, .curvature = 1.0 / 60},
           {.length = 320},
           {.length = 55, .curvature = 1.0 / 20},
           {.length = 260},
           {.length = 90, .curvature = 1.0 / 45}}};
}

Trace full_lap() {
  return trace_of(lap_speed(point_mass_of(fast_car(), {}), track()), "full");
}

Drive drive(const Trace& t, DriveStep step) {
  return Drive(with(fast_car(), {t}, {step}));
}

double at_place(const Drive& d, double distance) {
  double lo = 0, hi = d.duration();
  for (int i = 0; i < 50; ++i) (d.distance((lo + hi) / 2) < distance ? lo : hi) = (lo + hi) / 2;
  std::size_t hint = 0;
  return d.at(lo, hint).speed;
}

}  // namespace

TEST_CASE("full driver pace is the trace itself") {
  const Trace t = log_lap(drive_lap(plain_case()), {.rate = 10, .jitter = 0.05});
  const Drive plain = drive(t, {}), full = drive(t, {.driver_pace = 1.0});
  CHECK(full.duration() == plain.duration());
  CHECK(full.energy().brake == plain.energy().brake);
}

TEST_CASE("nearly full driver pace is nearly the trace: nothing jumps at 1") {
  for (const Trace& t : {full_lap(), log_lap(drive_lap(plain_case()), {.rate = 25, .jitter = 0.05})}) {
    const Drive full = drive(t, {}), near = drive(t, {.driver_pace = 0.999});
    CHECK_THAT(near.duration(), WithinRel(full.duration(), 4e-3));
    CHECK_THAT(near.energy().brake, WithinRel(full.energy().brake, 0.02));
    CHECK(near.brakings().size() == full.brakings().size());
  }
}

TEST_CASE("a slower lap is slower everywhere and at every lower pace") {
  const Trace t = full_lap();
  const Drive full = drive(t, {}), nine = drive(t, {.driver_pace = 0.9}), seven = drive(t, {.driver_pace = 0.7});
  for (double s = 20; s < 1480; s += 20) {
    CHECK(at_place(nine, s) < at_place(full, s) + 0.15);
    CHECK(at_place(seven, s) < at_place(nine, s) + 0.15);
  }
  CHECK(full.energy().brake > nine.energy().brake);
  CHECK(nine.energy().brake > seven.energy().brake);
}

TEST_CASE("corners slow down by the root of the pace and top speeds by less and braking begins earlier") {
  const Trace t = full_lap();
  const Drive full = drive(t, {}), slow = drive(t, {.driver_pace = 0.8});
  for (const double apex : {480.0, 730.0, 1117.0})
    CHECK_THAT(at_place(slow, apex), WithinRel(std::sqrt(0.8) * at_place(full, apex), 0.03));
  const auto top = [](const Drive& d) {
    double most = 0;
    for (double s = 5; s < 1480; s += 5) most = std::max(most, at_place(d, s));
    return most;
  };
  CHECK(top(slow) > 1.015 * std::sqrt(0.8) * top(full));
  REQUIRE(slow.brakings().size() == full.brakings().size());
  for (std::size_t i = 0; i + 1 < full.brakings().size(); ++i)
    CHECK(slow.brakings()[i].begin_distance < full.brakings()[i].begin_distance + 1);
}

TEST_CASE("from the trace alone the slower lap comes out as the car itself would drive it") {
  const Trace t = full_lap();
  struct Way {
    Effort effort;
    DriveStep step;
  };
  for (const Way& way : {Way{{.pace = 0.85}, {.driver_pace = 0.85}}, Way{{.grip = kWetGrip}, {.grip = kWetGrip}}}) {
    const LapSpeed known = lap_speed(point_mass_of(fast_car(), way.effort), track());
    const Drive truth = drive(trace_of(known, "known"), {}), guess = drive(t, way.step);
    CHECK_THAT(guess.duration(), WithinRel(truth.duration(), 0.03));
    CHECK_THAT(guess.energy().brake, WithinRel(truth.energy().brake, 0.12));
  }
}

TEST_CASE("an out lap from rest begins at rest and covers the same road") {
  Trace t;
  t.name = "from rest";
  t.time = {0, 10, 40, 45, 60};
  t.speed = {0, 30, 30, 12, 12};
  const Drive d = drive(t, {.driver_pace = 0.7});
  std::size_t hint = 0;
  CHECK_THAT(d.at(0, hint).speed, WithinAbs(0, 0.3));
  CHECK_THAT(d.distance(d.duration()), WithinRel(drive(t, {}).distance(60), 0.01));
}

TEST_CASE("what cannot be driven slower is refused with the reason") {
  Trace stop;
  stop.name = "stops";
  stop.time = {0, 10, 20, 30, 40, 50};
  stop.speed = {20, 20, 0, 0, 20, 20};
  CHECK_THROWS_WITH(drive(stop, {.driver_pace = 0.8}), Catch::Matchers::Contains("stands still"));
  CHECK_THROWS_WITH(drive(full_lap(), {.driver_pace = 1.2}), Catch::Matchers::Contains("driver_pace"));
  CHECK_THROWS_WITH(drive(full_lap(), {.driver_pace = 0.0}), Catch::Matchers::Contains("session entry 1"));
}
