// SPDX-License-Identifier: MIT
#include "sim/session/braking_search.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "sim/session/cubic.hpp"

namespace hatring::session {
namespace {

constexpr double kScan = 0.02;  // step at which the demand is looked at [s]

std::vector<Interval> tidied(const std::vector<Interval>& raw) {
  std::vector<Interval> merged;
  for (const Interval& i : raw) {
    if (!merged.empty() && i.begin - merged.back().end < kBlip)
      merged.back().end = i.end;
    else
      merged.push_back(i);
  }
  std::erase_if(merged, [](const Interval& i) { return i.end - i.begin < kBlip; });
  return merged;
}

// Collects the stretches above zero of a function sampled at rising times, crossing times by linear interpolation.
class Crossings {
 public:
  void add(double time, double value) {
    const bool on = value > 0;
    if (on && !on_) begin_ = fresh_ ? time : time_ + (time - time_) * value_ / (value_ - value);
    if (!on && on_ && !fresh_) found_.push_back({begin_, time_ + (time - time_) * value_ / (value_ - value)});
    on_ = on;
    fresh_ = false;
    time_ = time;
    value_ = value;
  }
  std::vector<Interval> finish() {
    if (on_) found_.push_back({begin_, time_});
    return std::move(found_);
  }

 private:
  std::vector<Interval> found_;
  bool on_ = false, fresh_ = true;
  double begin_ = 0, time_ = 0, value_ = 0;
};

// Least squared residual of samples lo .. hi by two parabolas that meet at `bend`; the bend alone may break the slope.
double residual(const Samples& s, std::size_t lo, std::size_t hi, double bend) {
  using Vector5 = Eigen::Matrix<double, 5, 1>;
  Eigen::Matrix<double, 5, 5> normal = Eigen::Matrix<double, 5, 5>::Zero();
  Vector5 right = Vector5::Zero();
  double squares = 0;
  for (std::size_t i = lo; i < hi; ++i) {
    const double x = s.time[i] - bend, before = std::min(x, 0.0), after = std::max(x, 0.0),
                 y = s.speed[i] - s.speed[lo];
    Vector5 b;
    b << 1, before, before * before, after, after * after;
    normal.noalias() += b * b.transpose();
    right += y * b;
    squares += y * y;
  }
  normal.diagonal().array() += 1e-9;  // a side with too few samples for a parabola
  return squares - right.dot(normal.ldlt().solve(right));
}

// Golden section of a function with one minimum between a and b.
template <class F>
double least(double a, double b, const F& f) {
  constexpr double kGolden = 0.6180339887498949;
  double x = b - kGolden * (b - a), y = a + kGolden * (b - a), fx = f(x), fy = f(y);
  for (int i = 0; i < 12; ++i) {
    if (fx < fy) {
      b = y, y = x, fy = fx, x = b - kGolden * (b - a), fx = f(x);
    } else {
      a = x, x = y, fx = fy, y = a + kGolden * (b - a), fy = f(y);
    }
  }
  return (a + b) / 2;
}

// The bend near `guess`, between the limits that keep its neighbours out of the window.
double bend_near(const Samples& s, double guess, double from, double to, double noise, double reach) {
  constexpr std::size_t kFewest = 4;  // samples on either side
  const double window = std::clamp(6 * median_interval(s), 0.5, 1.2);
  const auto at = [&s](double t) {
    return static_cast<std::size_t>(std::lower_bound(s.time.begin(), s.time.end(), t) - s.time.begin());
  };
  const std::size_t lo = at(std::max(from, guess - window - reach)), hi = at(std::min(to, guess + window + reach));
  if (hi < lo + 2 * kFewest) return guess;
  const double first = std::max(guess - reach, s.time[lo + kFewest - 1]);
  const double last = std::min(guess + reach, s.time[hi - kFewest]);
  if (first >= last) return guess;
  const auto f = [&](double t) { return residual(s, lo, hi, t); };
  constexpr int kGrid = 16;
  const double step = (last - first) / kGrid;
  double best = first, lowest = f(first);
  for (int i = 1; i <= kGrid; ++i) {
    const double t = first + i * step, value = f(t);
    if (value < lowest) lowest = value, best = t;
  }
  best = least(std::max(first, best - step), std::min(last, best + step), f);
  const double gain = f(std::clamp(guess, first, last)) - f(best);
  return gain > 4 * noise * noise ? best : guess;
}

}  // namespace

std::vector<Interval> demanded(const std::vector<Piece>& pieces, const Road& road, double threshold) {
  Crossings crossings;
  for (const Piece& p : pieces) {
    const double h = length_of(p);
    const int steps = std::max(1, static_cast<int>(std::ceil(h / kScan)));
    for (int i = 0; i < steps; ++i) {
      const double s = h * (i + 0.5) / steps;  // inside the piece: its ends may have two accelerations
      crossings.add(p.begin + s, brake_demand(road, speed_at(p, s), acceleration_at(p, s), grade_at(p, s)) - threshold);
    }
  }
  std::vector<Interval> found = crossings.finish();
  if (!found.empty() && found.front().begin < kScan) found.front().begin = 0;
  if (!found.empty() && found.back().end > pieces.back().end - kScan) found.back().end = pieces.back().end;
  found = tidied(found);
  std::erase_if(found, [&](const Interval& i) { return speed_loss(pieces, road, i) < kLeastSpeedLoss; });
  return found;
}

std::vector<Interval> signalled(const Samples& s, double threshold) {
  Crossings crossings;
  for (std::size_t i = 0; i < s.time.size(); ++i) crossings.add(s.time[i], s.brake[i] - threshold);
  return tidied(crossings.finish());
}

double speed_loss(const std::vector<Piece>& pieces, const Road& road, const Interval& i) {
  double impulse = 0;
  for (const Piece& p : pieces) {
    const double a = std::max(i.begin, p.begin), b = std::min(i.end, p.end);
    if (a >= b) continue;
    impulse += integrate(a - p.begin, b - p.begin, [&](double s) {
      return std::max(0.0, brake_demand(road, speed_at(p, s), acceleration_at(p, s), grade_at(p, s)));
    });
  }
  return impulse / (road.load.mass * road.load.rotating_factor);
}

std::vector<Interval> sharpened(const Samples& s, std::vector<Interval> brakings, double noise, double reach) {
  std::vector<double> instants = {-1};
  for (const Interval& i : brakings) instants.insert(instants.end(), {i.begin, i.end});
  const double end = s.time.back();
  instants.push_back(end + 1);
  for (std::size_t k = 1; k + 1 < instants.size(); ++k) {
    double& t = instants[k];
    const double from = instants[k - 1], to = instants[k + 1];
    if (t <= 0 || t >= end) continue;  // the trace begins or ends on the brakes
    const double room = std::min(reach, 0.4 * std::min(t - from, to - t));
    t = bend_near(s, t, from, to, noise, room);
  }
  for (std::size_t k = 0; k < brakings.size(); ++k) brakings[k] = {instants[2 * k + 1], instants[2 * k + 2]};
  return brakings;
}

}  // namespace hatring::session
