// SPDX-License-Identifier: MIT
#include "sim/answer/share.hpp"

#include <algorithm>
#include <cmath>

#include "sim/answer/pedal_line.hpp"
#include "sim/answer/places.hpp"

namespace hatring::answer {
namespace {

struct Knots {
  std::vector<double> time, share;
};

// Moments spread over every braking.
template <class Share>
Knots over_brakings(const session::Drive& drive, Share share_at) {
  constexpr int kParts = 8;
  Knots k;
  std::size_t hint = 0;
  for (const session::Braking& b : drive.brakings())
    for (int i = 0; i <= kParts; ++i) {
      const double t = b.begin + (b.end - b.begin) * i / kParts;
      // The end itself belongs to what follows; just before it the braking still holds.
      const session::Moment m = drive.at(i == kParts ? std::nextafter(t, b.begin) : t, hint);
      k.time.push_back(t);
      k.share.push_back(share_at(m));
    }
  return k;
}

models::Curve curve(Knots k) {
  return {std::move(k.time), std::move(k.share)};
}

class HydraulicShare {
 public:
  HydraulicShare(const session::Case& c, const models::Hydraulics& pedal)
      : pedal_(pedal), front_(c, session::Axle::front), rear_(c, session::Axle::rear), slip_(c.car.tyre_slip_share) {}

  [[nodiscard]] bool applicable() const { return front_.applicable() && rear_.applicable(); }
  // For pads at these temperatures; the pedal force that brakes as asked is found by halving.
  [[nodiscard]] double operator()(const session::Moment& m, double pad_front, double pad_rear) const {
    const double speed = std::max(m.speed, 1.0), wanted = m.brake_power / (speed * (1 - slip_));
    double low = 0, high = kStrongest, front = 0, rear = 0;
    constexpr int kHalvings = 50;
    for (int i = 0; i < kHalvings; ++i) {
      const double effort = (low + high) / 2;
      const models::LinePressures p = pedal_.pressures(effort);
      front = front_.force(p.front, speed, pad_front);
      rear = rear_.force(p.rear, speed, pad_rear);
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

double middle_of_window(const session::Pads& pads) {
  return 0.5 * (pads.window_low + pads.window_high);
}

}  // namespace

BrakeBalance settle_share(const session::Case& c, session::Drive& drive, const History& history,
                          const std::function<void()>& record) {
  BrakeBalance out{.law = "fixed"};
  const std::optional<models::Hydraulics> pedal = pedal_of(c);
  const bool braked = !drive.brakings().empty();
  if (c.brakes.hydraulic.given && pedal && braked) {
    const HydraulicShare share(c, *pedal);
    if (share.applicable()) {
      out.law = "hydraulic";
      drive.set_front_share(curve(over_brakings(drive, [&](const session::Moment& m) {
        return share(m, middle_of_window(c.brakes.front.pads), middle_of_window(c.brakes.rear.pads));
      })));
      out.settled = false;
      for (out.runs = 1; out.runs <= kShareRuns; ++out.runs) {
        record();
        const auto pad = [&](const AxleHistory& axle, std::size_t i) {
          return 0.5 * (axle.find("temperature", "pad_outboard")->values[i] +
                        axle.find("temperature", "pad_inboard")->values[i]);
        };
        Knots k;
        std::size_t hint = 0;
        out.change = 0;
        for (const session::Braking& b : drive.brakings()) {
          const Rows rows = rows_of({.begin = b.begin, .end = b.end}, history.time);
          for (std::size_t i = rows.first; i < rows.last; ++i) {
            const double t = history.time[i];
            const session::Moment m = drive.at(t, hint);
            if (m.brake_power <= 0 || (!k.time.empty() && t <= k.time.back())) continue;
            k.time.push_back(t);
            k.share.push_back(share(m, pad(history.front, i), pad(history.rear, i)));
            out.change = std::max(out.change, std::abs(k.share.back() - drive.front_share(t)));
          }
        }
        out.settled = out.change < kShareTolerance;
        if (out.settled || k.time.empty() || out.runs == kShareRuns) break;
        drive.set_front_share(curve(std::move(k)));
      }
      return out;
    }
  }
  if (c.brakes.ideal_share && braked) {
    out.law = "ideal";
    drive.set_front_share(curve(over_brakings(drive, [&](const session::Moment& m) {
      return models::ideal_front_share(c.car.front_mass_fraction, c.car.cg_height, c.car.wheelbase, -m.acceleration);
    })));
  }
  record();
  return out;
}

}  // namespace hatring::answer
