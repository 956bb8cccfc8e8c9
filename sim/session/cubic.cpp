// SPDX-License-Identifier: MIT
#include "sim/session/cubic.hpp"

#include <algorithm>

namespace hatring::session {

Piece hermite(double begin, double length, End first, End last) {
  const double h = length, rise = (last.speed - first.speed) / h;
  Piece p;
  p.begin = begin;
  p.end = begin + length;
  p.c[0] = first.speed;
  p.c[1] = first.acceleration;
  p.c[2] = (3 * rise - 2 * first.acceleration - last.acceleration) / h;
  p.c[3] = (first.acceleration + last.acceleration - 2 * rise) / (h * h);
  return p;
}

double time_to_travel(const Piece& p, double distance) {
  double low = 0, high = length_of(p);
  while (high - low > 1e-9) {
    const double middle = (low + high) / 2;
    (travelled_at(p, middle) < distance ? low : high) = middle;
  }
  return high;
}

Piece part_of(const Piece& p, double s0, double s1) {
  Piece q = p;
  q.begin = p.begin + s0;
  q.end = s1 == length_of(p) ? p.end : p.begin + s1;
  q.distance = p.distance + travelled_at(p, s0);
  q.c[0] = speed_at(p, s0);
  q.c[1] = acceleration_at(p, s0);
  q.c[2] = p.c[2] + 3 * p.c[3] * s0;
  q.grade0 = grade_at(p, s0);
  q.grade1 = grade_at(p, s1);
  return q;
}

void cut_at(std::vector<Piece>& pieces, const std::vector<double>& times) {
  for (const double t : times) {
    const auto it = std::find_if(pieces.begin(), pieces.end(),
                                 [t](const Piece& p) { return t > p.begin + 1e-6 && t < p.end - 1e-6; });
    if (it == pieces.end()) continue;
    const Piece whole = *it;
    *it = part_of(whole, 0, t - whole.begin);
    pieces.insert(it + 1, part_of(whole, t - whole.begin, length_of(whole)));
  }
}

Piece at_pace(const Piece& p, double pace) {
  Piece q = p;
  q.begin = p.begin / pace;
  q.end = p.end / pace;
  double factor = pace;
  for (double& c : q.c) {
    c *= factor;
    factor *= pace;
  }
  return q;
}

}  // namespace hatring::session
