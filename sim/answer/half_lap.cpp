// SPDX-License-Identifier: MIT
#include "sim/answer/half_lap.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/session/error.hpp"

namespace hatring::answer {

std::vector<double> covered(const session::Trace& trace) {
  if (!trace.distance.empty()) {
    std::vector<double> out = trace.distance;
    for (double& d : out) d -= trace.distance.front();
    return out;
  }
  std::vector<double> out{0};
  for (std::size_t i = 1; i < trace.time.size(); ++i)
    out.push_back(out.back() + 0.5 * (trace.speed[i - 1] + trace.speed[i]) * (trace.time[i] - trace.time[i - 1]));
  return out;
}

session::Trace first_half(const session::Trace& trace) {
  const std::vector<double> road = covered(trace);
  const double half = road.back() / 2;
  const auto next = static_cast<std::size_t>(std::upper_bound(road.begin(), road.end(), half) - road.begin());
  if (!(half > 0) || next >= road.size())
    throw session::CaseError(fmt::format("trace '{}' does not move, so that it has no half", trace.name));
  const double w = (half - road[next - 1]) / (road[next] - road[next - 1]);
  session::Trace out = trace;
  out.name += ", first half";
  for (std::vector<double>* channel : {&out.time, &out.distance, &out.speed, &out.grade, &out.brake}) {
    if (channel->empty()) continue;
    const double last = (1 - w) * (*channel)[next - 1] + w * (*channel)[next];
    channel->resize(next);
    if (w > 0) channel->push_back(last);
  }
  return out;
}

}  // namespace hatring::answer
