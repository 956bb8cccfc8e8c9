// SPDX-License-Identifier: MIT
#include "sim/answer/braking_style.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <vector>

using namespace hatring;
using Catch::Matchers::WithinAbs;

namespace {

// A stretch of a drive: seconds, and the slowing in it [m/s2].
struct Part {
  double time;
  std::function<double(double)> slowing;
};
const auto steady = [](double slowing) { return [slowing](double) { return slowing; }; };

session::Drive driven(const std::vector<Part>& parts) {
  session::Trace trace;
  double v = 50, t = 0;
  constexpr double kStep = 0.05;
  trace.time.push_back(t);
  trace.speed.push_back(v);
  for (const Part& part : parts)
    for (double s = 0; s < part.time - kStep / 2; s += kStep) {
      v -= kStep * part.slowing(s + kStep / 2);
      t += kStep;
      trace.time.push_back(t);
      trace.speed.push_back(v);
    }
  session::Case c;
  c.car.mass = 1;
  c.car.rotating_factor = 1;
  c.car.drag_area = c.car.rolling_resistance = c.car.engine_drag = c.car.tyre_slip_share = 0;
  c.brakes.dead_band = 0.15;
  c.traces = {trace};
  c.session = {session::DriveStep{}};
  return session::Drive(c);
}

}  // namespace

TEST_CASE("braking style: point, slowest place and rounding of a square and of a let-out braking") {
  // 250 m at 50 m/s, down by 32 m/s in 4 s, 1 s coasting lower, back up, then let out evenly over 6 s.
  const session::Drive drive = driven({{5, steady(0)},
                                       {4, steady(8)},
                                       {2, steady(0.5)},
                                       {8, steady(-4)},
                                       {2, steady(0)},
                                       {6, [](double s) { return 9 * (1 - s / 6); }},
                                       {3, steady(0)}});
  const auto styles = answer::braking_styles(drive);
  REQUIRE(styles.size() == 2);
  // Smoothing of the trace and the rise of the brakes cost a little of each edge.
  CHECK_THAT(styles[0].point, WithinAbs(250, 8));
  CHECK_THAT(styles[0].entry_speed, WithinAbs(50, 0.5));
  CHECK_THAT(styles[0].exit_speed, WithinAbs(18, 0.5));
  CHECK_THAT(styles[0].slowest, WithinAbs(17, 0.5));
  CHECK(styles[0].slowest_at > 250 + 4 * 34);
  CHECK_THAT(styles[0].rounding, WithinAbs(0, 0.1));
  CHECK_THAT(styles[1].hardest, WithinAbs(9, 0.7));
  CHECK_THAT(styles[1].rounding, WithinAbs(0.5, 0.1));
}

TEST_CASE("braking style: one lap against another that brakes later and once more") {
  const auto lap = [](double wait, bool brush) {
    return driven({{5 + wait, steady(0)},
                   {4, steady(8)},
                   {8, steady(-4)},
                   {10, steady(0)},
                   {1, steady(brush ? 4 : 0)},
                   {1, steady(brush ? -4 : 0)},
                   {10 - wait, steady(0)}});
  };
  const session::Drive one = lap(0, false), other = lap(0.5, true);
  const answer::AgainstLap a = answer::against(one, other);
  const double length = one.distance(one.duration());
  CHECK_THAT(a.stretch, WithinAbs(length / other.distance(other.duration()), 1e-9));
  CHECK_THAT(a.lost, WithinAbs(one.duration() - other.duration(), 0.02));
  CHECK(a.shift == 0);
  REQUIRE(a.brakings.size() == 2);
  REQUIRE((a.brakings[0].one && a.brakings[0].other));
  CHECK_THAT(a.stretch * answer::braking_styles(other)[0].point - answer::braking_styles(one)[0].point,
             WithinAbs(25, 8));
  // Who brakes first is behind for as long as both brake, and level again once both are back on speed.
  CHECK(*std::max_element(a.lost_at.begin(), a.lost_at.end()) > 0.3);
  CHECK_FALSE(a.brakings[1].one.has_value());
  REQUIRE(a.brakings[1].other.has_value());
  CHECK(a.brakings[1].lost < 0);  // the other braked there for nothing
  double told = a.lost_at.front();
  for (const double step : {a.brakings[0].lost, a.brakings[1].lost}) told += step;
  CHECK_THAT(told, WithinAbs(a.lost, 0.15));  // what lies before the first braking is no braking's
  CHECK(answer::against(one, one).lost == Approx(0).margin(1e-9));
}

TEST_CASE("braking style: laps cut at different places are told") {
  const auto lap = [](double before, double after) {
    return driven({{before, steady(0)}, {4, steady(8)}, {8, steady(-4)}, {after, steady(0)}});
  };
  const session::Drive one = lap(10, 30), other = lap(30, 10);
  const answer::AgainstLap a = answer::against(one, other);
  CHECK_THAT(std::abs(a.shift), WithinAbs(1000, 60));
}
