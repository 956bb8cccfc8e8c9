// SPDX-License-Identifier: MIT
#include "synthetic_lap.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "sim/session/road.hpp"

namespace hatring::test {

using session::Case;

Case plain_case() {
  Case c;
  c.name = "invented";
  c.car.mass = 1140;
  return c;
}

Case frictionless_case(double mass) {
  Case c = plain_case();
  c.car.mass = mass;
  c.car.drag_area = c.car.rolling_resistance = c.car.engine_drag = c.car.tyre_slip_share = 0;
  c.car.rotating_factor = 1;
  return c;
}

Lap drive_lap(const Case& c) {
  struct Corner {
    double straight, force, to, hold;  // full throttle [s], full brake force [N], corner speed [m/s], time in it [s]
  };
  const Corner corners[] = {{7.0, 11000, 21, 1.6}, {3.5, 9000, 17, 1.2}, {5.0, 10500, 24, 1.8}, {4.2, 8000, 26, 1.0},
                            {6.5, 11500, 16, 1.5}, {3.8, 6000, 24, 1.4}, {5.5, 10000, 20, 1.6}, {4.0, 9500, 18, 1.2}};
  const session::Road road = session::road_of(c);
  const double mass = c.car.mass * c.car.rotating_factor, h = 1e-3, power = 160e3, grip = 5200;
  Lap lap;
  lap.step = h;
  double v = 38;
  const auto go = [&](double drive, double brake, bool lifted) {
    const auto r = models::resistances(road.load, v, 0, 0);
    lap.speed.push_back(v);
    lap.brake_force.push_back(brake);
    lap.heat += brake * v * h;
    v += h * (drive - brake - r.drag - r.rolling - (lifted ? session::engine_force(road, v) : 0)) / mass;
  };
  for (const Corner& k : corners) {
    for (double t = 0; t < k.straight; t += h) go(std::min(power / v, grip), 0, false);
    const double on = h * static_cast<double>(lap.speed.size());
    // Full force down to the last quarter of the speed to lose, then trailed off to a fifth, then let go.
    const double entry = v;
    for (double t = 0; v > k.to; t += h)
      go(0, k.force * std::min(1.0, t / 0.15) * std::clamp((v - k.to) / (0.25 * (entry - k.to)), 0.2, 1.0), true);
    lap.brakings.push_back({on, h * static_cast<double>(lap.speed.size())});
    for (double t = 0; t < k.hold; t += h) {
      const auto r = models::resistances(road.load, v, 0, 0);
      go(r.drag + r.rolling, 0, false);
    }
  }
  for (double t = 0; t < 4; t += h) go(std::min(power / v, grip), 0, false);
  return lap;
}

session::Trace log_lap(const Lap& lap, const Logger& logger) {
  std::mt19937 random(logger.seed);
  const auto uniform = [&random] { return (static_cast<double>(random()) + 0.5) / 4294967296.0; };
  session::Trace t;
  t.name = "invented lap";
  t.brake_threshold = 0.5;
  const double last = lap.step * static_cast<double>(lap.speed.size() - 1);
  for (int i = 0; i / logger.rate < last; ++i) {
    const double time = i / logger.rate + (logger.uneven ? 0.3 / logger.rate * uniform() : 0);
    const auto k = std::min(lap.speed.size() - 1, static_cast<std::size_t>(time / lap.step));
    // Box and Muller 1958, so that the numbers are the same on every machine.
    const double normal = std::sqrt(-2 * std::log(uniform())) * std::cos(2 * 3.141592653589793 * uniform());
    t.time.push_back(time);
    t.speed.push_back(lap.speed[k] + logger.jitter * normal);
    if (logger.channel) t.brake.push_back(lap.brake_force[k] > 0 ? 1 : 0);
  }
  return t;
}

double heat_of(Case c, const session::Trace& trace) {
  c = with(std::move(c), {trace}, {session::DriveStep{}});
  const session::Drive drive(c);
  return drive.energy().brake + drive.energy().tyre_slip;
}

Case with(Case c, std::vector<session::Trace> traces, std::vector<session::Step> steps) {
  c.traces = std::move(traces);
  c.session = std::move(steps);
  return c;
}

}  // namespace hatring::test
