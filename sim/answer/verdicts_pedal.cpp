// SPDX-License-Identifier: MIT
// Verdicts on pads, pedal and the share of the axles.
#include <fmt/format.h>

#include <cmath>
#include <tuple>

#include "sim/answer/pedal.hpp"
#include "sim/answer/places.hpp"
#include "sim/answer/verdict_rules.hpp"

namespace hatring::answer {
namespace {

struct Judge {
  const session::Case& c;
  const session::Drive& drive;
  const std::vector<Corner>& corners;
  std::vector<Verdict> out;

  // A value that must stay below its limit; `near` is the margin that counts as near.
  void below(const char* axle, const char* key, const char* part, std::string what, double value, double limit,
             const char* unit, double near, const Place& place, std::string reason, std::string advice) {
    judged(axle, key, part, std::move(what), value, limit, limit - value, unit, near, place, std::move(reason),
           std::move(advice));
  }
  // One that must stay above it.
  void above(const char* axle, const char* key, const char* part, std::string what, double value, double limit,
             const char* unit, double near, const Place& place, std::string reason, std::string advice) {
    judged(axle, key, part, std::move(what), value, limit, value - limit, unit, near, place, std::move(reason),
           std::move(advice));
  }
  // The last verdict is over its limit since the first braking whose value is.
  template <class Value>
  void since_first(Value value) {
    Verdict& v = out.back();
    if (v.level != Level::exceeded) return;
    const auto first =
        std::find_if(corners.begin(), corners.end(), [&](const Corner& corner) { return value(corner) > v.limit; });
    if (first != corners.end()) v.since = first->place;
  }
  [[nodiscard]] Place end() const { return whole_session(drive); }

