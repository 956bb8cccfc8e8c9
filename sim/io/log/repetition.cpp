// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "sim/io/log/laps.hpp"

namespace hatring::io {
namespace {

constexpr double kLapGrid = 10;        // [m]
constexpr double kShortest = 300;      // shortest lap that is looked for [m]
constexpr double kLongest = 30e3;      // longest [m]
constexpr int kMostPlaces = 12;        // that are tried for the cut
constexpr double kLongestDrive = 1e6;  // a day-long race; beyond it the distances are wrong [m]
constexpr double kLapsAlike = 0.75;    // correlation of two laps of one driver (our choice; other drives lie below 0.5)
constexpr double kNearlyBest = 0.95;   // a shorter lag as good as this is the lap, the longer one several of them
constexpr double kTemplate = 250;      // road before and after the cut that is recognised [m]
constexpr double kFineGrid = 2;        // [m]
constexpr double kBeforeTop = 3;       // [s]

constexpr std::size_t kMostCompared = 4'000;  // places of a drive; of a longer one only some: bounded work

double correlation(const std::vector<double>& v, std::size_t lag) {
  const std::size_t n = v.size() - lag, step = v.size() / kMostCompared + 1;
  double m = 0, a = 0, b = 0, aa = 0, bb = 0, ab = 0;
  for (std::size_t i = 0; i < n; i += step) {
    const double x = v[i], y = v[i + lag];
    ++m, a += x, b += y, aa += x * x, bb += y * y, ab += x * y;
  }
  const double spread = (aa - a * a / m) * (bb - b * b / m);
  return spread > 0 ? (ab - a * b / m) / std::sqrt(spread) : 0;
}

// Mean squared difference of the road around `at` from that around `place` [m2/s2].
double unlike(const LogDrive& d, double place, double at) {
  double sum = 0;
  int n = 0;
  for (double x = -kTemplate; x <= kTemplate; x += kLapGrid, ++n) {
    const double e = at_place(d.distance, d.speed, place + x) - at_place(d.distance, d.speed, at + x);
    sum += e * e;
  }
  return sum / n;
}

// From a place to both sides, each pass near where the one before it says.
std::vector<double> passes_like(const LogDrive& d, double place, double length, double most_unlike) {
  std::vector<double> passes = {place};
  for (const double way : {1.0, -1.0}) {
    for (double from = place;;) {
      const double expected = from + way * length, reach = kLapTolerance * length;
      double at = expected, least = unlike(d, place, expected);
      for (double x = expected - reach; x <= expected + reach; x += kFineGrid)
        if (const double u = unlike(d, place, x); u < least) least = u, at = x;
      if (at <= 0 || at >= d.distance.back() || least > most_unlike) break;
      passes.push_back(from = at);
    }
  }
  return passes;
}

}  // namespace

double at_place(const std::vector<double>& x, const std::vector<double>& y, double at) {
  const auto it = std::upper_bound(x.begin(), x.end(), at);
  if (it == x.begin()) return y.front();
  if (it == x.end()) return y.back();
  const auto i = static_cast<std::size_t>(it - x.begin());
  return y[i - 1] + (y[i] - y[i - 1]) * (at - x[i - 1]) / (x[i] - x[i - 1]);
}

std::size_t straight_before_top_speed(const LogDrive& d) {
  auto i = static_cast<std::size_t>(std::max_element(d.speed.begin(), d.speed.end()) - d.speed.begin());
  const double top = d.time[i];
  while (i > 0 && top - d.time[i] < kBeforeTop) --i;
  return i;
}

Repetition repetition(const LogDrive& d) {
  const double total = d.distance.back();
  Repetition out;
  if (total < 2 * kShortest || total > kLongestDrive) return out;
  std::vector<double> v;
  for (double x = 0; x < total; x += kLapGrid) v.push_back(at_place(d.distance, d.speed, x));
  const auto first = static_cast<std::size_t>(kShortest / kLapGrid),
             last = std::min(v.size() / 2, static_cast<std::size_t>(kLongest / kLapGrid)) + 1;
  std::vector<double> alike(last, 0);
  for (std::size_t lag = first; lag < last; ++lag) alike[lag] = correlation(v, lag);
  const double best = *std::max_element(alike.begin(), alike.end());
  if (best < kLapsAlike) return out;
  std::size_t lag = first;
  while (alike[lag] < kNearlyBest * best) ++lag;
  while (lag + 1 < last && alike[lag + 1] > alike[lag]) ++lag;
  out.length = kLapGrid * static_cast<double>(lag);
  out.correlation = alike[lag];
  double spread = 0, mean = 0;
  for (const double s : v) mean += s / static_cast<double>(v.size());
  for (const double s : v) spread += (s - mean) * (s - mean) / static_cast<double>(v.size());
  // The fastest lap may border on an out lap, which makes a bad template: that lap's place wins which is found in most
  // others.
  const double fastest = d.distance[straight_before_top_speed(d)];
  const double step = out.length * std::max(1.0, std::round(total / out.length / kMostPlaces));
  for (double place = std::fmod(fastest, out.length); place < total; place += step) {
    std::vector<double> passes = passes_like(d, place, out.length, (1 - kLapsAlike) * spread);
    if (passes.size() > out.passes.size()) out.passes = std::move(passes);
  }
  std::sort(out.passes.begin(), out.passes.end());
  return out;
}

}  // namespace hatring::io
