// SPDX-License-Identifier: MIT
#include "sim/io/log/reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace hatring::io {
namespace {

constexpr double kShortestWay = 10;  // of a drive that heats brakes [m]
constexpr double kCrowded = 0.2;     // of a step: a sample so close to an end of the lap is the end

// The part of the drive from begin to end [s], both ends exactly, samples in between as they are.
class Part {
 public:
  Part(const LogDrive& d, double begin, double end) : d_(d), begin_(begin), end_(end) {
    for (std::size_t i = 0; i < d.time.size(); ++i) {
      const double step = i > 0 ? d.time[i] - d.time[i - 1] : d.time[i + 1] - d.time[i];
      if (d.time[i] > begin + kCrowded * step && d.time[i] < end - kCrowded * step) inside_.push_back(i);
    }
  }

  [[nodiscard]] std::vector<double> of(const std::vector<double>& channel) const {
    if (channel.empty()) return {};
    std::vector<double> out = {at_place(d_.time, channel, begin_)};
    for (const std::size_t i : inside_) out.push_back(channel[i]);
    out.push_back(at_place(d_.time, channel, end_));
    return out;
  }

 private:
  const LogDrive& d_;
  double begin_, end_;
  std::vector<std::size_t> inside_;
};

void from_zero(std::vector<double>& values) {
  const double first = values.front();
  for (double& v : values) v -= first;
}

std::string unit_of_brake(const LogTable& table, const LogColumns& columns, const LogOptions& options) {
  if (const auto told = options.units.find(LogRole::brake); told != options.units.end()) return told->second;
  const auto c = columns.find(LogRole::brake);
  return c == columns.end() ? "" : table.columns[c->second].unit;
}

// A trace over distance must move inside: a stop takes no distance, and is written by its neighbours.
void drop_stops(session::Trace& t) {
  session::Trace out;
  for (std::size_t i = 0; i < t.speed.size(); ++i) {
    const bool inside = i > 0 && i + 1 < t.speed.size();
    if (inside && t.speed[i] <= 0) continue;
    out.distance.push_back(t.distance[i]);
    out.speed.push_back(t.speed[i]);
    if (!t.grade.empty()) out.grade.push_back(t.grade[i]);
    if (!t.brake.empty()) out.brake.push_back(t.brake[i]);
  }
  t.distance = std::move(out.distance);
  t.speed = std::move(out.speed);
  t.grade = std::move(out.grade);
  t.brake = std::move(out.brake);
}

}  // namespace

LogReading read_log_table_text(const std::string& text, const std::string& name, const LogOptions& options) {
  LogTable table = read_log_table(text, name, options.separator, options.decimal);
  const LogColumns columns = find_columns(table, options.columns);
  const LogScale scale = guess_scale(table, columns, options.units);
  LogReading out;
  out.source = name;
  out.rows = table.lines.size();
  out.columns = table.columns.size();
  out.drive = make_drive(table, columns, scale, options.units);
  const LogDrive& d = out.drive;
  out.laps = find_laps(table, d, options.laps);
  out.brake_unit = unit_of_brake(table, columns, options);
  const BrakeSignal brake = brake_signal(table, d, out.brake_unit);
  const std::vector<double> grade = grade_from_altitude(table, d, out.laps);
  const std::optional<std::size_t> chosen = out.laps.chosen;
  const Part part(d, chosen ? out.laps.laps[*chosen].begin : 0, chosen ? out.laps.laps[*chosen].end : d.time.back());
  const std::vector<double> way = part.of(d.distance);
  if (way.back() - way.front() < kShortestWay)
    refuse_log(name, 0,
               fmt::format("found that the car moves by {:.1f} m in all, expected a drive", way.back() - way.front()),
               "look at the speeds, and at --column and --unit");
  const std::string stem = std::filesystem::path(name).stem().string();
  out.trace.name = chosen ? fmt::format("{}, lap {}", stem, out.laps.laps[*chosen].number) : stem;
  (d.over_distance ? out.trace.distance : out.trace.time) = part.of(d.over_distance ? d.distance : d.time);
  from_zero(d.over_distance ? out.trace.distance : out.trace.time);
  out.trace.speed = part.of(d.speed);
  out.trace.grade = part.of(grade);
  out.trace.brake = part.of(brake.values);
  out.trace.brake_threshold = brake.threshold;
  if (d.over_distance) drop_stops(out.trace);
  out.guesses = std::move(table.guesses);
  out.faults = std::move(table.faults);
  std::stable_sort(out.faults.begin(), out.faults.end(),
                   [](const LogFault& a, const LogFault& b) { return a.line < b.line; });
  return out;
}

LogReading read_log(const std::filesystem::path& file, const LogOptions& options) {
  return read_log_table_text(read_log_text(file), file.string(), options);
}

}  // namespace hatring::io
