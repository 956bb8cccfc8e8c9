// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/io/log/reading.hpp"

namespace hatring::io {
namespace {

// All ours (no source). 1 % of grade is 0.1 m/s2, a percent or two of a hard braking.
constexpr double kHalfWindow = 75;     // of road for one line [m]
constexpr double kMostScatter = 1;     // of the altitude about those lines [m]
constexpr double kSteepest = 0.25;     // of any track [-]
constexpr double kMostUnlike = 0.015;  // standard deviation of the grade from lap to lap [-]
constexpr double kMostDrift = 5;       // altitude at the end of a lap less that at its start [m]
constexpr double kGrid = 10;           // [m]
constexpr double kFinestShare = 1e-4;  // of a lap

struct Lines {
  std::vector<double> slope;  // at each sample
  double scatter = 0;         // standard deviation of the samples about their lines [m]
};

// The least-squares line through the samples within the window around each sample, by running sums.
Lines lines_through(const std::vector<double>& x, const std::vector<double>& y) {
  Lines out;
  std::size_t a = 0, b = 0;
  double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0, squares = 0;
  const auto add = [&](std::size_t i, double sign) {
    const double u = x[i] - x[0], v = y[i] - y[0];
    n += sign, sx += sign * u, sy += sign * v, sxx += sign * u * u, sxy += sign * u * v;
  };
  for (std::size_t i = 0; i < x.size(); ++i) {
    while (b < x.size() && x[b] <= x[i] + kHalfWindow) add(b++, 1);
    while (x[a] < x[i] - kHalfWindow) add(a++, -1);
    const double spread = sxx - sx * sx / n;
    const double slope = spread > 1 ? (sxy - sx * sy / n) / spread : 0;
    const double left = y[i] - y[0] - sy / n - slope * (x[i] - x[0] - sx / n);
    squares += left * left;
    out.slope.push_back(slope);
  }
  out.scatter = std::sqrt(squares / static_cast<double>(x.size()));
  return out;
}

// Standard deviation between the grades of complete laps, over distance; NaN when there is one or none.
double unlike_laps(const LogDrive& d, const LogLaps& laps, const std::vector<double>& slope) {
  std::vector<const LogLap*> whole;
  for (const LogLap& lap : laps.laps)
    if (lap.incomplete.empty()) whole.push_back(&lap);
  if (whole.size() < 2) return kNothing;
  double squares = 0;
  std::size_t count = 0;
  for (double share = 0; share < 1; share += std::max(kGrid / whole[0]->length, kFinestShare)) {
    double sum = 0, sum2 = 0;
    for (const LogLap* lap : whole) {
      const double g = at_place(d.distance, slope, at_place(d.time, d.distance, lap->begin) + share * lap->length);
      sum += g, sum2 += g * g;
    }
    const double m = static_cast<double>(whole.size());
    squares += (sum2 - sum * sum / m) / (m - 1);
    ++count;
  }
  return std::sqrt(squares / static_cast<double>(count));
}

}  // namespace

std::vector<double> grade_from_altitude(LogTable& table, const LogDrive& d, const LogLaps& laps) {
  if (d.altitude.empty()) return {};
  Lines lines = lines_through(d.distance, d.altitude);
  const double steepest = std::abs(*std::max_element(lines.slope.begin(), lines.slope.end(),
                                                     [](double a, double b) { return std::abs(a) < std::abs(b); }));
  const double unlike = unlike_laps(d, laps, lines.slope);
  double drift = 0, length = 0;
  if (laps.chosen) {
    const LogLap& lap = laps.laps[*laps.chosen];
    drift = at_place(d.time, d.altitude, lap.end) - at_place(d.time, d.altitude, lap.begin);
    length = lap.length;
  }
  std::string against;
  if (lines.scatter > kMostScatter)
    against = fmt::format("it scatters by {:.1f} m about straight lines of {:.0f} m", lines.scatter, 2 * kHalfWindow);
  else if (steepest > kSteepest)
    against = fmt::format("it would make a grade of {:.0f} %", 100 * steepest);
  else if (unlike > kMostUnlike)
    against = fmt::format("the grades differ from lap to lap by {:.1f} %", 100 * unlike);
  else if (std::abs(drift) > kMostDrift)
    against = fmt::format("the lap ends {:+.0f} m from where it began", drift);
  LogGuess g{"grade", "not used", against, "--column altitude=none", false};
  if (against.empty()) {
    g.choice = fmt::format("from the altitude, up to {:.1f} %", 100 * steepest);
    g.reason = fmt::format("smooth enough: scatter {:.2f} m{}", lines.scatter,
                           std::isnan(unlike) ? "" : fmt::format(", laps differ by {:.1f} %", 100 * unlike));
    if (length > 0)
      for (double& s : lines.slope) s -= drift / length;  // a lap ends as high as it began
  } else {
    lines.slope.clear();
  }
  table.guesses.push_back(std::move(g));
  return std::move(lines.slope);
}

}  // namespace hatring::io
