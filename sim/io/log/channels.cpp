// SPDX-License-Identifier: MIT
#include "sim/io/log/channels.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace hatring::io {
namespace {

constexpr double kLowest = -500, kHighest = 6000;  // altitudes of roads [m]
constexpr double kCrawl = 0.1;                     // keeps a standing car's time finite [m/s]
constexpr double kNoSensor = -200;                 // loggers write -270 and the like for a sensor that is absent

struct Series {
  std::vector<double> axis, value;
};

// Values of a column that are there, rising along the axis; of several at one place the first.
Series series_of(const std::vector<double>& axis, const std::vector<double>& values) {
  Series s;
  for (std::size_t i = 0; i < axis.size(); ++i) {
    if (std::isnan(axis[i]) || std::isnan(values[i]) || (!s.axis.empty() && axis[i] <= s.axis.back())) continue;
    s.axis.push_back(axis[i]);
    s.value.push_back(values[i]);
  }
  return s;
}

std::vector<double> interpolated(const Series& s, const std::vector<double>& at) {
  std::vector<double> out;
  std::size_t k = 0;
  for (const double t : at) {
    while (k + 1 < s.axis.size() && s.axis[k + 1] <= t) ++k;
    if (t <= s.axis.front() || k + 1 == s.axis.size())
      out.push_back(t <= s.axis.front() ? s.value.front() : s.value.back());
    else
      out.push_back(s.value[k] + (s.value[k + 1] - s.value[k]) * (t - s.axis[k]) / (s.axis[k + 1] - s.axis[k]));
  }
  return out;
}

// The value that was last written; NaN before the first.
std::vector<double> held(const Series& s, const std::vector<double>& at) {
  std::vector<double> out;
  std::size_t k = 0;
  for (const double t : at) {
    while (k < s.axis.size() && s.axis[k] <= t) ++k;
    out.push_back(k == 0 ? kNothing : s.value[k - 1]);
  }
  return out;
}

class Maker {
 public:
  Maker(LogTable& table, const LogColumns& columns, const LogScale& scale,
        const std::map<LogRole, std::string>& told_units)
      : table_(table), columns_(columns), scale_(scale), told_units_(told_units) {}

  LogDrive run() {
    drive_.over_distance = !columns_.contains(LogRole::time);
    const LogRole role = drive_.over_distance ? LogRole::distance : LogRole::time;
    LogClock clock = repaired_clock(table_, columns_.at(role), scale_.axis, drive_.over_distance);
    axis_ = std::move(clock.time);
    drive_.restarts = std::move(clock.restarts);
    SpeedSamples s = usable_speeds(table_, columns_.at(LogRole::speed), scale_.speed, axis_, !drive_.over_distance);
    if (s.speed.size() < 2)
      refuse_log(table_.name, table_.header_line,
                 fmt::format("found {} usable rows of speed, expected a drive", s.speed.size()));
    for (const std::size_t row : s.rows) drive_.lines.push_back(table_.lines[row]);
    drive_.speed = std::move(s.speed);
    along_ = std::move(s.axis);
    put_axis();
    if (const auto c = columns_.find(LogRole::lap); c != columns_.end())
      drive_.lap = held(series_of(axis_, table_.columns[c->second].values), along_);
    put_brake();
    put_altitude();
    put_position();
    return std::move(drive_);
  }

 private:
  void put_axis() {
    if (drive_.over_distance) {
      drive_.distance = along_;
      for (double& d : drive_.distance) d -= along_.front();
      // As a trace over distance is read: constant acceleration between two points.
      drive_.time = {0};
      for (std::size_t i = 1; i < along_.size(); ++i)
        drive_.time.push_back(drive_.time.back() + 2 * (along_[i] - along_[i - 1]) /
                                                       std::max(drive_.speed[i] + drive_.speed[i - 1], kCrawl));
      for (double& r : drive_.restarts) {
        const auto i = std::lower_bound(along_.begin(), along_.end() - 1, r) - along_.begin();
        r = drive_.time[static_cast<std::size_t>(i)];
      }
      return;
    }
    // Times from 0 keep their digits in the trace file; the clock itself is of no use there.
    drive_.time = along_;
    for (double& t : drive_.time) t -= along_.front();
    for (double& t : drive_.restarts) t -= along_.front();
    drive_.distance = {0};
    for (std::size_t i = 1; i < along_.size(); ++i) {
      const double step = along_[i] - along_[i - 1];
      drive_.distance.push_back(drive_.distance.back() + step * (drive_.speed[i] + drive_.speed[i - 1]) / 2);
      if (step <= kHole) continue;
      drive_.hole_ends.push_back(drive_.time[i]);
      table_.faults.push_back({drive_.lines[i], "no speed for more than 2 s before it; bridged by a straight line"});
    }
  }

