// SPDX-License-Identifier: MIT
// How the steps of a session are strung together.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/session/cubic.hpp"
#include "sim/session/drive.hpp"
#include "sim/session/lap_join.hpp"
#include "synthetic_lap.hpp"

using namespace hatring::session;
using namespace hatring::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

Trace lap_trace() {
  return log_lap(drive_lap(plain_case()), {.rate = 10});
}

// A lap of 1 km from a pit exit at rest.
Trace standing_lap() {
  Trace t;
  t.name = "from rest";
  t.time = {0, 10, 40, 45, 60};
  t.speed = {0, 30, 30, 12, 12};
  return t;
}

// Speed and distance without a step everywhere but where a bench begins or ends.
void check_continuous(const Drive& d) {
  const auto& p = d.pieces();
  REQUIRE(p.front().begin == 0);
  CHECK(p.back().end == d.duration());
  for (std::size_t i = 1; i < p.size(); ++i) {
    CHECK(p[i].begin == p[i - 1].end);
    CHECK(length_of(p[i]) > 0);
    CHECK_THAT(p[i].distance, WithinAbs(p[i - 1].distance + travelled_at(p[i - 1], length_of(p[i - 1])), 1e-6));
    bool bench = false;
    for (const Span& s : d.spans()) bench |= s.phase == Phase::bench && (s.begin == p[i].begin || s.end == p[i].begin);
    if (!bench) CHECK_THAT(p[i].c[0], WithinAbs(speed_at(p[i - 1], length_of(p[i - 1])), 1e-9));
    for (int k = 0; k <= 10; ++k) CHECK(speed_at(p[i], length_of(p[i]) * k / 10) > -1e-9);
  }
  for (std::size_t i = 1; i < d.spans().size(); ++i) {
    CHECK(d.spans()[i].begin == d.spans()[i - 1].end);
    CHECK(d.spans()[i].begin_distance == d.spans()[i - 1].end_distance);
  }
}

void check_restarts(const Drive& d) {
  const auto& r = d.restarts();
  REQUIRE(r.size() >= 2);
  CHECK(r.front() == 0);
  CHECK(r.back() == d.duration());
  for (std::size_t i = 1; i < r.size(); ++i) CHECK(r[i] - r[i - 1] >= 0.999e-3);
}

bool restarts_at(const Drive& d, double t) {
  return std::any_of(d.restarts().begin(), d.restarts().end(), [t](double r) { return std::abs(r - t) <= 1e-3; });
}

}  // namespace

TEST_CASE("a session of every kind of step is continuous, numbered and named") {
  const Drive d(with(plain_case(), {lap_trace(), standing_lap()},
                     {DriveStep{.kind = LapKind::out_lap, .trace = 1, .pace = 0.9}, DriveStep{.laps = 2},
                      DriveStep{.kind = LapKind::cooldown, .pace = 0.65}, ParkStep{.duration = 600},
                      SnubStep{.count = 2, .from = 33, .to = 17, .deceleration = 3, .every = 45}, DriveStep{.trace = 1},
                      HoldStep{.duration = 60, .speed = 25, .heat_from = 2e4, .axle = {}}, ParkStep{.duration = 10}}));
  check_continuous(d);
  check_restarts(d);
  std::vector<std::string> labels;
  std::vector<int> laps;
  for (const Span& s : d.spans()) {
    labels.push_back(s.label);
    laps.push_back(s.lap);
  }
  CHECK(labels == std::vector<std::string>{"out lap", "lap 2", "lap 3", "cool-down lap", "stop", "parked", "pull-away",
                                           "snub 1", "snub 2", "lap 5", "hold", "parked"});
  CHECK(laps == std::vector<int>{1, 2, 3, 4, 0, 0, 0, 0, 0, 5, 0, 0});
  CHECK(d.spans()[5].phase == Phase::parked);
  CHECK(d.spans()[10].phase == Phase::bench);
}

