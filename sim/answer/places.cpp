// SPDX-License-Identifier: MIT
#include "sim/answer/places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <iterator>

namespace hatring::answer {

Place place_at(const session::Drive& drive, double time) {
  Place p{.time = time};
  for (const session::Span& s : drive.spans()) {
    if (time > s.end && &s != &drive.spans().back()) continue;
    p.lap = s.lap;
    p.span = s.label;
    p.lap_distance = drive.distance(time) - s.begin_distance;
    break;
  }
  return p;
}

Place whole_session(const session::Drive& drive) {
  return {.time = drive.duration(), .lap = 0, .span = kWholeSession, .lap_distance = 0};
}

std::string in_words(const Place& p) {
  if (p.lap > 0) return fmt::format("on {}{}", p.span.starts_with("lap") ? "" : "the ", p.span);
  if (p.span == kWholeSession) return "over the whole session";
  if (p.span == "parked") return "after parking";
  if (p.span == "stop" || p.span == "slow-down") return "on the way in";
  if (p.span == session::kRolling) return "while rolling";
  return fmt::format("during {}{}", p.span.starts_with("snub") ? "" : "the ", p.span);
}

Rows rows_of(const session::Span& span, const std::vector<double>& time) {
  const auto first = std::lower_bound(time.begin(), time.end(), span.begin);
  const auto last = std::upper_bound(first, time.end(), span.end);
  return {static_cast<std::size_t>(first - time.begin()), static_cast<std::size_t>(last - time.begin())};
}

namespace {

// The value that comes before all others in rows, and then its first index: four chains of comparisons at a time, which
// std::max_element, one chain, waits for.
template <class Before>
std::size_t foremost(const std::vector<double>& v, Rows r, Before before) {
  double best[4] = {v[r.first], v[r.first], v[r.first], v[r.first]};
  std::size_t i = r.first;
  for (; i + 4 <= r.last; i += 4)
    for (std::size_t k = 0; k < 4; ++k) best[k] = before(v[i + k], best[k]) ? v[i + k] : best[k];
  for (; i < r.last; ++i) best[0] = before(v[i], best[0]) ? v[i] : best[0];
  const double value = *std::min_element(std::begin(best), std::end(best), before);
  for (i = r.first; i + 1 < r.last && v[i] != value;) ++i;
  return i;
}

}  // namespace

std::size_t highest(const std::vector<double>& v, Rows r) {
  return foremost(v, r, std::greater<>());
}

std::size_t lowest(const std::vector<double>& v, Rows r) {
  return foremost(v, r, std::less<>());
}

}  // namespace hatring::answer
