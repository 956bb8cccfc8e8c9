// SPDX-License-Identifier: MIT
// Smoothing of speed traces and the search for brake points.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/session/cubic.hpp"
#include "sim/session/error.hpp"
#include "sim/session/profile.hpp"
#include "synthetic_lap.hpp"

using namespace hatring::session;
using namespace hatring::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

// 50 m/s, brakes at `on` with 8 m/s2 for 3 s, then 26 m/s; sampled at `step`.
Trace one_braking(double on, double step) {
  Trace t;
  t.name = "one braking";
  for (int i = 0; i * step < on + 8; ++i) {
    t.time.push_back(i * step);
    t.speed.push_back(50 - 8 * std::clamp(i * step - on, 0.0, 3.0));
  }
  return t;
}

double largest_speed_step(const std::vector<Piece>& pieces) {
  double largest = 0;
  for (std::size_t i = 1; i < pieces.size(); ++i)
    largest = std::max(largest, std::abs(speed_at(pieces[i - 1], length_of(pieces[i - 1])) - pieces[i].c[0]));
  return largest;
}

}  // namespace

TEST_CASE("a cubic speed history is fitted by one piece and returned exactly") {
  Samples s;
  for (int i = 0; i <= 40; ++i) {
    const double t = 0.1 * i + 0.03 * (i % 3);
    s.time.push_back(t);
    s.speed.push_back(40 - 3 * t - t * t + 0.2 * t * t * t);
  }
  const auto pieces = fit_trace(s, {.noise = 0.01, .breaks = {}, .close = {{0, 5}}});
  REQUIRE(pieces.size() == 1);
  // The bending weight of 1e-6 is what keeps it from round-off.
  for (std::size_t i = 0; i < s.time.size(); ++i)
    CHECK_THAT(speed_at(pieces[0], s.time[i]), WithinAbs(s.speed[i], 1e-4));
}

TEST_CASE("the noise of a log is found from its own scatter") {
  const Lap lap = drive_lap(plain_case());
  for (const double rate : {25.0, 10.0, 5.0}) {
    const Samples s = samples_of(log_lap(lap, {.rate = rate, .jitter = 0.1, .uneven = true}));
    CHECK_THAT(noise_level(s), WithinRel(0.1, 0.25));
    CHECK(noise_level(samples_of(log_lap(lap, {.rate = rate}))) < 0.02);
  }
}

TEST_CASE("a clean log is followed closely on the brakes, with few pieces") {
  const Case c = plain_case();
  const Trace t = log_lap(drive_lap(c), {.rate = 25});
  const Profile p = make_profile(t, road_of(c), c.brakes);
  CHECK(p.brakings.size() == 8);
  CHECK(p.pieces.size() <= 65);
  double squares = 0;
  int count = 0;
  std::size_t k = 0;
  for (std::size_t i = 0; i < t.time.size(); ++i) {
    while (k + 1 < p.pieces.size() && t.time[i] >= p.pieces[k].end) ++k;
    if (p.pieces[k].braking < 0) continue;
    const double r = speed_at(p.pieces[k], t.time[i] - p.pieces[k].begin) - t.speed[i];
    squares += r * r;
    ++count;
  }
  CHECK(std::sqrt(squares / count) < 1.5 * kCloseFit);
}

TEST_CASE("the fitted speed has no steps, and bends nowhere but at brake points") {
  const Case c = plain_case();
  const Profile p =
      make_profile(log_lap(drive_lap(c), {.rate = 10, .jitter = 0.1, .uneven = true}), road_of(c), c.brakes);
  CHECK(largest_speed_step(p.pieces) < 1e-10);
  for (std::size_t i = 1; i < p.pieces.size(); ++i) {
    const Piece &a = p.pieces[i - 1], &b = p.pieces[i];
    CHECK(a.end == b.begin);
    if (a.braking == b.braking) CHECK_THAT(acceleration_at(a, length_of(a)), WithinAbs(b.c[1], 1e-8));
  }
}

