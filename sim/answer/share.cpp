// SPDX-License-Identifier: MIT
#include "sim/answer/share.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "sim/answer/pedal_line.hpp"
#include "sim/answer/places.hpp"

namespace hatring::answer {
namespace {

// Moments spread over every braking of the part.
template <class Share>
ShareKnots over_brakings(const session::Drive& drive, const SharePart& part, Share share_at) {
  constexpr int kParts = 8;
  ShareKnots k;
  std::size_t hint = 0;
  for (const session::Braking& b : drive.brakings()) {
    const double begin = std::max(b.begin, part.begin), end = std::min(b.end, part.end);
    if (begin >= end) continue;
    for (int i = 0; i <= kParts; ++i) {
      const double t = begin + (end - begin) * i / kParts;
      // The end itself belongs to what follows; just before it the braking still holds.
      const session::Moment m = drive.at(i == kParts ? std::nextafter(t, begin) : t, hint);
      if (!k.time.empty() && t <= k.time.back()) continue;
      k.time.push_back(t);
      k.share.push_back(share_at(m));
    }
  }
  return k;
}

ShareKnots joined(ShareKnots out, const ShareKnots& more) {
  for (std::size_t i = 0; i < more.time.size(); ++i) {
    if (!out.time.empty() && more.time[i] <= out.time.back()) continue;
    out.time.push_back(more.time[i]);
    out.share.push_back(more.share[i]);
  }
  return out;
}

void set(session::Drive& drive, const ShareKnots& k) {
  if (!k.time.empty()) drive.set_front_share({k.time, k.share});
}

class HydraulicShare {
 public:
  HydraulicShare(const session::Case& c, const models::Hydraulics& pedal)
      : pedal_(pedal), front_(c, session::Axle::front), rear_(c, session::Axle::rear), slip_(c.car.tyre_slip_share) {}

  [[nodiscard]] bool applicable() const { return front_.applicable() && rear_.applicable(); }
  // For faces at these temperatures; the pedal force that brakes as asked is found by halving.
  [[nodiscard]] double operator()(const session::Moment& m, double front_face, double rear_face) const {
    const double speed = std::max(m.speed, 1.0), wanted = m.brake_power / (speed * (1 - slip_));
    double low = 0, high = kStrongest, front = 0, rear = 0;
    constexpr int kHalvings = 50;
    for (int i = 0; i < kHalvings; ++i) {
      const double effort = (low + high) / 2;
      const models::LinePressures p = pedal_.pressures(effort);
      front = front_.force(p.front, speed, front_face);
      rear = rear_.force(p.rear, speed, rear_face);
      (front + rear < wanted ? low : high) = effort;
    }
    return front / (front + rear);
  }

 private:
  static constexpr double kStrongest = 1e5;  // [N]
  models::Hydraulics pedal_;
  PedalLine front_, rear_;
  double slip_;
};

std::optional<HydraulicShare> hydraulic_share(const session::Case& c) {
  if (c.brakes.share_law != session::ShareLaw::hydraulic) return std::nullopt;
  const std::optional<models::Hydraulics> pedal = pedal_of(c);
  if (!pedal) return std::nullopt;
  HydraulicShare share(c, *pedal);
  return share.applicable() ? std::optional(share) : std::nullopt;
}

double middle_of_window(const session::Pads& pads) {
  return 0.5 * (pads.window_low + pads.window_high);
}

}  // namespace

double mean_face(const AxleHistory& axle, std::size_t row) {
  return 0.5 * (axle.find("temperature", "ring_face_outboard")->values[row] +
                axle.find("temperature", "ring_face_inboard")->values[row]);
}

std::pair<std::string, ShareKnots> guess_share(const session::Case& c, session::Drive& drive, const SharePart& part) {
  std::pair<std::string, ShareKnots> out{"fixed", part.before};
  if (const std::optional<HydraulicShare> share = hydraulic_share(c)) {
    const double front = part.front_face.value_or(middle_of_window(c.brakes.front.pads)),
                 rear = part.rear_face.value_or(middle_of_window(c.brakes.rear.pads));
    out.first = "hydraulic";
    out.second = joined(part.before,
                        over_brakings(drive, part, [&](const session::Moment& m) { return (*share)(m, front, rear); }));
  } else if (c.brakes.share_law == session::ShareLaw::ideal) {
    out.first = "ideal";
    out.second = joined(part.before, over_brakings(drive, part, [&](const session::Moment& m) {
                          return models::ideal_front_share(c.car.front_mass_fraction, c.car.cg_height, c.car.wheelbase,
                                                           -m.acceleration);
                        }));
  }
  set(drive, out.second);
  return out;
}

ShareSettling::ShareSettling(const session::Case& c, session::Drive& drive, SharePart part)
    : case_(c), part_(std::move(part)) {
  std::tie(balance_.law, knots_) = guess_share(c, drive, part_);
  balance_.runs = 0;
}

bool ShareSettling::again(session::Drive& drive, const History& history) {
  ++balance_.runs;
  const std::optional<HydraulicShare> share = hydraulic_share(case_);
  if (!share || knots_.time.size() <= part_.before.time.size()) return false;
  ShareKnots k;
  std::size_t hint = 0;
  balance_.change = 0;
  for (const session::Braking& b : drive.brakings()) {
    if (b.end <= part_.begin || b.begin >= part_.end) continue;
    const Rows rows = rows_of({.begin = b.begin, .end = b.end}, history.time);
    for (std::size_t i = rows.first; i < rows.last; ++i) {
      const double t = history.time[i];
      const session::Moment m = drive.at(t, hint);
      if (m.brake_power <= 0 || (!k.time.empty() && t <= k.time.back())) continue;
      k.time.push_back(t);
      k.share.push_back(share->operator()(m, mean_face(history.front, i), mean_face(history.rear, i)));
      balance_.change = std::max(balance_.change, std::abs(k.share.back() - drive.front_share(t)));
    }
  }
  balance_.settled = balance_.change < kShareTolerance;
  if (balance_.settled || k.time.empty() || balance_.runs == kShareRuns) return false;
  knots_ = joined(part_.before, k);
  set(drive, knots_);
  return true;
}

BrakeBalance settle_share(const session::Case& c, session::Drive& drive, const History& history,
                          const std::function<void()>& record, const SharePart& part, ShareKnots* known) {
  ShareSettling settling(c, drive, part);
  do record();
  while (settling.again(drive, history));
  if (known != nullptr) *known = settling.knots();
  return settling.balance();
}

}  // namespace hatring::answer
