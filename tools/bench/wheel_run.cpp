// SPDX-License-Identifier: MIT
#include "tools/bench/wheel_run.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/network/assemble.hpp"
#include "tests/sim/network/track_case.hpp"
#include "tests/sim/session/synthetic_lap.hpp"

namespace hatring::bench {
namespace {

session::Case bench_case(session::Mesh mesh) {
  session::Case c = test::track_case(mesh);
  c.traces = {test::log_lap(test::drive_lap(c), {.jitter = 0.05, .channel = true})};
  c.session = {session::DriveStep{.kind = session::LapKind::out_lap, .pace = 0.75},
               session::DriveStep{.kind = session::LapKind::hot, .laps = 12, .pace = 0.92},
               session::DriveStep{.kind = session::LapKind::cooldown, .pace = 0.7}};
  return c;
}

}  // namespace

WheelRun::WheelRun(session::Mesh mesh)
    : drive_(bench_case(mesh)), network_(network::assemble(bench_case(mesh), session::Axle::front, 65)) {
  for (int i = 0; 0.1 * i < drive_.duration(); ++i) outputs_.push_back(0.1 * i);
}

solve::WheelSystem WheelRun::system() const {
  return {network_, [this, hint = std::size_t{0}](double t) mutable {
            const session::Moment m = drive_.at(t, hint);
            return solve::Load{m.speed, drive_.wheel_heat(session::Axle::front, t, m), m.applied};
          }};
}

double Tape::error(const Tape& reference) const {
  if (next_ != values_.cols() || reference.next_ != values_.cols()) return std::numeric_limits<double>::infinity();
  const double worst = (values_ - reference.values_).lpNorm<Eigen::Infinity>();
  return values_.allFinite() ? worst : std::numeric_limits<double>::infinity();
}

}  // namespace hatring::bench