TEST_CASE("brake points are found between the samples") {
  const Case c = plain_case();
  for (const double step : {0.04, 0.1, 0.2}) {
    for (const double on : {4.0, 4.013, 4.07, 4.11}) {
      const Profile p = make_profile(one_braking(on, step), road_of(c), c.brakes);
      REQUIRE(p.brakings.size() == 1);
      CHECK_THAT(p.brakings[0].begin, WithinAbs(on, step / 8));
      CHECK_THAT(p.brakings[0].end, WithinAbs(on + 3, step / 8));
    }
  }
}

TEST_CASE("a lifted throttle and a short dab are no brakings") {
  const Case c = plain_case();
  Trace t;
  for (int i = 0; i <= 250; ++i) {
    const double time = 0.04 * i;
    t.time.push_back(time);
    t.speed.push_back(45 - 0.9 * std::clamp(time - 3, 0.0, 4.0) - 4 * std::clamp(time - 8, 0.0, 0.1));
  }
  CHECK(make_profile(t, road_of(c), c.brakes).brakings.empty());
}

TEST_CASE("the brake channel decides when it is there") {
  const Case c = plain_case();
  Trace t = one_braking(4, 0.1);
  for (const double time : t.time) t.brake.push_back(time > 3.95 && time < 6.05 ? 30 : -0.1);
  t.brake_threshold = 2;
  const Profile p = make_profile(t, road_of(c), c.brakes);
  REQUIRE(p.brakings.size() == 1);
  CHECK_THAT(p.brakings[0].begin, WithinAbs(4, 0.05));
  CHECK_THAT(p.brakings[0].end, WithinAbs(6.1, 0.11));  // the trace goes on slowing, but not by the brakes
}

TEST_CASE("a drawn trace is followed exactly, and brakes from point to point") {
  const Case c = plain_case();
  Trace t;
  t.time = {10, 20, 25, 40};
  t.speed = {30, 30, 10, 10};
  const Profile p = make_profile(t, road_of(c), c.brakes);
  REQUIRE(p.pieces.size() == 3);
  REQUIRE(p.brakings.size() == 1);
  CHECK(p.brakings[0].begin == 10);
  CHECK(p.brakings[0].end == 15);
  CHECK(p.length() == Approx(300 + 100 + 150).epsilon(1e-12));
  CHECK(speed_at(p.pieces[1], 2.5) == Approx(20).epsilon(1e-12));
}

TEST_CASE("a distance trace is timed by constant acceleration between points, from a standing start too") {
  Trace t;
  for (int i = 0; i <= 20; ++i) {
    t.distance.push_back(5.0 * i);
    t.speed.push_back(std::sqrt(2 * 3.0 * 5.0 * i));  // 3 m/s2 from rest
  }
  const Samples s = samples_of(t);
  for (std::size_t i = 0; i < s.time.size(); ++i) CHECK(s.time[i] == Approx(t.speed[i] / 3).margin(1e-12));
}

TEST_CASE("a noisy log of a stop never turns the speed negative") {
  const Case c = plain_case();
  const Lap lap = [] {
    Lap l;
    l.step = 1e-3;
    for (int i = 0; i < 12000; ++i) l.speed.push_back(std::clamp(30 - 6 * (1e-3 * i - 3), 0.0, 30.0));
    l.brake_force.assign(l.speed.size(), 0);
    return l;
  }();
  for (std::uint32_t seed = 1; seed < 6; ++seed) {
    Trace t = log_lap(lap, {.rate = 10, .jitter = 0.1, .uneven = true, .seed = seed});
    for (double& v : t.speed) v = std::max(0.0, v);
    const Profile p = make_profile(t, road_of(c), c.brakes);
    CHECK(largest_speed_step(p.pieces) < 1e-10);
    for (const Piece& q : p.pieces)
      for (int i = 0; i <= 20; ++i) CHECK(speed_at(q, length_of(q) * i / 20) >= -1e-12);
  }
}
