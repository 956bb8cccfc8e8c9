// SPDX-License-Identifier: MIT
// Computed laps against closed forms.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "models/constants.hpp"
#include "sim/session/drive.hpp"
#include "sim/session/error.hpp"
#include "sim/session/lap_speed.hpp"
#include "sim/session/speed_passes.hpp"
#include "synthetic_lap.hpp"

using namespace hatring::session;
using namespace hatring::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using hatring::models::kGravity;
using hatring::models::PointMass;

namespace {

PointMass free_car() {
  return {.load = {.mass = 1000, .air_density = 1.2}, .grip = 1.1, .power = 120e3};
}

// Two straights joined by two hairpins.
Track oval(double straight, double radius) {
  const Stretch line{.length = straight}, turn{.length = std::numbers::pi * radius, .curvature = 1 / radius};
  return {"oval", {line, turn, line, turn}};
}

Case car_case() {
  Case c = plain_case();
  c.car.power = 130e3;
  c.car.grip = 1.1;
  return c;
}

}  // namespace

TEST_CASE("round a circle the car holds the root of mu g r") {
  const Track circle{"circle", {{.length = 2 * std::numbers::pi * 60, .curvature = -1.0 / 60}}};
  const LapSpeed lap = lap_speed(free_car(), circle);
  const double v = std::sqrt(1.1 * kGravity * 60);
  for (const double s : lap.speed) CHECK_THAT(s, WithinRel(v, 1e-9));
  CHECK_THAT(lap.time, WithinRel(2 * std::numbers::pi * 60 / v, 1e-9));
}

TEST_CASE("round a circle with drag the drive force takes its share of the grip") {
  PointMass car = free_car();
  car.load.drag_area = 0.7;
  const Track circle{"circle", {{.length = 2 * std::numbers::pi * 60, .curvature = 1.0 / 60}}};
  const double v = lap_speed(car, circle).speed.front();
  // (m v^2 / r)^2 + drag^2 = (mu m g)^2
  CHECK_THAT(std::hypot(1000 * v * v / 60, 0.5 * 1.2 * 0.7 * v * v), WithinRel(1.1 * 1000 * kGravity, 1e-6));
}

TEST_CASE("the fastest speed of a long straight is the one at which drag takes all power") {
  PointMass car = free_car();
  car.load.drag_area = 0.7;
  car.load.rolling_resistance = 0.012;
  const LapSpeed lap = lap_speed(car, oval(12000, 50));
  const double v = *std::max_element(lap.speed.begin(), lap.speed.end());
  CHECK_THAT(v * (0.5 * 1.2 * 0.7 * v * v + 0.012 * 1000 * kGravity), WithinRel(120e3, 2e-4));
}

TEST_CASE("a limiter in the last gear caps the straight") {
  PointMass car = free_car();
  car.gear_tops = {20, 35, 48};
  const LapSpeed lap = lap_speed(car, oval(3000, 50));
  CHECK_THAT(*std::max_element(lap.speed.begin(), lap.speed.end()), WithinAbs(48, 1e-12));
}

TEST_CASE("braking for a hairpin takes the distance of constant deceleration") {
  PointMass car = free_car();
  car.braking_share = 0.8;
  const LapSpeed lap = lap_speed(car, oval(800, 20));
  const double corner2 = 1.1 * kGravity * 20, rate = 0.8 * 1.1 * kGravity;
  std::size_t braking = 0;
  for (std::size_t i = 0; lap.distance[i] <= 800; ++i) {
    const double left = 800 - lap.distance[i], limit = std::sqrt(corner2 + 2 * rate * left);
    CHECK(lap.speed[i] < limit + 1e-9);
    if (lap.speed[i] > limit - 1e-6) ++braking;
  }
  CHECK(braking > 20);
}

TEST_CASE("from rest at constant power the speed grows with the cube root of distance and time is as Newton has it") {
  PointMass car = free_car();
  car.grip = 50;
  SpeedBounds bounds;
  for (int i = 0; i <= 400; ++i) {  // closer together where the pull changes fast
    bounds.distance.push_back(400 * std::pow(i / 400.0, 3));
    bounds.ceiling.push_back(i == 0 ? 0 : 200);
  }
  bounds.gain = [&](std::size_t, double v) { return hatring::models::full_throttle(car, {}, v); };
  bounds.loss = [](std::size_t, double) { return 1e4; };
  const std::vector<double> v = fastest(bounds);
  for (const std::size_t i : {100U, 200U, 300U, 400U})
    CHECK_THAT(v[i], WithinRel(std::cbrt(3 * 120e3 * bounds.distance[i] / 1000), 2e-3));
  CHECK_THAT(120e3 * time_along(bounds.distance, v), WithinRel(0.5 * 1000 * v.back() * v.back(), 5e-3));
}