TEST_CASE("a lap of another pace takes over from the speed it finds, within the join, and is then its own") {
  const Trace t = lap_trace();
  const Drive d(with(plain_case(), {t}, {DriveStep{}, DriveStep{.kind = LapKind::cooldown, .pace = 0.6}}));
  const Drive alone(with(plain_case(), {t}, {DriveStep{.pace = 0.6}}));
  check_continuous(d);
  const Span& lap = d.spans()[1];
  CHECK_THAT(lap.end_distance - lap.begin_distance, WithinRel(alone.spans()[0].end_distance, 1e-9));
  // Same speed at the same place from the end of the join on, counted back from the end of the lap.
  std::size_t a = 0, b = 0;
  for (double back = 1; back < 60; back += 4.3)
    CHECK_THAT(d.at(d.duration() - back, a).speed, WithinAbs(alone.at(alone.duration() - back, b).speed, 1e-7));
  const Moment start = d.at(lap.begin, a);
  CHECK(start.speed > 1.4 * alone.at(0, b).speed);
}

TEST_CASE("a join covers the same road with a smooth speed between the two") {
  std::vector<Piece> lap = {hermite(0, 40, {20, 0}, {20, 0})};
  for (const double speed : {5.0, 19.9, 30.0, 70.0}) {
    const auto out = joined(lap, speed);
    CHECK_THAT(out.front().c[0], WithinAbs(speed, 1e-12));
    CHECK_THAT(out.back().distance + travelled_at(out.back(), length_of(out.back())), WithinAbs(800, 1e-6));
    CHECK_THAT(speed_at(out.back(), length_of(out.back())), WithinAbs(20, 1e-12));
    double reached = 0;
    for (std::size_t i = 1; i < out.size(); ++i) {
      CHECK_THAT(out[i].c[0], WithinAbs(speed_at(out[i - 1], length_of(out[i - 1])), 1e-9));
      CHECK_THAT(out[i].c[1], WithinAbs(acceleration_at(out[i - 1], length_of(out[i - 1])), 1e-6));
      if (std::abs(out[i - 1].c[0] - 20) > 1e-3) reached = out[i].distance;
    }
    CHECK_THAT(reached, WithinAbs(800.0 / 3, 1e-3));
  }
}

TEST_CASE("a lap that begins with a stand makes the car stop first, and one from rest is met without stopping") {
  Trace stand = standing_lap();
  stand.time.insert(stand.time.begin(), -20);
  stand.speed.insert(stand.speed.begin(), 0);
  const Drive d(with(plain_case(), {lap_trace(), stand, standing_lap()},
                     {DriveStep{}, DriveStep{.trace = 1}, DriveStep{.trace = 2}}));
  check_continuous(d);
  REQUIRE(d.spans().size() == 4);
  CHECK(d.spans()[1].label == "stop");
  CHECK_THAT(d.spans()[2].end - d.spans()[2].begin, WithinAbs(80, 1e-9));
  std::size_t hint = 0;
  CHECK(d.at(d.spans()[2].begin + 10, hint).speed == 0);
  for (double t = d.spans()[3].begin; t < d.duration(); t += 0.5) CHECK(d.at(t, hint).speed > 5);
}

TEST_CASE("the session starts at the speed of its first trace, and a lap after parking starts with a pull-away") {
  const Drive d(with(plain_case(), {lap_trace()}, {DriveStep{}, ParkStep{.duration = 60}, DriveStep{}}));
  check_continuous(d);
  std::size_t hint = 0;
  CHECK(d.at(0, hint).speed == Approx(38).margin(0.1));
  const Span &stop = d.spans()[1], &pull = d.spans()[3];
  CHECK(stop.label == "stop");
  CHECK_THAT(d.at((stop.begin + stop.end) / 2, hint).acceleration, WithinAbs(-1.5, 1e-9));
  CHECK(pull.label == "pull-away");
  CHECK_THAT(d.at((pull.begin + pull.end) / 2, hint).acceleration, WithinAbs(2, 1e-9));
}

TEST_CASE("a parked car stands still, brakes released") {
  const Drive d(with(plain_case(), {lap_trace()}, {DriveStep{}, ParkStep{.duration = 600}}));
  const Span& park = d.spans().back();
  std::size_t hint = 0;
  for (double t = park.begin + 0.2; t <= park.end; t += 7) {
    const Moment m = d.at(t, hint);
    CHECK(m.speed == 0);
    CHECK(m.brake_power == 0);
    CHECK(m.applied == 0);
    CHECK(d.distance(t) == Approx(park.begin_distance));
  }
  CHECK(restarts_at(d, park.begin));
}

