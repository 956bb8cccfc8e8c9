// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/io/log/channels.hpp"

namespace hatring::io {
namespace {

constexpr double kFastest = 150;        // a trace file takes no faster car [m/s]
constexpr double kMoving = 5;           // [m/s]
constexpr double kJitterBelowZero = 1;  // a satellite speed at rest [m/s]

// Change of speed from one sample to the next that no car can do. Over distance: that of v dv/dx.
bool impossible(const SpeedSamples& s, std::size_t a, std::size_t b, bool time) {
  const double along = s.axis[b] - s.axis[a], change = std::abs(s.speed[b] - s.speed[a]);
  const double rate = time ? change / along : change * (s.speed[a] + s.speed[b]) / 2 / along;
  return rate > kImpossible && change > 2;
}

void remove(SpeedSamples& s, const std::vector<bool>& bad) {
  std::size_t to = 0;
  for (std::size_t i = 0; i < bad.size(); ++i) {
    if (bad[i]) continue;
    s.rows[to] = s.rows[i];
    s.axis[to] = s.axis[i];
    s.speed[to++] = s.speed[i];
  }
  s.rows.resize(to);
  s.axis.resize(to);
  s.speed.resize(to);
}

// Zeros that begin or end with a jump no car can do: the receiver had no fix.
void drop_zeros_without_fix(LogTable& table, SpeedSamples& s, bool time) {
  std::vector<bool> bad(s.speed.size(), false);
  for (std::size_t i = 0; i < s.speed.size();) {
    if (s.speed[i] != 0) {
      ++i;
      continue;
    }
    std::size_t end = i;
    while (end < s.speed.size() && s.speed[end] == 0) ++end;
    const bool before = i > 0 && impossible(s, i - 1, i, time);
    const bool after = end < s.speed.size() && impossible(s, end - 1, end, time);
    if (before || after)
      for (std::size_t k = i; k < end; ++k) {
        bad[k] = true;
        table.faults.push_back({table.lines[s.rows[k]], "speed 0 between speeds of a moving car (no fix); left out"});
      }
    i = end;
  }
  remove(s, bad);
}

// A single sample off both its neighbours by more than a car can do, while they agree.
void drop_spikes(LogTable& table, SpeedSamples& s, bool time) {
  std::vector<bool> bad(s.speed.size(), false);
  for (std::size_t i = 0; i < s.speed.size(); ++i) {
    const bool before = i == 0 || impossible(s, i - 1, i, time);
    const bool after = i + 1 == s.speed.size() || impossible(s, i, i + 1, time);
    const bool around = i > 0 && i + 1 < s.speed.size() && !impossible(s, i - 1, i + 1, time);
    const bool end = (i == 0) != (i + 1 == s.speed.size());
    if (!before || !after || !(around || end)) continue;
    bad[i] = true;
    table.faults.push_back(
        {table.lines[s.rows[i]], "its speed is off both its neighbours by more than a car can do; left out"});
  }
  remove(s, bad);
}

// A sensor slower than the rows is written again until it has news. Its runs of equal values are never short, while
// those of a coarse scale are short wherever the speed changes fast.
void drop_repeats(LogTable& table, SpeedSamples& s) {
  std::vector<double> runs;
  std::vector<bool> again(s.speed.size(), false);
  std::size_t length = 1;
  for (std::size_t i = 1; i < s.speed.size(); ++i) {
    if (s.speed[i] == s.speed[i - 1]) {
      again[i] = true;
      ++length;
      continue;
    }
    if (s.speed[i - 1] > kMoving) runs.push_back(static_cast<double>(length));
    length = 1;
  }
  if (runs.size() < 10 || percentile(runs, 0.1) < 2) return;
  const double typical = percentile(runs, 0.5);
  table.guesses.push_back({"speed samples", fmt::format("one in {:.0f} rows", typical),
                           "the same speed is repeated in between: the sensor is slower than the rows", "", false});
  // A car that stands or cruises repeats too: keep a sample of every typical run.
  std::size_t since = 0;
  for (std::size_t i = 1; i < again.size(); ++i) {
    since = again[i] ? since + 1 : 0;
    if (again[i] && since >= static_cast<std::size_t>(typical)) again[i] = false, since = 0;
  }
  remove(s, again);
}

}  // namespace

SpeedSamples usable_speeds(LogTable& table, std::size_t column, double factor, const std::vector<double>& axis,
                           bool time) {
  SpeedSamples s;
  const std::vector<double>& raw = table.columns[column].values;
  for (std::size_t i = 0; i < raw.size(); ++i) {
    if (std::isnan(raw[i]) || std::isnan(axis[i])) continue;
    const double v = raw[i] * factor;
    if (v < -kJitterBelowZero || v > kFastest) {
      table.faults.push_back({table.lines[i], "its speed is below 0 or above 540 km/h; left out"});
      continue;
    }
    if (!s.axis.empty() && axis[i] <= s.axis.back()) {
      table.faults.push_back(
          {table.lines[i], axis[i] == s.axis.back()
                               ? fmt::format("the same {} as the row before; left out", time ? "time" : "distance")
                               : "its distance falls; left out"});
      continue;
    }
    s.rows.push_back(i);
    s.axis.push_back(axis[i]);
    s.speed.push_back(std::max(0.0, v));
  }
  drop_repeats(table, s);
  drop_zeros_without_fix(table, s, time);
  drop_spikes(table, s, time);
  return s;
}

}  // namespace hatring::io
