// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/io/log/reading.hpp"

namespace hatring::io {
namespace {

// All ours, for telling a brake signal from another (common practice, no source).
constexpr double kMoving = 5;        // [m/s]
constexpr double kSpeedingUp = 0.5;  // surely off the brakes [m/s2]
constexpr double kSlowingHard = 4;   // surely on the brakes [m/s2]
constexpr double kOnShare = 0.05;    // of the usual peak above rest counts as on
constexpr double kNoises = 4;        // and so many times the scatter at rest
constexpr double kSeenShare = 0.7;   // of the hard slowing that the signal must show
constexpr double kFalseShare = 0.2;  // of the speeding up in which it may be on
constexpr double kWindow = 0.5;      // over which the acceleration is taken [s]

std::vector<double> accelerations(const LogDrive& d) {
  std::vector<double> out;
  std::size_t a = 0, b = 0;
  for (std::size_t i = 0; i < d.time.size(); ++i) {
    while (d.time[i] - d.time[a] > kWindow / 2) ++a;
    while (b + 1 < d.time.size() && d.time[b] - d.time[i] < kWindow / 2) ++b;
    out.push_back(b > a ? (d.speed[b] - d.speed[a]) / (d.time[b] - d.time[a]) : 0);
  }
  return out;
}

}  // namespace

BrakeSignal brake_signal(LogTable& table, const LogDrive& d, const std::string& unit) {
  if (d.brake.empty()) return {};
  LogGuess g{"brake channel", "not used", {}, "--column brake=NAME or none", true};
  const std::vector<double> a = accelerations(d);
  std::vector<double> off;
  for (std::size_t i = 0; i < a.size(); ++i)
    if (d.speed[i] > kMoving && a[i] > kSpeedingUp) off.push_back(d.brake[i]);
  BrakeSignal out;
  if (off.empty()) {
    g.reason = "the car never speeds up, so that its value at rest is not known";
    table.guesses.push_back(std::move(g));
    return out;
  }
  const double rest = percentile(off, 0.5);
  for (double& v : off) v = std::abs(v - rest);
  const double scatter = 1.4826 * percentile(off, 0.5);  // normal noise: standard deviation over median deviation
  std::vector<double> sorted = d.brake;
  const double span = percentile(sorted, 0.99) - rest;
  std::sort(sorted.begin(), sorted.end());
  const bool is_switch = std::unique(sorted.begin(), sorted.end()) - sorted.begin() <= 2;
  out.threshold = is_switch ? span / 2 : std::max(kOnShare * span, kNoises * scatter);
  int hard = 0, seen = 0, up = 0, wrong = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const bool on = d.brake[i] - rest > out.threshold, moves = d.speed[i] > kMoving;
    if (moves && a[i] < -kSlowingHard) ++hard, seen += on ? 1 : 0;
    if (moves && a[i] > kSpeedingUp) ++up, wrong += on ? 1 : 0;
  }
  if (span <= 0 || hard == 0 || seen < kSeenShare * hard || wrong > kFalseShare * up) {
    g.reason = span <= 0 || hard == 0
                   ? "it never rises, or the car never slows hard; the brakes are found from the speed"
                   : fmt::format(
                         "it is on in {:.0f} % of the hard slowing and {:.0f} % of the speeding up; the brakes "
                         "are found from the speed",
                         100.0 * seen / hard, 100.0 * wrong / std::max(up, 1));
    table.guesses.push_back(std::move(g));
    return {};
  }
  for (const double v : d.brake) out.values.push_back(v - rest);
  g.choice = fmt::format("used; on above {:.3g} {}", out.threshold, unit);
  g.reason =
      fmt::format("{} of its usual peak {:.3g}{}; its value at rest, {:.3g}, is taken off", is_switch ? "half" : "5 %",
                  span, out.threshold > kOnShare * span && !is_switch ? " is less than its noise" : "", rest);
  g.doubtful = false;
  table.guesses.push_back(std::move(g));
  return out;
}

}  // namespace hatring::io
