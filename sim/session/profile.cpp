// SPDX-License-Identifier: MIT
#include "sim/session/profile.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "models/constants.hpp"
#include "sim/session/cubic.hpp"
#include "sim/session/error.hpp"

namespace hatring::session {
namespace {

[[noreturn]] void refuse(const Trace& t, const std::string& what) {
  throw CaseError(fmt::format("trace '{}': {}", t.name, what));
}

void check(const Trace& t) {
  const std::size_t n = t.speed.size();
  if (t.time.empty() == t.distance.empty()) refuse(t, "it needs either time or distance, and not both");
  const auto& axis = t.time.empty() ? t.distance : t.time;
  const char* name = t.time.empty() ? "distance" : "time";
  if (n < 2) refuse(t, "it needs at least 2 points");
  if (axis.size() != n) refuse(t, fmt::format("{} has {} values and speed has {}", name, axis.size(), n));
  for (const auto& [channel, label] : {std::pair{&t.grade, "grade"}, std::pair{&t.brake, "brake"}})
    if (!channel->empty() && channel->size() != n)
      refuse(t, fmt::format("{} has {} values and speed has {}", label, channel->size(), n));
  for (std::size_t i = 0; i < n; ++i) {
    if (!std::isfinite(axis[i]) || (i > 0 && axis[i] <= axis[i - 1]))
      refuse(t, fmt::format("{} must rise from point to point, and does not at point {}", name, i + 1));
    if (!std::isfinite(t.speed[i]) || t.speed[i] < 0)
      refuse(t, fmt::format("speed at point {} is {:g} m/s; it must be 0 or more", i + 1, t.speed[i]));
    for (const auto* channel : {&t.grade, &t.brake})
      if (!channel->empty() && !std::isfinite((*channel)[i]))
        refuse(t, fmt::format("{} at point {} is not a number", channel == &t.grade ? "grade" : "brake", i + 1));
  }
  if (!t.time.empty()) return;
  for (std::size_t i = 0; i < n; ++i)
    if (t.speed[i] == 0 && ((i > 0 && i + 1 < n) || n == 2))
      refuse(t, fmt::format("speed at point {} is 0; a trace against distance must move except at its ends (use time)",
                            i + 1));
}

double interpolated(const std::vector<double>& x, const std::vector<double>& y, double at) {
  const auto it = std::upper_bound(x.begin() + 1, x.end() - 1, at);
  const auto i = static_cast<std::size_t>(it - x.begin());
  const double share = std::clamp((at - x[i - 1]) / (x[i] - x[i - 1]), 0.0, 1.0);
  return y[i - 1] + share * (y[i] - y[i - 1]);
}

bool is_drawn(const Samples& s) {
  const double gap = s.time.size() < kSketchPoints ? kSketchGap : kDrawnGap;
  double wide = 0;
  for (std::size_t i = 1; i < s.time.size(); ++i)
    if (s.time[i] - s.time[i - 1] > gap) wide += s.time[i] - s.time[i - 1];
  return wide > s.time.back() / 2;
}

// Drawn traces brake over whole lines, those that take more than the threshold on average.
std::vector<Interval> drawn_brakings(const std::vector<Piece>& pieces, const Road& road, double threshold) {
  std::vector<Interval> found;
  for (const Piece& p : pieces) {
    const double h = length_of(p);
    const double mean =
        integrate(0, h,
                  [&](double s) { return brake_demand(road, speed_at(p, s), acceleration_at(p, s), grade_at(p, s)); }) /
        h;
    if (mean <= threshold) continue;
    if (!found.empty() && p.begin - found.back().end < kBlip)
      found.back().end = p.end;
    else
      found.push_back({p.begin, p.end});
  }
  std::erase_if(found, [&](const Interval& i) { return speed_loss(pieces, road, i) < kLeastSpeedLoss; });
  return found;
}

// A bend closer to an end of the trace than one sample cannot be told from the end.
void snap_to_ends(std::vector<Interval>& brakings, double end, double step) {
  for (Interval& i : brakings) {
    if (i.begin < step) i.begin = 0;
    if (i.end > end - step) i.end = end;
  }
}

std::vector<double> ends_of(const std::vector<Interval>& brakings, double end) {
  std::vector<double> times;
  for (const Interval& i : brakings)
    for (const double t : {i.begin, i.end})
      if (t > 0 && t < end) times.push_back(t);
  return times;
}

// Both ends of every gap in a log: free to bend there, the gap itself is bridged by a straight line.
std::vector<double> gap_ends(const Samples& s) {
  std::vector<double> times;
  for (std::size_t i = 1; i < s.time.size(); ++i)
    if (s.time[i] - s.time[i - 1] > kDrawnGap)
      for (const double t : {s.time[i - 1], s.time[i]})
        if (t > 0 && t < s.time.back()) times.push_back(t);
  return times;
}

// The brake points and those gap ends that do not crowd them or each other, rising.
std::vector<double> all_breaks(std::vector<double> brake_points, const std::vector<double>& gaps) {
  constexpr double kCrowded = 0.02;  // [s]
  for (const double g : gaps)
    if (std::none_of(brake_points.begin(), brake_points.end(), [g](double t) { return std::abs(t - g) < kCrowded; }))
      brake_points.push_back(g);
  std::sort(brake_points.begin(), brake_points.end());
  return brake_points;
}

void put_grade(const Samples& s, std::vector<Piece>& pieces) {
  if (s.grade.empty()) return;
  for (Piece& p : pieces) {
    p.grade0 = interpolated(s.time, s.grade, p.begin);
    p.grade1 = interpolated(s.time, s.grade, p.end);
  }
}

}  // namespace

double Profile::length() const {
  return pieces.back().distance + travelled_at(pieces.back(), length_of(pieces.back()));
}

Samples samples_of(const Trace& trace) {
  check(trace);
  Samples s{.time = {0}, .speed = trace.speed, .grade = trace.grade, .brake = trace.brake};
  for (std::size_t i = 1; i < trace.speed.size(); ++i)
    s.time.push_back(trace.distance.empty() ? trace.time[i] - trace.time[0]
                                            : s.time.back() + 2 * (trace.distance[i] - trace.distance[i - 1]) /
                                                                  (trace.speed[i] + trace.speed[i - 1]));
  return s;
}

Profile make_profile(const Trace& trace, const Road& road, const Brakes& brakes) {
  const Samples s = samples_of(trace);
  const double end = s.time.back(), threshold = brakes.dead_band * models::kGravity * road.load.mass;
  const bool channel = !s.brake.empty();
  Profile out;
  if (is_drawn(s)) {
    out.pieces = join_samples(s);
    put_grade(s, out.pieces);
    out.brakings = channel ? signalled(s, trace.brake_threshold) : drawn_brakings(out.pieces, road, threshold);
    cut_at(out.pieces, ends_of(out.brakings, end));
  } else {
    out.noise = noise_level(s);
    const double step = median_interval(s);
    const std::vector<double> gaps = gap_ends(s);
    if (channel) {
      out.brakings = sharpened(s, signalled(s, trace.brake_threshold), out.noise, std::max(step, 0.1));
    } else {
      std::vector<Piece> rough =
          fit_trace(s, {.noise = out.noise, .breaks = all_breaks({}, gaps), .close = {{0, end}}, .longest = 4});
      put_grade(s, rough);
      out.brakings = sharpened(s, demanded(rough, road, threshold), out.noise, std::max(2 * step, 0.3));
    }
    snap_to_ends(out.brakings, end, step);
    const std::vector<double> breaks = all_breaks(ends_of(out.brakings, end), gaps);
    out.pieces = fit_trace(s, {.noise = out.noise, .breaks = breaks, .close = out.brakings, .longest = 1e9});
    put_grade(s, out.pieces);
    if (!channel)
      std::erase_if(out.brakings, [&](const Interval& i) { return speed_loss(out.pieces, road, i) < kLeastSpeedLoss; });
  }
  double distance = 0;
  for (Piece& p : out.pieces) {
    p.distance = distance;
    distance += travelled_at(p, length_of(p));
    const double middle = (p.begin + p.end) / 2;
    for (std::size_t b = 0; b < out.brakings.size(); ++b)
      if (middle > out.brakings[b].begin && middle < out.brakings[b].end) p.braking = static_cast<int>(b);
  }
  return out;
}

}  // namespace hatring::session