  void put_brake() {
    const auto c = columns_.find(LogRole::brake);
    if (c == columns_.end()) return;
    std::vector<double> values = table_.columns[c->second].values;
    for (std::size_t i = 0; i < values.size(); ++i)
      if (values[i] <= kNoSensor) {
        values[i] = kNothing;
        table_.faults.push_back({table_.lines[i], "its brake signal is that of an absent sensor; taken as blank"});
      }
    const Series s = series_of(axis_, values);
    if (s.axis.size() > 1) drive_.brake = interpolated(s, along_);
  }

  void put_altitude() {
    const auto c = columns_.find(LogRole::altitude);
    if (c == columns_.end()) return;
    double factor = 1;
    const std::string& unit = table_.columns[c->second].unit;
    const auto told = told_units_.find(LogRole::altitude);
    if (told != told_units_.end())
      factor = told_factor(table_, LogRole::altitude, told->second);
    else if (unit == "ft" || unit == "feet")
      factor = 0.3048;
    table_.guesses.push_back({"altitude unit",
                              told != told_units_.end() ? told->second
                              : factor == 1             ? "m"
                                                        : "ft",
                              told != told_units_.end() ? "as told"
                              : unit.empty()            ? "no unit in the header"
                                                        : fmt::format("the header says {}", unit),
                              "--unit altitude=UNIT", unit.empty() && told == told_units_.end()});
    std::vector<double> values = table_.columns[c->second].values;
    for (std::size_t i = 0; i < values.size(); ++i) {
      values[i] *= factor;
      if (!(values[i] < kLowest || values[i] > kHighest)) continue;
      values[i] = kNothing;
      table_.faults.push_back({table_.lines[i], "its altitude is not that of a road; taken as blank"});
    }
    const Series s = series_of(axis_, values);
    if (s.axis.size() > 1) drive_.altitude = interpolated(s, along_);
  }

  void put_position() {
    const auto lat = columns_.find(LogRole::latitude), lon = columns_.find(LogRole::longitude);
    if (lat == columns_.end() || lon == columns_.end()) return;
    std::vector<double> latitude = table_.columns[lat->second].values;
    std::vector<double> longitude = table_.columns[lon->second].values;
    std::size_t usable = 0;
    for (std::size_t i = 0; i < latitude.size(); ++i) {
      const bool there = !std::isnan(latitude[i]) && !std::isnan(longitude[i]);
      const bool place = there && is_place(latitude[i], longitude[i]);
      usable += place ? 1 : 0;
      if (place) continue;
      if (there)
        table_.faults.push_back(
            {table_.lines[i], "its position is no place on earth, or 0, 0 (no fix); taken as blank"});
      latitude[i] = longitude[i] = kNothing;
    }
    if (usable < 2) {
      table_.guesses.push_back({"positions", "not used", "they are no latitudes and longitudes in degrees", "", true});
      return;
    }
    // A receiver slower than the rows repeats its place: the way in between is a straight line, not a stair.
    const std::vector<double> all_y = latitude, all_x = longitude;
    for (std::size_t i = 1; i < all_y.size(); ++i)
      if (all_y[i] == all_y[i - 1] && all_x[i] == all_x[i - 1]) latitude[i] = longitude[i] = kNothing;
    const Series north = series_of(axis_, latitude), east = series_of(axis_, longitude);
    if (north.axis.size() < 2) {  // the others stand in rows without a usable time
      table_.guesses.push_back({"positions", "not used", "they do not change in the rows that are used", "", true});
      return;
    }
    const std::vector<double> y = interpolated(north, along_), x = interpolated(east, along_);
    for (std::size_t i = 0; i < along_.size(); ++i) drive_.position.push_back({y[i], x[i]});
  }

  LogTable& table_;
  const LogColumns& columns_;
  const LogScale& scale_;
  const std::map<LogRole, std::string>& told_units_;
  std::vector<double> axis_, along_;  // of every row; of the samples that are kept
  LogDrive drive_;
};

}  // namespace

LogDrive make_drive(LogTable& table, const LogColumns& columns, const LogScale& scale,
                    const std::map<LogRole, std::string>& told_units) {
  return Maker(table, columns, scale, told_units).run();
}

}  // namespace hatring::io
