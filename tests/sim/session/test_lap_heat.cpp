// SPDX-License-Identifier: MIT
// Heat of a lap against a lap whose brake force is known, whatever the logger did.
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/session/drive.hpp"
#include "synthetic_lap.hpp"

using namespace hatring::session;
using namespace hatring::test;
using Catch::Matchers::WithinRel;

TEST_CASE("lap heat from a log is that of the forces that drove it, from 50 Hz down to 1 Hz") {
  const Case c = plain_case();
  const Lap lap = drive_lap(c);
  REQUIRE(lap.brakings.size() == 8);
  for (const double rate : {50.0, 25.0, 10.0, 5.0}) {
    CAPTURE(rate);
    CHECK_THAT(heat_of(c, log_lap(lap, {.rate = rate, .uneven = true})), WithinRel(lap.heat, 0.02));
  }
  CHECK_THAT(heat_of(c, log_lap(lap, {.rate = 1})), WithinRel(lap.heat, 0.03));
}

TEST_CASE("lap heat changes by less than 2 % between 25 and 5 Hz and under 0.1 m/s of noise") {
  const Case c = plain_case();
  const Lap lap = drive_lap(c);
  const double clean = heat_of(c, log_lap(lap, {.rate = 25}));
  CHECK_THAT(heat_of(c, log_lap(lap, {.rate = 5})), WithinRel(clean, 0.02));
  for (std::uint32_t seed = 1; seed <= 5; ++seed) {
    CAPTURE(seed);
    CHECK_THAT(heat_of(c, log_lap(lap, {.rate = 25, .jitter = 0.1, .uneven = true, .seed = seed})),
               WithinRel(clean, 0.02));
    CHECK_THAT(heat_of(c, log_lap(lap, {.rate = 5, .jitter = 0.1, .uneven = true, .seed = seed})),
               WithinRel(clean, 0.02));
  }
}

TEST_CASE("lap heat with a brake channel agrees with the forces within 2 %") {
  const Case c = plain_case();
  const Lap lap = drive_lap(c);
  for (const double rate : {25.0, 5.0})
    CHECK_THAT(heat_of(c, log_lap(lap, {.rate = rate, .jitter = 0.05, .uneven = true, .channel = true})),
               WithinRel(lap.heat, 0.02));
}

TEST_CASE("every braking is found, and its heat is right, under noise") {
  const Case c = plain_case();
  const Lap lap = drive_lap(c);
  const Drive d(with(c, {log_lap(lap, {.rate = 10, .jitter = 0.1, .uneven = true, .seed = 7})}, {DriveStep{}}));
  REQUIRE(d.brakings().size() == lap.brakings.size());
  for (std::size_t b = 0; b < lap.brakings.size(); ++b) {
    const auto first = static_cast<std::size_t>(lap.brakings[b].begin / lap.step);
    const auto last = static_cast<std::size_t>(lap.brakings[b].end / lap.step);
    double heat = 0;
    for (std::size_t i = first; i < last; ++i) heat += lap.brake_force[i] * lap.speed[i] * lap.step;
    CHECK_THAT(d.brakings()[b].brake + d.brakings()[b].tyre_slip, WithinRel(heat, 0.06));
  }
}

TEST_CASE("a distance trace gives the heat of the time trace of the same lap") {
  const Case c = plain_case();
  const Lap lap = drive_lap(c);
  const Trace by_time = log_lap(lap, {.rate = 25});
  Trace by_distance;
  by_distance.name = "by distance";
  double x = 0;
  for (std::size_t i = 0; i < by_time.speed.size(); ++i) {
    if (i > 0) x += (by_time.speed[i] + by_time.speed[i - 1]) / 2 * (by_time.time[i] - by_time.time[i - 1]);
    by_distance.distance.push_back(x);
    by_distance.speed.push_back(by_time.speed[i]);
  }
  CHECK_THAT(heat_of(c, by_distance), WithinRel(heat_of(c, by_time), 1e-3));
}

TEST_CASE("pace scales speed at every place: times as 1/pace, braking energy without resistance as pace squared") {
  Case c = frictionless_case(1140);
  const Trace t = log_lap(drive_lap(plain_case()), {.rate = 25});
  const Drive full(with(c, {t}, {DriveStep{}})), slow(with(c, {t}, {DriveStep{.pace = 0.7}}));
  CHECK_THAT(slow.duration(), WithinRel(full.duration() / 0.7, 1e-9));
  CHECK_THAT(slow.spans()[0].end_distance, WithinRel(full.spans()[0].end_distance, 1e-9));
  CHECK_THAT(slow.energy().brake, WithinRel(0.49 * full.energy().brake, 1e-9));
  std::size_t hint = 0, slow_hint = 0;
  for (double time = 0.5; time < full.duration(); time += 3.7) {
    const Moment a = full.at(time, hint), b = slow.at(time / 0.7, slow_hint);
    CHECK_THAT(b.speed, WithinRel(0.7 * a.speed, 1e-9));
    CHECK(b.acceleration == Approx(0.49 * a.acceleration).margin(1e-9));
  }
}

TEST_CASE("grade is paid for: downhill braking takes the height as well") {
  Case c = frictionless_case(1200);
  Trace t;
  t.name = "hill";
  t.time = {0, 5, 10, 15};
  t.speed = {30, 30, 20, 20};
  t.grade = {-0.05, -0.05, -0.05, -0.05};
  const Drive d(with(c, {t}, {DriveStep{}}));
  // 1200 kg down a 5 % slope over the whole 375 m: the brakes hold the car all the way.
  const double height = 375 * 0.05 / std::sqrt(1 + 0.05 * 0.05);
  CHECK_THAT(d.energy().brake, WithinRel(600.0 * (900 - 400) + 1200 * 9.80665 * height, 1e-9));
}
