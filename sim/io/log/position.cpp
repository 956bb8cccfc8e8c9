// SPDX-License-Identifier: MIT
#include "sim/io/log/position.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "sim/io/earth.hpp"

namespace hatring::io {
namespace {

constexpr double kShortestLap = 10;  // passes closer than this are one, jitter over the line [s]
constexpr double kLongestHole = 3;   // between two fixes of one path [s]

struct Point {
  double x = 0, y = 0;
};

Point from_place(const LatLon& place, double latitude, double longitude) {
  const DegreeLengths degree = degree_lengths(place.latitude);
  return {(longitude - place.longitude) * degree.east, (latitude - place.latitude) * degree.north};
}

// The path between two fixes, seen from the place.
struct Stretch {
  double begin = 0, end = 0, speed = 0;
  Point a, b;

  [[nodiscard]] double length() const { return std::hypot(b.x - a.x, b.y - a.y); }
  [[nodiscard]] double nearest() const {
    const double dx = b.x - a.x, dy = b.y - a.y;
    const double share = std::clamp(-(a.x * dx + a.y * dy) / std::max(dx * dx + dy * dy, 1e-12), 0.0, 1.0);
    return std::hypot(a.x + share * dx, a.y + share * dy);
  }
};

}  // namespace

bool is_place(double latitude, double longitude) {
  return std::abs(latitude) <= 90 && std::abs(longitude) <= 180 && (latitude != 0 || longitude != 0);
}

double metres_between(double latitude_a, double longitude_a, double latitude_b, double longitude_b) {
  const Point p = from_place({(latitude_a + latitude_b) / 2, longitude_a}, latitude_b, longitude_b);
  const Point q = from_place({(latitude_a + latitude_b) / 2, longitude_a}, latitude_a, longitude_a);
  return std::hypot(p.x - q.x, p.y - q.y);
}

std::vector<double> passes_of(const std::vector<double>& time, const std::vector<LatLon>& position,
                              const std::vector<double>& speed, const LatLon& place) {
  std::vector<Stretch> near;
  std::size_t last = time.size();
  for (std::size_t i = 0; i < time.size(); ++i) {
    if (!is_place(position[i].latitude, position[i].longitude)) continue;
    if (last < time.size() && time[i] - time[last] <= kLongestHole) {
      const Stretch s{time[last], time[i], speed[i],
                      from_place(place, position[last].latitude, position[last].longitude),
                      from_place(place, position[i].latitude, position[i].longitude)};
      if (s.length() > 0 && s.nearest() < kPassReach) near.push_back(s);
    }
    last = i;
  }
  if (near.empty()) return {};
  const Stretch& fastest =
      *std::max_element(near.begin(), near.end(), [](const Stretch& a, const Stretch& b) { return a.speed < b.speed; });
  const Point way{(fastest.b.x - fastest.a.x) / fastest.length(), (fastest.b.y - fastest.a.y) / fastest.length()};
  const auto along = [&way](const Point& p) { return p.x * way.x + p.y * way.y; };
  std::vector<double> times;
  for (const Stretch& s : near) {
    const double before = along(s.a), after = along(s.b);
    if (before >= 0 || after < 0) continue;
    const double t = s.begin + before / (before - after) * (s.end - s.begin);
    if (times.empty() || t - times.back() >= kShortestLap) times.push_back(t);
  }
  return times;
}

}  // namespace hatring::io
