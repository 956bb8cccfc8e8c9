// SPDX-License-Identifier: MIT
#include "sim/session/lap_join.hpp"

#include <algorithm>
#include <cmath>

#include "sim/session/cubic.hpp"

namespace hatring::session {
namespace {

constexpr int kParts = 8;        // the longest redrawn piece is the join over this
constexpr double kStill = 1e-6;  // round-off of a speed of zero [m/s]

// Time after the begin of a piece at which it has covered `distance`; the speed never turns negative, so bisection will
// do.
double time_to(const Piece& p, double distance) {
  double lo = 0, hi = length_of(p);
  for (int i = 0; i < 60; ++i) {
    const double s = (lo + hi) / 2;
    (travelled_at(p, s) < distance ? lo : hi) = s;
  }
  return (lo + hi) / 2;
}

class Blend {
 public:
  Blend(double own, double wanted, double length)
      : length_(length),
        faster_(wanted > own),
        ratio_(faster_ ? 1 : wanted / own),
        gain_(wanted * wanted - own * own) {}

  // Speed of the redrawn lap and its acceleration w dw/dx, which needs no division by a speed that may be zero.
  End operator()(double x, End own) const {
    const double y = std::clamp(x / length_, 0.0, 1.0), left = 1 - smoothstep(y), slope = -6 * y * (1 - y) / length_;
    const double v = own.speed, a = own.acceleration;
    if (faster_) return {std::sqrt(std::max(0.0, v * v + gain_ * left)), a + gain_ * slope / 2};
    const double f = 1 + (ratio_ - 1) * left;
    return {v * f, f * f * a + f * v * v * (ratio_ - 1) * slope};
  }

 private:
  double length_;
  bool faster_;
  double ratio_, gain_;
};

double join_length(const std::vector<Piece>& lap) {
  return std::min(kJoinDistance, (lap.back().distance + travelled_at(lap.back(), length_of(lap.back()))) / 3);
}

// Pieces up to the end of the join, short enough for the blend to be followed; then the rest as it is.
std::vector<Piece> divided(const std::vector<Piece>& lap, double length) {
  std::vector<Piece> out;
  for (const Piece& p : lap) {
    const double h = length_of(p), inside = std::min(length - p.distance, travelled_at(p, h));
    if (inside <= 1e-6) {
      out.push_back(p);
      continue;
    }
    const int parts = std::max(1, static_cast<int>(std::ceil(inside / length * kParts)));
    double s = 0;
    for (int i = 1; i <= parts; ++i) {
      const bool whole = i == parts && inside > travelled_at(p, h) - 1e-6;
      const double next = whole ? h : time_to(p, inside * i / parts);
      if (next > s) out.push_back(part_of(p, s, next));
      s = std::max(s, next);
    }
    if (s < h) out.push_back(part_of(p, s, h));
  }
  return out;
}

}  // namespace

bool has_room_to_join(const std::vector<Piece>& lap) {
  const double length = join_length(lap);
  return std::none_of(lap.begin(), lap.end(), [length](const Piece& p) {
    const double h = length_of(p);
    return p.distance + travelled_at(p, h) < length && speed_at(p, h) < kStanding;
  });
}

std::vector<Piece> joined(const std::vector<Piece>& lap, double speed) {
  const double own = lap.front().c[0];
  if (std::abs(own - speed) < 1e-9) return lap;
  const double length = join_length(lap);
  const Blend blend(own, speed, length);
  std::vector<Piece> out;
  double time = 0;
  for (const Piece& p : divided(lap, length)) {
    const double h = length_of(p), road = travelled_at(p, h);
    Piece q = p;
    const End first = blend(p.distance, {p.c[0], p.c[1]});
    const End last = blend(p.distance + road, {speed_at(p, h), acceleration_at(p, h)});
    if (p.distance < length - 1e-6 && road > 0 && first.speed + last.speed > 0) {
      // A cubic between two such ends covers (w0 + w1)/2 t + (a0 - a1)/12 t^2 in the time t.
      const double half = (first.speed + last.speed) / 2, bow = (first.acceleration - last.acceleration) / 12;
      const double root = half * half + 4 * bow * road;
      const double t = 2 * road / (half + std::sqrt(std::max(0.0, root)));
      const bool forward =
          3 * first.speed + first.acceleration * t >= -kStill && 3 * last.speed - last.acceleration * t >= -kStill;
      if (root > 0 && forward) {
        q = hermite(0, t, first, last);
      } else {  // no such cubic moves forward all the way (a stop in the middle of the join): a straight line
        const double line = std::min(road / half, 10 * h), rate = (last.speed - first.speed) / line;
        q = hermite(0, line, {first.speed, rate}, {last.speed, rate});
      }
      q.distance = p.distance;
      q.grade0 = p.grade0;
      q.grade1 = p.grade1;
      q.braking = p.braking;
    }
    const double lasts = length_of(q);
    q.begin = time;
    q.end = time += lasts;
    out.push_back(q);
  }
  return out;
}

}  // namespace hatring::session