 private:
  void judged(const char* axle, const char* key, const char* part, std::string what, double value, double limit,
              double margin, const char* unit, double near, const Place& place, std::string reason,
              std::string advice) {
    Verdict v{.axle = axle,
              .key = key,
              .part = part,
              .what = std::move(what),
              .level = level_of(margin, near),
              .value = value,
              .limit = limit,
              .margin = margin,
              .scale = limit,
              .unit = unit,
              .place = place,
              .reason = std::move(reason)};
    if (v.level != Level::within) v.advice = std::move(advice);
    out.push_back(std::move(v));
  }
};

// Shares of a window are near their limit from half of it on: they are counts of time, not temperatures.
constexpr double kNearShare = 0.5;

void judge_friction(Judge& r, const char* axle, const AxleAnswers& a, CornerAxle Corner::*side,
                    const session::Pads& pads) {
  const session::Limits& l = r.c.limits;
  if (a.pedal.applicable && a.pedal.reference_friction > 0 && l.fade > 0) {
    r.below(axle, "fade", "pad fade", "loss of friction in one braking against the pad's reference", a.pedal.fade,
            l.fade, "share", l.near, a.pedal.fade_place, limit_reason(r.c, "fade"),
            "Brake earlier, run fewer hot laps in a row, or choose a compound for higher temperatures.");
    r.since_first([&](const Corner& corner) { return hot_fade(corner.*side, pads); });
  }
  if (a.pedal.applicable && l.pedal_growth > 0) {
    r.below(axle, "pedal_growth", "pedal pressure", "rise at the same corner since the first hot lap", a.pedal.growth,
            l.pedal_growth, "share", l.near, a.pedal.growth_place, limit_reason(r.c, "pedal_growth"),
            "The pedal gets harder lap by lap: expect it, and cool the brakes before it does.");
    r.since_first([&](const Corner& corner) { return (corner.*side).growth; });
  }
}

void judge_window(Judge& r, const char* axle, const AxleAnswers& a) {
  const session::Limits& l = r.c.limits;
  const double all = a.pads.below + a.pads.inside + a.pads.above;
  if (!(all > 0) || !(l.cold_share > 0)) return;
  r.below(axle, "cold_share", "pads too cold", "share of the braking time below the pad's window", a.pads.below / all,
          l.cold_share, "share", kNearShare * l.cold_share, r.end(), limit_reason(r.c, "cold_share"),
          "Weak bite and glazing: choose a compound that works colder, or close the ducts.");
  // Cold pads bite badly; they are no danger that outweighs others.
  if (r.out.back().level == Level::exceeded) r.out.back().level = Level::near;
  r.below(axle, "hot_share", "pads too hot", "share of the braking time above the pad's window", a.pads.above / all,
          l.hot_share, "share", kNearShare * l.hot_share, r.end(), limit_reason(r.c, "hot_share"),
          "Choose a compound for higher temperatures, or run fewer hot laps in a row.");
}

// Near when another session like this one would pass the minimum.
void judge_wear(Judge& r, const char* axle, const AxleAnswers& a) {
  const char* reason = "minimum thickness in the config; wear is a rough figure";
  if (a.pads.minimum > 0) {
    r.above(axle, "pad_left", "pad wear", "friction layer left after the session", a.pads.left, a.pads.minimum, "m",
            a.pads.worn, r.end(), reason, "Measure the pads; change them before the next session.");
    if (!std::isnan(a.pads.worn_out_at)) r.out.back().since = place_at(r.drive, a.pads.worn_out_at);
  }
  if (a.pads.ring_minimum > 0)
    r.above(axle, "ring_left", "ring wear", "ring thickness left after the session", a.pads.ring_left,
            a.pads.ring_minimum, "m", a.pads.ring_worn, r.end(), reason,
            "Measure the ring; below its minimum it is scrap, in axle pairs.");
}

void judge_bedding(Judge& r, const char* axle, const AxleAnswers& a) {
  const BeddingAnswer& b = a.bedding;
  if (!b.applicable) return;
  const BeddingStop* hottest = &b.stops.front();
  for (const BeddingStop& s : b.stops)
    if (s.face_peak > hottest->face_peak) hottest = &s;
  r.below(axle, "bedding", "bedding ceiling", "hottest stop against the plan's ceiling", hottest->face_peak, b.ceiling,
          "K", 0, hottest->place, "ceiling of the bedding plan", "Brake lighter or wait longer between the stops.");
  if (hottest->face_peak < b.band_low)
    r.above(axle, "bedding", "bedding band", "hottest stop against the plan's band", hottest->face_peak, b.band_low,
            "K", 0, hottest->place, "band of the bedding plan",
            "Nothing would transfer: brake harder, from a higher speed, or wait less between the stops.");
}

void judge_car(Judge& r, const Answers& a) {
  const session::Limits& l = r.c.limits;
  const PedalCar& p = a.pedal;
  const char* lead = a.front.pedal.highest_pressure > 0 ? "front" : "rear";
  if (p.effort_known && p.largest_effort > 0 && !p.corners.empty()) {
    r.below(lead, "effort", "pedal effort", "highest pedal force that the trace asks for", p.highest_effort,
            p.largest_effort, "N", l.near * p.largest_effort, p.highest_effort_place,
            "the most this driver presses with",
            p.unreachable > 0 ? "The trace is not reachable with these brakes: the braking gets longer than it says. "
                                "Pads with more friction, larger pistons, or a smaller master cylinder."
                              : "Little is left for an emergency: more friction, larger pistons or more servo.");
    r.since_first([](const Corner& corner) { return corner.effort; });
  }
  if (!p.corners.empty() && l.rear_bias > 0) {
    r.below("rear", "rear_bias", "brake bias", "braking share above the share of the weight",
            a.brake_balance.rear_excess, l.rear_bias, "share", l.near * l.rear_bias, a.brake_balance.rear_excess_place,
            limit_reason(r.c, "rear_bias"), "The rear would lock first: move the bias forward.");
    r.since_first([](const Corner& corner) { return corner.ideal_front_share - corner.front.share; });
  }
}

}  // namespace

std::vector<Verdict> judge_pedal(const session::Case& c, const session::Drive& drive, const Answers& a) {
  Judge r{c, drive, a.pedal.corners, {}};
  for (const auto& [name, axle, side, brake] : {std::tuple{"front", &a.front, &Corner::front, &c.brakes.front},
                                                std::tuple{"rear", &a.rear, &Corner::rear, &c.brakes.rear}}) {
    judge_friction(r, name, *axle, side, brake->pads);
    judge_window(r, name, *axle);
    judge_wear(r, name, *axle);
    judge_bedding(r, name, *axle);
  }
  judge_car(r, a);
  return std::move(r.out);
}

}  // namespace hatring::answer