TEST_CASE("distance grows with the integral of speed") {
  const Drive d(with(plain_case(), {lap_trace()}, {DriveStep{.laps = 2}}));
  std::size_t hint = 0;
  for (double t = 0.5; t + 0.2 < d.duration(); t += 1.3) {
    const double covered = integrate(t, t + 0.1, [&](double x) { return d.at(x, hint).speed; });
    CHECK_THAT(d.distance(t + 0.1) - d.distance(t),
               WithinAbs(covered, 1e-3));  // the quadrature meets a bend now and then
  }
}

TEST_CASE("snubs start on the beat, brake at the given rate, return within 70 % of the rest and cruise") {
  const Drive d(with(plain_case(), {}, {SnubStep{.count = 3, .from = 34, .to = 10, .deceleration = 4, .every = 46}}));
  check_continuous(d);
  REQUIRE(d.brakings().size() == 3);
  std::size_t hint = 0;
  for (int i = 0; i < 3; ++i) {
    CHECK_THAT(d.brakings()[static_cast<std::size_t>(i)].begin, WithinAbs(46.0 * i, 1e-9));
    CHECK_THAT(d.at(46.0 * i + 3, hint).acceleration, WithinAbs(-4, 1e-9));
    CHECK_THAT(d.at(46.0 * i + 6 + 28 + 0.01, hint).speed, WithinAbs(34, 1e-9));
    CHECK(d.at(46.0 * i + 6 + 27, hint).speed < 34);
    const Moment early = d.at(46.0 * i + 6 + 5, hint), late = d.at(46.0 * i + 6 + 25, hint);
    CHECK_THAT(early.speed * early.acceleration, WithinRel(late.speed * late.acceleration, 0.01));  // constant power
  }
  CHECK_THAT(d.duration(), WithinAbs(3 * 46, 1e-9));
}

TEST_CASE("snubs at another speed than the lap before get a transition first") {
  const Drive d(with(plain_case(), {standing_lap()},
                     {DriveStep{}, SnubStep{.count = 1, .from = 30, .to = 0, .deceleration = 6, .every = 60},
                      SnubStep{.count = 1, .from = 20, .to = 10, .deceleration = 6, .every = 60}}));
  check_continuous(d);
  CHECK(d.spans()[1].label == "pull-away");
  CHECK(d.spans()[3].label == "slow-down");
}

TEST_CASE("a hold heats one wheel by a straight line, pads on throughout, on its axle alone") {
  const Drive d(with(plain_case(), {},
                     {HoldStep{.duration = 60, .speed = 25, .heat_from = 2e4, .heat_to = 5e3, .axle = {}},
                      HoldStep{.duration = 30, .speed = 10, .axle = Axle::front},
                      HoldStep{.duration = 30, .speed = 10, .heat_from = 1e3, .heat_to = 1e3, .axle = Axle::rear}}));
  std::size_t hint = 0;
  const Moment m = d.at(20, hint);
  CHECK(m.speed == 25);
  CHECK(m.applied == 1);
  CHECK(d.at(0, hint).applied == 1);
  CHECK_THAT(d.wheel_heat(Axle::front, 20, m), WithinRel(1.5e4, 1e-12));
  CHECK_THAT(d.wheel_heat(Axle::rear, 20, m), WithinRel(1.5e4, 1e-12));
  CHECK_THAT(d.wheel_heat(Axle::front, std::nextafter(60, 0), m), WithinRel(5e3, 1e-9));
  CHECK(d.at(70, hint).applied == 0);
  CHECK(d.wheel_heat(Axle::front, 70, d.at(70, hint)) == 0);
  CHECK(d.wheel_heat(Axle::front, 100, d.at(100, hint)) == 0);
  CHECK(d.wheel_heat(Axle::rear, 100, d.at(100, hint)) == 1e3);
  CHECK(d.restarts() == std::vector<double>{0, 60, 90, 120});
}

TEST_CASE("every edge of every ramp and every kink of the braking power is a restart, and little else") {
  const Drive d(with(plain_case(), {lap_trace()}, {DriveStep{.laps = 4}, ParkStep{.duration = 60}}));
  check_restarts(d);
  CHECK(d.brakings().size() == 33);  // eight a lap and the stop
  std::size_t kinks = 0;
  for (std::size_t i = 1; i < d.pieces().size(); ++i) {
    if (d.pieces()[i].braking < 0 || d.pieces()[i].braking != d.pieces()[i - 1].braking) continue;
    ++kinks;
    CHECK(restarts_at(d, d.pieces()[i].begin));
  }
  CHECK(kinks > 0);
  CHECK(d.restarts().size() <= 4 * d.brakings().size() + kinks + 4);
  for (std::size_t b = 0; b + 1 < d.brakings().size(); ++b)
    for (const double edge : {-0.075, 0.075}) {
      CHECK(restarts_at(d, d.brakings()[b].begin + edge));
      CHECK(restarts_at(d, d.brakings()[b].end + edge));
    }
}

