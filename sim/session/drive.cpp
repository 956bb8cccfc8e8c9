// SPDX-License-Identifier: MIT
#include "sim/session/drive.hpp"

#include <algorithm>
#include <cmath>

#include "sim/session/course.hpp"
#include "sim/session/cubic.hpp"
#include "sim/session/ledger.hpp"

namespace hatring::session {
namespace {

constexpr double kCloseRestarts = 1e-3;  // restarts closer than this are one [s]

}  // namespace

double BrakeRamp::level(double time) const {
  double up = 1, down = 1;
  if (time < on_end) up = time <= on_begin ? 0 : smoothstep((time - on_begin) / (on_end - on_begin));
  if (time > off_begin) down = time >= off_end ? 0 : 1 - smoothstep((time - off_begin) / (off_end - off_begin));
  return up * down;
}

Drive::Drive(const Case& c) : road_(road_of(c)) {
  Course course = compose(c, road_);
  Ledger ledger = make_ledger(course, road_, c.car.tyre_slip_share, c.brakes.rise_time);
  pieces_ = std::move(course.pieces);
  spans_ = std::move(course.spans);
  holds_ = std::move(course.holds);
  airs_ = std::move(course.airs);
  brakings_ = std::move(ledger.brakings);
  ramps_ = std::move(ledger.ramps);
  energy_ = ledger.energy;
  fixed_share_ = c.brakes.front_share;
  hot_wheel_ = c.brakes.hot_side_factor / 2;
  find_neighbours();
  find_restarts(course.bounds);
}

void Drive::find_neighbours() {
  near_.resize(pieces_.size());
  std::size_t b = 0, h = 0;  // the first ramp and the first bench that end after the piece begins
  for (std::size_t i = 0; i < pieces_.size(); ++i) {
    const Piece& p = pieces_[i];
    while (h < holds_.size() && holds_[h].end <= p.begin) ++h;
    if (h < holds_.size() && holds_[h].begin <= p.begin) near_[i].hold = static_cast<int>(h);
    while (b < ramps_.size() && ramps_[b].off_end <= p.begin) ++b;
    for (std::size_t k = b; k < ramps_.size() && ramps_[k].on_begin < p.end; ++k)
      (brakings_[k].begin >= p.end ? near_[i].after : near_[i].before) = static_cast<int>(k);
  }
}

void Drive::find_restarts(const std::vector<double>& bounds) {
  std::vector<double> soft;
  for (const BrakeRamp& r : ramps_) soft.insert(soft.end(), {r.on_begin, r.on_end, r.off_begin, r.off_end});
  for (std::size_t i = 1; i < pieces_.size(); ++i) {
    const Piece &a = pieces_[i - 1], &b = pieces_[i];
    // The slope of the power breaks here even where the power does not, and the solver's error estimate would not see
    // it.
    if (b.braking >= 0 && a.braking == b.braking) soft.push_back(b.begin);
  }
  std::sort(soft.begin(), soft.end());
  // Bounds are where the load jumps, so they stay as they are; ramp edges give way to them.
  std::vector<double> hard = bounds;
  std::sort(hard.begin(), hard.end());
  hard.erase(std::unique(hard.begin(), hard.end()), hard.end());
  restarts_.clear();
  std::size_t k = 0;
  for (const double bound : hard) {
    for (; k < soft.size() && soft[k] < bound; ++k)
      if (soft[k] > restarts_.back() + kCloseRestarts && soft[k] < bound - kCloseRestarts) restarts_.push_back(soft[k]);
    if (!restarts_.empty() && bound - restarts_.back() < kCloseRestarts && bound != hard.back()) continue;
    if (restarts_.size() > 1 && bound - restarts_.back() < kCloseRestarts) restarts_.pop_back();
    restarts_.push_back(bound);
  }
}

std::size_t Drive::find(double time, std::size_t hint) const {
  const std::size_t last = pieces_.size() - 1;
  std::size_t i = std::min(hint, last);
  for (int tries = 0; tries < 4; ++tries) {
    if (time < pieces_[i].begin && i > 0)
      --i;
    else if (time >= pieces_[i].end && i < last)
      ++i;
    else
      return i;
  }
  const auto it =
      std::upper_bound(pieces_.begin(), pieces_.end(), time, [](double t, const Piece& p) { return t < p.begin; });
  return it == pieces_.begin() ? 0 : static_cast<std::size_t>(it - pieces_.begin()) - 1;
}

Moment Drive::at(double time, std::size_t& hint) const {
  const std::size_t i = hint = find(time, hint);
  const Piece& p = pieces_[i];
  const double s = std::clamp(time - p.begin, 0.0, length_of(p));
  Moment m;
  m.speed = std::max(0.0, speed_at(p, s));
  m.acceleration = acceleration_at(p, s);
  const Near& n = near_[i];
  if (n.hold >= 0) {
    const BenchHeat& h = holds_[static_cast<std::size_t>(n.hold)];
    m.applied = h.from > 0 || h.to > 0 ? 1 : 0;
  } else if (p.braking >= 0) {
    const BrakeRamp& r = ramps_[static_cast<std::size_t>(p.braking)];
    m.applied = r.level(time);
    m.brake_power =
        r.scale * m.applied * m.speed * std::max(0.0, brake_demand(road_, m.speed, m.acceleration, grade_at(p, s)));
  } else if (n.after >= 0 && time > ramps_[static_cast<std::size_t>(n.after)].on_begin) {
    const BrakeRamp& r = ramps_[static_cast<std::size_t>(n.after)];
    m.applied = r.level(time);
    m.brake_power = r.scale * m.applied * r.power_on;
  } else if (n.before >= 0) {
    const BrakeRamp& r = ramps_[static_cast<std::size_t>(n.before)];
    m.applied = r.level(time);
    m.brake_power = r.scale * m.applied * r.power_off;
  }
  return m;
}

double Drive::wheel_heat(Axle axle, double time, const Moment& m) const {
  // The bench in force: the last one that has begun, if it has not ended (the session's last moment still counts).
  const auto it =
      std::upper_bound(holds_.begin(), holds_.end(), time, [](double t, const BenchHeat& h) { return t < h.begin; });
  if (it != holds_.begin()) {
    const BenchHeat& h = *(it - 1);
    if (time < h.end || h.end >= duration()) {
      if (!(axle == Axle::front ? h.front : h.rear)) return 0;
      return h.from + (h.to - h.from) * std::clamp((time - h.begin) / (h.end - h.begin), 0.0, 1.0);
    }
  }
  if (m.brake_power == 0) return 0;
  const double front = front_share(time);
  return m.brake_power * hot_wheel_ * (axle == Axle::front ? front : 1 - front);
}

bool Drive::as(const Drive& other) const {
  return this == &other || (pieces_ == other.pieces_ && near_ == other.near_ && ramps_ == other.ramps_ &&
                            holds_ == other.holds_ && road_ == other.road_ && front_share_ == other.front_share_ &&
                            fixed_share_ == other.fixed_share_ && hot_wheel_ == other.hot_wheel_);
}

double Drive::distance(double time) const {
  const Piece& p = pieces_[find(time, 0)];
  return p.distance + travelled_at(p, std::clamp(time - p.begin, 0.0, length_of(p)));
}

}  // namespace hatring::session
