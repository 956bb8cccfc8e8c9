// SPDX-License-Identifier: MIT
#include "sim/answer/places.hpp"

#include <fmt/format.h>

#include <Eigen/Core>
#include <algorithm>

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

auto in_rows(const std::vector<double>& v, Rows r) {
  return Eigen::Map<const Eigen::ArrayXd>(v.data() + r.first, static_cast<Eigen::Index>(r.last - r.first));
}

// A second pass is quicker than keeping the index in the first, which then has no vectors.
std::size_t first_of(double value, const std::vector<double>& v, Rows r) {
  std::size_t i = r.first;
  while (i + 1 < r.last && v[i] != value) ++i;
  return i;
}

}  // namespace

std::size_t highest(const std::vector<double>& v, Rows r) {
  return first_of(in_rows(v, r).maxCoeff(), v, r);
}

std::size_t lowest(const std::vector<double>& v, Rows r) {
  return first_of(in_rows(v, r).minCoeff(), v, r);
}

}  // namespace hatring::answer