TEST_CASE("a braking over the line between two laps is one braking") {
  Trace t;
  t.name = "brakes over the line";
  t.time = {0, 2, 10, 20, 24, 26};
  t.speed = {30, 20, 20, 50, 50, 30};
  const Drive d(with(plain_case(), {t}, {DriveStep{.laps = 2}}));
  REQUIRE(d.brakings().size() == 3);
  CHECK_THAT(d.brakings()[1].entry_speed, WithinAbs(50, 1e-9));
  CHECK_THAT(d.brakings()[1].exit_speed, WithinAbs(20, 1e-9));
  CHECK(d.brakings()[1].lap == 1);
  CHECK(restarts_at(d, 26));  // the deceleration jumps there, from 10 to 5 m/s2
}

TEST_CASE("any hint gives the same moment") {
  const Drive d(with(plain_case(), {lap_trace()}, {DriveStep{.laps = 2}, ParkStep{.duration = 20}}));
  std::size_t sweep = 0;
  for (double t = -1; t < d.duration() + 1; t += 0.77) {
    const Moment a = d.at(t, sweep);
    for (std::size_t hint : {std::size_t{0}, std::size_t{40}, std::size_t{100000}}) {
      const Moment b = d.at(t, hint);
      CHECK(a.speed == b.speed);
      CHECK(a.brake_power == b.brake_power);
      CHECK(hint == sweep);
    }
  }
}

TEST_CASE("a red flag cuts the last lap short: slow down and roll the rest of it and no more heat than that") {
  const Trace trace = log_lap(drive_lap(plain_case()), {});
  const Drive whole(with(plain_case(), {trace}, {DriveStep{.laps = 2}}));
  const double length = whole.distance(whole.duration()) / 2;
  for (const double at : {0.3 * length, 0.61 * length, length - 1}) {
    const Drive d(with(plain_case(), {trace},
                       {DriveStep{.laps = 2, .red_flag = RedFlag{.distance = at, .speed = 15, .deceleration = 3}},
                        ParkStep{.duration = 60}}));
    const std::vector<Span>& s = d.spans();
    CAPTURE(at, length);
    REQUIRE(s.size() >= 4);
    CHECK(s[1].label == "lap 2");
    CHECK(s[1].end_distance - s[1].begin_distance == Approx(at).margin(1e-3));
    CHECK(s[2].label == "red flag");
    std::size_t hint = 0;
    CHECK(d.at(s[2].end, hint).speed == Approx(15).margin(1e-6));
    CHECK(d.at(0.5 * (s[2].begin + s[2].end), hint).acceleration == Approx(-3).margin(1e-9));
    CHECK(s.back().label == "parked");
    if (at < 0.9 * length) {
      CHECK(s[3].label == kRolling);
      CHECK(s[3].end_distance - s[1].begin_distance == Approx(length).margin(0.5));
      CHECK(d.energy().brake < whole.energy().brake);
    }
    for (std::size_t i = 1; i < d.pieces().size(); ++i) REQUIRE(d.pieces()[i].begin == d.pieces()[i - 1].end);
    const DriveEnergy& e = d.energy();
    const double resisted = e.drag + e.rolling + e.grade + e.engine;
    CHECK(e.brake + e.tyre_slip + e.clipped + e.off_brake == Approx(e.kinetic - resisted).epsilon(1e-6));
  }
}

TEST_CASE("a red flag by the clock is one at the place reached by then") {
  const Trace trace = log_lap(drive_lap(plain_case()), {});
  const Drive whole(with(plain_case(), {trace}, {DriveStep{}}));
  const auto flagged = [&](RedFlag flag) {
    flag.speed = 15;
    flag.deceleration = 3;
    return Drive(with(plain_case(), {trace}, {DriveStep{.red_flag = flag}}));
  };
  const Drive by_clock = flagged({.time = 30});
  CHECK(by_clock.spans()[0].end == Approx(30).margin(1e-6));
  const Drive by_place = flagged({.distance = whole.distance(30)});
  CHECK(by_place.duration() == Approx(by_clock.duration()).margin(1e-3));
}
