// SPDX-License-Identifier: MIT
//! \file
//! Logger files as text, made from an invented lap whose truth is known.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "sim/io/config_error.hpp"
#include "sim/io/log/reading.hpp"
#include "tests/sim/session/synthetic_lap.hpp"

namespace hatring::io::testing {

//! One row of a log in SI units.
struct Sample {
  double time = 0, speed = 0, distance = 0;
  int lap = 0;
  double lap_share = 0;  //!< of the lap's length, 0 .. 1
  bool brake = false;
};

//! Several laps of the invented car, the first and the last cut short. \param rate rows a second
inline std::vector<Sample> invented_drive(double rate, int laps = 3, double jitter = 0) {
  static const test::Lap lap = test::drive_lap(test::plain_case());
  const double lasts = lap.step * static_cast<double>(lap.speed.size());
  double length = 0;
  for (const double v : lap.speed) length += v * lap.step;
  std::vector<double> along(lap.speed.size(), 0);
  for (std::size_t i = 1; i < along.size(); ++i) along[i] = along[i - 1] + lap.speed[i - 1] * lap.step;
  // The same jitter on every machine.
  std::uint32_t state = 12345;
  const auto scatter = [&state, jitter] {
    double sum = 0;
    for (int i = 0; i < 12; ++i) {
      state = state * 1664525U + 1013904223U;
      sum += static_cast<double>(state) / 4294967296.0;
    }
    return jitter * (sum - 6);
  };
  std::vector<Sample> out;
  const double begin = 0.4 * lasts, end = begin + (laps + 1.2) * lasts;
  for (int i = 0; begin + i / rate < end; ++i) {
    const double t = begin + i / rate;
    const int n = static_cast<int>(t / lasts);
    const auto k = std::min(lap.speed.size() - 1, static_cast<std::size_t>((t - n * lasts) / lap.step));
    out.push_back({.time = i / rate,
                   .speed = std::max(0.0, lap.speed[k] + scatter()),
                   .distance = n * length + along[k],
                   .lap = n,
                   .lap_share = along[k] / length,
                   .brake = lap.brake_force[k] > 0});
  }
  return out;
}

//! Latitude and longitude on a circle as long as the lap, about 50 degrees north and 1 east.
inline LatLon place_of(const Sample& s) {
  static const test::Lap lap = test::drive_lap(test::plain_case());
  double length = 0;
  for (const double v : lap.speed) length += v * lap.step;
  constexpr double kTurn = 6.283185307179586, kMetresPerDegree = 111195, kCosine = 0.6427876097;
  const double radius = length / kTurn / kMetresPerDegree;
  return {50 + radius * std::sin(kTurn * s.lap_share), 1 + radius / kCosine * std::cos(kTurn * s.lap_share)};
}

//! "%.3f" as a cell, with the decimal mark asked for.
inline std::string number(double value, int digits = 3, char decimal = '.') {
  std::string text = fmt::format("{:.{}f}", value, digits);
  std::replace(text.begin(), text.end(), '.', decimal);
  return text;
}

//! A header line and a row for each sample.
inline std::string log_text(const std::string& header, const std::vector<Sample>& drive,
                            const std::function<std::string(const Sample&)>& row) {
  std::string out = header + "\n";
  for (const Sample& s : drive) out += row(s) + "\n";
  return out;
}

//! time,speed in s and km/h.
inline std::string plain_log(double rate = 10, int laps = 3) {
  return log_text("Time (s),Speed (km/h)", invented_drive(rate, laps),
                  [](const Sample& s) { return number(s.time) + "," + number(3.6 * s.speed); });
}

inline LogReading read(const std::string& text, const LogOptions& options = {}) {
  return read_log_table_text(as_log_text(text, "log.csv"), "log.csv", options);
}

inline const LogGuess& guess(const LogReading& r, const std::string& what) {
  const auto it =
      std::find_if(r.guesses.begin(), r.guesses.end(), [&what](const LogGuess& g) { return g.what == what; });
  if (it == r.guesses.end()) throw std::runtime_error(fmt::format("no guess about {}", what));
  return *it;
}

//! Lines of the faults whose text holds the phrase.
inline std::vector<std::size_t> fault_lines(const LogReading& r, const std::string& phrase) {
  std::vector<std::size_t> out;
  for (const LogFault& f : r.faults)
    if (f.what.find(phrase) != std::string::npos) out.push_back(f.line);
  return out;
}

inline double top_speed(const LogReading& r) {
  return *std::max_element(r.drive.speed.begin(), r.drive.speed.end());
}

//! Text with one line changed; lines count from 1.
inline std::string with_line(const std::string& text, std::size_t line, const std::string& replacement) {
  std::size_t begin = 0;
  for (std::size_t i = 1; i < line; ++i) begin = text.find('\n', begin) + 1;
  const std::size_t end = text.find('\n', begin);
  return text.substr(0, begin) + replacement + text.substr(end);
}

//! What reading a broken log says.
inline std::string refusal(const std::string& text, const LogOptions& options = {}) {
  try {
    static_cast<void>(read(text, options));
  } catch (const ConfigError& e) {
    return e.what();
  }
  return {};
}

}  // namespace hatring::io::testing