TEST_CASE("a lap closes and does not depend on where it begins") {
  const Case c = car_case();
  const PointMass car = point_mass_of(c, {});
  Track track{"round",
              {{.length = 300},
               {.length = 60, .curvature = 1.0 / 25, .grade = 0.03},
               {.length = 200, .grade = -0.01, .grip = 0.9},
               {.length = 150, .curvature = 1.0 / 70}}};
  const LapSpeed lap = lap_speed(car, track);
  CHECK(lap.speed.front() == lap.speed.back());
  CHECK(lap.grade.size() == lap.speed.size());
  std::rotate(track.stretches.begin(), track.stretches.begin() + 2, track.stretches.end());
  CHECK_THAT(lap_speed(car, track).time, WithinRel(lap.time, 1e-9));
}

TEST_CASE("half the step changes the lap by less than a thousandth") {
  const PointMass car = point_mass_of(car_case(), {});
  CHECK_THAT(lap_speed(car, oval(500, 25), 1).time, WithinRel(lap_speed(car, oval(500, 25)).time, 1e-3));
}

TEST_CASE("less pace and less grip make a slower lap that brakes earlier") {
  const Case c = car_case();
  const Track track = oval(600, 25);
  const LapSpeed full = lap_speed(point_mass_of(c, {}), track),
                 slow = lap_speed(point_mass_of(c, {.pace = 0.8}), track),
                 wet = lap_speed(point_mass_of(c, {.grip = kWetGrip}), track);
  CHECK(slow.time > full.time);
  CHECK(wet.time > full.time);
  const auto peak = [](const LapSpeed& l) {
    return std::max_element(l.speed.begin(), l.speed.begin() + static_cast<std::ptrdiff_t>(l.speed.size() / 2)) -
           l.speed.begin();
  };
  CHECK(peak(slow) < peak(full));
  CHECK(peak(wet) < peak(full));
  const auto lowest = [](const LapSpeed& l) { return *std::min_element(l.speed.begin(), l.speed.end()); };
  CHECK_THAT(lowest(slow), WithinRel(std::sqrt(0.8) * lowest(full), 0.02));
}

TEST_CASE("the heat that a session takes from the trace is what the lap's own brakes make") {
  Case c = car_case();
  c.car.tyre_slip_share = 0;
  const PointMass car = point_mass_of(c, {});
  const LapSpeed lap = lap_speed(car, oval(500, 30));
  double heat = 0;  // of what slows the car beyond engine, air and road
  const Road road = road_of(c);
  for (std::size_t i = 1; i < lap.speed.size(); ++i) {
    const double ds = lap.distance[i] - lap.distance[i - 1];
    const double a = (lap.speed[i] * lap.speed[i] - lap.speed[i - 1] * lap.speed[i - 1]) / (2 * ds);
    heat += std::max(0.0, brake_demand(road, (lap.speed[i] + lap.speed[i - 1]) / 2, a, 0)) * ds;
  }
  const Drive d(with(c, {trace_of(lap, "oval")}, {DriveStep{}}));
  CHECK_THAT(d.energy().brake, WithinRel(heat, 0.01));
  CHECK(d.brakings().size() == 2);
}

TEST_CASE("a lap that cannot be driven is refused with the reason") {
  const Case c = car_case();
  CHECK_THROWS_AS(lap_speed(point_mass_of(c, {}), Track{"none", {}}), CaseError);
  CHECK_THROWS_WITH(lap_speed(point_mass_of(c, {.grip = 0.1}), Track{"steep", {{.length = 500, .grade = 0.45}}}),
                    Catch::Matchers::Contains("stand"));
  CHECK_THROWS_AS(point_mass_of(plain_case(), {}), CaseError);
  CHECK_THROWS_AS(point_mass_of(c, {.pace = 0}), CaseError);
  CHECK_THROWS_AS(point_mass_of(c, {.pace = 1.1}), CaseError);
}

TEST_CASE("a drive that is no lap begins at rest and need not brake for its end") {
  PointMass car = free_car();
  car.power = 1e7;  // the tyres are the limit
  const LapSpeed drive = lap_speed(car, {"hill", {{.length = 120}}, false});
  CHECK(drive.speed.front() == 0);
  // v^2 = 2 mu g s
  for (std::size_t i = 0; i < drive.speed.size(); ++i)
    CHECK_THAT(drive.speed[i], WithinAbs(std::sqrt(2 * 1.1 * kGravity * drive.distance[i]), 1e-6));
  // With a hairpin on the way it brakes for that.
  const LapSpeed bend = lap_speed(car, {"hill", {{.length = 120}, {.length = 30, .curvature = 0.05}}, false});
  CHECK_THAT(bend.speed.back(), WithinRel(std::sqrt(1.1 * kGravity * 20), 1e-9));
  const Drive driven(with(car_case(), {trace_of(bend, "hill")}, {DriveStep{}, ParkStep{.duration = 10}}));
  CHECK(driven.spans().front().end_distance == Approx(150).margin(0.5));
}

TEST_CASE("a track of a thousand kilometres is a wrong unit") {
  CHECK_THROWS_WITH(lap_speed(free_car(), oval(500e3, 50)), Catch::Matchers::Contains("check the units"));
}
