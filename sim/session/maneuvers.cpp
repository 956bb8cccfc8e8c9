// SPDX-License-Identifier: MIT
#include "sim/session/maneuvers.hpp"

#include <algorithm>
#include <cmath>

#include "sim/session/cubic.hpp"

namespace hatring::session {

std::vector<Piece> ramp(double from, double to, double rate) {
  const double a = to > from ? rate : -rate, duration = (to - from) / a;
  return {hermite(0, duration, {from, a}, {to, a})};
}

std::vector<Piece> cruise(double speed, double duration) {
  return {hermite(0, duration, {speed, 0}, {speed, 0})};
}

std::vector<Piece> constant_power(double from, double to, double duration) {
  const double knee = std::max(from, to / 4);
  // v dv/dt = power: (knee - from) knee / power seconds at power / knee, then v^2 rises by 2 power a second.
  const double power = ((knee - from) * knee + (to * to - knee * knee) / 2) / duration;
  std::vector<Piece> out;
  if (knee > from) out.push_back(hermite(0, (knee - from) * knee / power, {from, power / knee}, {knee, power / knee}));
  const int parts = std::max(1, static_cast<int>(std::ceil(std::log(to / knee) / std::log(1.4))));
  double time = out.empty() ? 0 : out.back().end, v = knee;
  for (int i = 1; i <= parts; ++i) {
    const double next = i == parts ? to : knee * std::pow(to / knee, static_cast<double>(i) / parts);
    out.push_back(hermite(time, (next * next - v * v) / (2 * power), {v, power / v}, {next, power / next}));
    time = out.back().end;
    v = next;
  }
  return out;
}

}  // namespace hatring::session
