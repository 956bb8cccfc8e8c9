// SPDX-License-Identifier: MIT
#include "sim/answer/braking_style.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace hatring::answer {
namespace {

using session::Drive;

constexpr double kTick = 0.02;          // between looks at a smoothed speed [s]
constexpr double kStep = 5;             // between places of a lap [m]
constexpr std::size_t kPoints = 1500;   // more than a page has pixels
constexpr double kShiftStep = 20;       // between tries [m]
constexpr double kLeastShift = 50;      // less is a matter of the line, not of where the lap was cut [m]
constexpr double kClearlyBetter = 0.5;  // of the mean square difference in speed

double length_of(const Drive& drive) {
  return drive.distance(drive.duration());
}

// Speed of a closed lap at any distance, by the nearest place before it.
double wrapped(const std::vector<double>& speed, double distance, double length) {
  const double share = distance / length - std::floor(distance / length);
  return speed[std::min(speed.size() - 1, static_cast<std::size_t>(share * static_cast<double>(speed.size())))];
}

double mean_square(const AgainstLap& a, double shift, double length) {
  double sum = 0;
  for (std::size_t i = 0; i < a.distance.size(); ++i)
    sum += std::pow(a.speed[i] - wrapped(a.other_speed, a.distance[i] + shift, length), 2);
  return sum;
}

// Laps that were cut at different places fit better when one is turned round the track.
double find_shift(const AgainstLap& a, double length) {
  const double as_they_lie = mean_square(a, 0, length);
  double best = 0, least = as_they_lie;
  for (double shift = kLeastShift; shift < length - kLeastShift; shift += kShiftStep)
    if (const double here = mean_square(a, shift, length); here < least) {
      least = here;
      best = shift;
    }
  if (!(least < kClearlyBetter * as_they_lie)) return 0;
  return best > length / 2 ? best - length : best;
}

std::vector<MatchedBraking> match(const std::vector<BrakingStyle>& one, const std::vector<BrakingStyle>& other,
                                  double stretch) {
  std::vector<MatchedBraking> out;
  std::size_t j = 0;
  for (std::size_t i = 0; i < one.size(); ++i) {
    // What the other brakes alone before this place.
    while (j < other.size() && stretch * other[j].point < one[i].point - kSamePlace) out.push_back({{}, j++, 0});
    const bool same = j < other.size() && std::abs(stretch * other[j].point - one[i].point) <= kSamePlace;
    out.push_back({i, same ? std::optional(j) : std::nullopt, 0});
    if (same) ++j;
  }
  while (j < other.size()) out.push_back({{}, j++, 0});
  return out;
}

}  // namespace

std::vector<BrakingStyle> braking_styles(const Drive& drive) {
  std::vector<BrakingStyle> out;
  const std::vector<session::Braking>& brakings = drive.brakings();
  out.reserve(brakings.size());
  std::size_t hint = 0;
  for (std::size_t i = 0; i < brakings.size(); ++i) {
    const session::Braking& b = brakings[i];
    BrakingStyle s{.point = b.lap_distance, .entry_speed = b.entry_speed, .exit_speed = b.exit_speed};
    s.mean = (b.entry_speed - b.exit_speed) / (b.end - b.begin);
    s.slowest = std::numeric_limits<double>::infinity();
    const double until = i + 1 < brakings.size() ? brakings[i + 1].begin : drive.duration();
    for (double t = b.begin; t < until; t += kTick) {
      const session::Moment m = drive.at(t, hint);
      if (t <= b.end) s.hardest = std::max(s.hardest, -m.acceleration);
      if (m.speed >= s.slowest) continue;
      s.slowest = m.speed;
      s.slowest_at = drive.distance(t) - b.begin_distance + b.lap_distance;
    }
    if (s.hardest > 0) s.rounding = std::clamp(1 - s.mean / s.hardest, 0.0, 1.0);
    out.push_back(s);
  }
  return out;
}

std::vector<double> places_along(const Drive& drive) {
  const double length = length_of(drive);
  const std::size_t n = std::clamp<std::size_t>(static_cast<std::size_t>(length / kStep), 2, kPoints);
  std::vector<double> out(n);
  for (std::size_t i = 0; i < n; ++i) out[i] = length * static_cast<double>(i) / static_cast<double>(n - 1);
  return out;
}

Along along(const Drive& drive, const std::vector<double>& distance) {
  Along out;
  out.time.reserve(distance.size());
  out.speed.reserve(distance.size());
  double before = 0, t = 0, reached = 0, reached_before = 0;
  std::size_t hint = 0;
  for (const double wanted : distance) {
    while (reached < wanted && t < drive.duration()) {
      before = t;
      reached_before = reached;
      t = std::min(t + kTick, drive.duration());
      reached = drive.distance(t);
    }
    const double share = reached > reached_before ? (wanted - reached_before) / (reached - reached_before) : 1;
    out.time.push_back(before + std::clamp(share, 0.0, 1.0) * (t - before));
    out.speed.push_back(drive.at(out.time.back(), hint).speed);
  }
  return out;
}

AgainstLap against(const Drive& one, const Drive& other) {
  AgainstLap out;
  const double length = length_of(one);
  out.stretch = length / length_of(other);
  out.distance = places_along(one);
  std::vector<double> there(out.distance);
  for (double& d : there) d /= out.stretch;
  Along mine = along(one, out.distance);
  const Along theirs = along(other, there);
  out.time = std::move(mine.time);
  out.speed = std::move(mine.speed);
  out.other_speed = theirs.speed;
  out.lost_at.reserve(there.size());
  for (std::size_t i = 0; i < there.size(); ++i) out.lost_at.push_back(out.time[i] - theirs.time[i]);
  out.lost = out.lost_at.back();
  out.shift = find_shift(out, length);

  const std::vector<BrakingStyle> ours = braking_styles(one), others = braking_styles(other);
  out.brakings = match(ours, others, out.stretch);
  const auto place = [&](const MatchedBraking& m) {
    const double mine_at = m.one ? ours[*m.one].point : std::numeric_limits<double>::infinity();
    return m.other ? std::min(mine_at, out.stretch * others[*m.other].point) : mine_at;
  };
  const auto lost_by = [&](double distance) {
    const auto at = std::lower_bound(out.distance.begin(), out.distance.end(), distance) - out.distance.begin();
    return out.lost_at[std::min(out.lost_at.size() - 1, static_cast<std::size_t>(at))];
  };
  for (std::size_t i = 0; i < out.brakings.size(); ++i) {
    const double end = i + 1 < out.brakings.size() ? place(out.brakings[i + 1]) : length;
    out.brakings[i].lost = lost_by(end) - lost_by(place(out.brakings[i]));
  }
  return out;
}

}  // namespace hatring::answer
