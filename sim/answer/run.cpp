// SPDX-License-Identifier: MIT
#include "sim/answer/run.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/answer/running.hpp"
#include "sim/session/error.hpp"

namespace hatring::answer {
namespace {

int lap_at(const std::vector<session::Span>& spans, std::size_t& hint, double t) {
  while (hint + 1 < spans.size() && t >= spans[hint].end) ++hint;
  return spans.empty() ? 0 : spans[hint].lap;
}

}  // namespace

double highest_speed(const session::Drive& drive) {
  double v = 0;
  for (const session::Piece& p : drive.pieces())
    for (const double part : {0.0, 0.25, 0.5, 0.75, 1.0}) {
      const double s = part * (p.end - p.begin);
      v = std::max(v, p.c[0] + s * (p.c[1] + s * (p.c[2] + s * p.c[3])));
    }
  return v;
}

std::vector<double> record_times(const session::Case& c, const session::Drive& drive) {
  constexpr double kMostRows = 2e6;  // a gigabyte or two
  std::vector<double> times;
  double rows = 0;
  for (const session::Span& span : drive.spans()) {
    const bool quiet = span.phase == session::Phase::parked || span.label == session::kRolling;
    const double step = quiet ? c.output.parked_interval : c.output.interval;
    rows += (span.end - span.begin) / step;
    if (rows > kMostRows)
      throw session::CaseError(fmt::format(
          "output.interval: the session would be recorded at more than {:.0f} moments; take longer intervals",
          kMostRows));
    // Counted, not added up, so that times do not drift over a long session.
    for (long i = 0;; ++i) {
      const double t = span.begin + static_cast<double>(i) * step;
      if (t > span.end - 0.01 * step) break;
      times.push_back(t);
    }
  }
  times.push_back(drive.duration());
  return times;
}

void fill_course(const session::Drive& drive, History& h) {
  std::size_t piece = 0, span = 0;
  for (const double t : h.time) {
    h.speed.push_back(drive.at(t, piece).speed);
    h.distance.push_back(drive.distance(t));
    h.lap.push_back(lap_at(drive.spans(), span, t));
  }
}

Run run(const session::Case& c, const RunOptions& options) {
  Running running(c, options);
  do record({&running}, options);
  while (running.again());
  return running.finish();
}

}  // namespace hatring::answer
