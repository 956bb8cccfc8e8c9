// SPDX-License-Identifier: MIT
#include "sim/io/log/evidence.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "models/constants.hpp"
#include "sim/io/log/position.hpp"

namespace hatring::io {
namespace {

constexpr double kWorthwhile = 200;  // of way, to compare two ways [m]
constexpr double kLongestGap = 10;   // between two rows that are compared [s]
constexpr double kAlike = 0.7;       // correlation of two accelerations of one car (our choice)
constexpr double kWindow = 1;        // over which accelerations are compared [s]

// A column whose title speaks of acceleration along the car.
const LogColumn* accelerometer(const LogTable& table) {
  static const std::set<std::string> push{"acc", "accel", "acceleration", "accelerometer", "g", "gforce", "force"};
  static const std::set<std::string> along{"long", "longitudinal", "inline", "lon"};
  for (const LogColumn& c : table.columns) {
    bool pushes = false, lies_along = false;
    for (const std::string& word : words_of(c.title)) {
      pushes = pushes || push.contains(word);
      lies_along = lies_along || along.contains(word);
    }
    if (pushes && lies_along) return &c;
  }
  return nullptr;
}

double nearer_to_one(double a, double b) {
  return std::abs(std::log(a)) <= std::abs(std::log(b)) ? a : b;
}

}  // namespace

Points points_of(const LogTable& table, const LogColumns& columns, LogRole axis) {
  const auto& a = table.columns[columns.at(axis)].values;
  const auto& v = table.columns[columns.at(LogRole::speed)].values;
  const auto values = [&](LogRole role) -> const std::vector<double>* {
    const auto c = columns.find(role);
    return c == columns.end() ? nullptr : &table.columns[c->second].values;
  };
  const auto *lat = values(LogRole::latitude), *lon = values(LogRole::longitude), *way = values(LogRole::distance);
  const LogColumn* push = accelerometer(table);
  Points p;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (std::isnan(a[i]) || std::isnan(v[i])) continue;
    p.axis.push_back(a[i]);
    p.speed.push_back(v[i]);
    p.latitude.push_back(lat != nullptr && lon != nullptr ? (*lat)[i] : kNothing);
    p.longitude.push_back(lat != nullptr && lon != nullptr ? (*lon)[i] : kNothing);
    p.distance.push_back(way != nullptr ? (*way)[i] : kNothing);
    p.push.push_back(push != nullptr ? push->values[i] : kNothing);
  }
  return p;
}

std::pair<double, double> hardest_changes(const Points& p, double axis, double speed, bool time) {
  const double window = time ? kWindow : 25;  // [s], [m]
  std::vector<double> slowings;
  std::size_t j = 0;
  for (std::size_t i = 0; i < p.axis.size(); ++i) {
    j = std::max(j, i);
    while (j + 1 < p.axis.size() && p.axis[j + 1] >= p.axis[j] && (p.axis[j] - p.axis[i]) * axis < window) ++j;
    const double d = (p.axis[j] - p.axis[i]) * axis, v = p.speed[i] * speed, w = p.speed[j] * speed;
    if (d < window / 2 || d > 5 * window || w <= 0) {
      if (j + 1 < p.axis.size() && p.axis[j + 1] < p.axis[j]) j = j + 1;
      continue;
    }
    slowings.push_back(time ? (v - w) / d : (v * v - w * w) / 2 / d);
  }
  if (slowings.empty()) return {0, 0};
  const double slowing = percentile(slowings, 0.98);
  return {slowing, -percentile(slowings, 0.02)};
}

double way_ratio(const Points& p, double axis, double speed) {
  double by_speed = 0, by_place = 0, run = 0;
  std::size_t from = p.axis.size();
  for (std::size_t i = 0; i < p.axis.size(); ++i) {
    if (i > 0 && from < p.axis.size())
      run += (p.axis[i] - p.axis[i - 1]) * axis * (p.speed[i] + p.speed[i - 1]) / 2 * speed;
    if (!is_place(p.latitude[i], p.longitude[i])) continue;
    const double since = from < p.axis.size() ? (p.axis[i] - p.axis[from]) * axis : -1;
    if (from < p.axis.size() && since >= 0 && since < 1) continue;
    if (since > 0 && since < kLongestGap) {
      by_speed += run;
      by_place += metres_between(p.latitude[from], p.longitude[from], p.latitude[i], p.longitude[i]);
    }
    from = i;
    run = 0;
  }
  return by_place > kWorthwhile ? by_speed / by_place : kNothing;
}

double odometer_ratio(const Points& p, double axis, double speed, std::optional<double> odometer) {
  constexpr double kFoot = 0.3048;
  double by_speed = 0, by_odometer = 0;
  for (std::size_t i = 1; i < p.axis.size(); ++i) {
    const double lasts = (p.axis[i] - p.axis[i - 1]) * axis, covers = p.distance[i] - p.distance[i - 1];
    if (!(lasts > 0 && lasts < kLongestGap && covers >= 0)) continue;  // a count that begins again, or nothing there
    by_speed += lasts * (p.speed[i] + p.speed[i - 1]) / 2 * speed;
    by_odometer += covers;
  }
  if (by_speed <= 0 || by_odometer * odometer.value_or(1) < kWorthwhile) return kNothing;
  if (odometer) return by_speed / (by_odometer * *odometer);
  return nearer_to_one(by_speed / by_odometer, by_speed / (by_odometer * kFoot));
}

double accelerometer_ratio(const Points& p, double axis, double speed) {
  double pp = 0, aa = 0, ap = 0;
  std::size_t j = 0;
  double sum = 0;  // of the pushes from i to before j
  for (std::size_t i = 0; i + 1 < p.axis.size(); ++i) {
    if (j <= i) j = i, sum = 0;
    while (j + 1 < p.axis.size() && p.axis[j + 1] > p.axis[j] && (p.axis[j] - p.axis[i]) * axis < kWindow)
      sum += p.push[j++];
    const double lasts = (p.axis[j] - p.axis[i]) * axis;
    if (j > i && lasts >= kWindow / 2 && lasts < 3 * kWindow && !std::isnan(sum)) {
      const double push = sum / static_cast<double>(j - i), a = (p.speed[j] - p.speed[i]) * speed / lasts;
      pp += push * push, aa += a * a, ap += a * push;
    }
    if (j > i) sum -= p.push[i];
    if (std::isnan(sum)) j = i;  // begin again behind the hole
  }
  if (!(std::abs(ap) > kAlike * std::sqrt(aa * pp)) || ap == 0) return kNothing;
  const double ratio = std::sqrt(aa / pp);  // some loggers count slowing down as positive
  return nearer_to_one(ratio, ratio / models::kGravity);
}

}  // namespace hatring::io
