// SPDX-License-Identifier: MIT
#include "sim/answer/measures.hpp"

#include <algorithm>
#include <cmath>

namespace hatring::answer {
namespace {

using session::Axle;
using session::Case;

// Least differences worth a decision: judgement, about what scales and temperature labels at home can tell apart.
constexpr double kLeastKelvin = 5, kLeastRate = 5;         // [K], [K/s]
constexpr double kLeastGrowth = 0.02e-3;                   // [m]
constexpr double kLeastForce = 100;                        // [N]
constexpr double kLeastLife = 10;                          // sessions
constexpr double kLeastMass = 0.05, kLeastInertia = 5e-4;  // [kg], [kg m2]
constexpr double kLeastShare = 0.02;                       // of the way to a limit

double peak(const Answers& a, Axle axle, std::initializer_list<const char*> names) {
  double highest = kNone;
  for (const char* name : names) {
    const auto found = a.axle(axle).peaks.find(name);
    if (found != a.axle(axle).peaks.end()) highest = std::fmax(highest, found->second.value);
  }
  return highest;
}

double face(const Case&, const Answers& a, Axle axle) {
  return peak(a, axle, {"ring_face_outboard", "ring_face_inboard"});
}
double ring(const Case&, const Answers& a, Axle axle) {
  return peak(a, axle, {"ring_mean"});
}
double hat(const Case&, const Answers& a, Axle axle) {
  return peak(a, axle, {"hat_flange"});
}
double pad(const Case&, const Answers& a, Axle axle) {
  return peak(a, axle, {"pad_outboard", "pad_inboard"});
}
double caliper(const Case&, const Answers& a, Axle axle) {
  return peak(a, axle, {"caliper"});
}
double fluid(const Case&, const Answers& a, Axle axle) {
  return peak(a, axle, {"fluid"});
}

// The lowest value among the verdicts on one limit.
double judged(const Answers& a, Axle axle, std::string_view key) {
  double lowest = kNone;
  for (const Verdict& v : a.verdicts)
    if (v.key == key && v.axle == (axle == Axle::front ? "front" : "rear")) lowest = std::fmin(lowest, v.value);
  return lowest;
}
double face_rate(const Case&, const Answers& a, Axle axle) {
  return judged(a, axle, "face_rate");
}
double float_left(const Case&, const Answers& a, Axle axle) {
  return judged(a, axle, "float");
}

double highest_of(const Answers& a, Axle axle, std::string_view name) {
  for (const Extreme& e : a.axle(axle).extremes)
    if (e.name == name) return e.highest;
  return kNone;
}
double fastener_load(const Case&, const Answers& a, Axle axle) {
  return highest_of(a, axle, "fastener_load");
}
double joint_stress(const Case&, const Answers& a, Axle axle) {
  double most = kNone;
  for (const char* part : {"fastener_utilisation", "hat_hole_utilisation", "lug_utilisation"})
    most = std::fmax(most, highest_of(a, axle, part));
  return most;
}
double shock(const Case&, const Answers& a, Axle axle) {
  return highest_of(a, axle, "utilisation");
}
double life(const Case&, const Answers& a, Axle axle) {
  return std::min(judged(a, axle, "sessions_left"), kManySessions);
}
double hat_strength(const Case&, const Answers& a, Axle axle) {
  return judged(a, axle, "hat_strength");
}

double ring_outgrows(const Case&, const Answers& a, Axle axle) {
  const JointAnswer& joint = a.axle(axle).joint;
  return joint.applicable ? std::max(joint.largest, 0.0) : kNone;
}
double hat_outgrows(const Case&, const Answers& a, Axle axle) {
  const JointAnswer& joint = a.axle(axle).joint;
  return joint.applicable ? std::max(-joint.smallest, 0.0) : kNone;
}

double level(const Case&, const Answers& a, Axle) {
  return a.level == Level::unknown ? kNone : static_cast<double>(a.level);
}
double limits_passed(const Case&, const Answers& a, Axle) {
  return static_cast<double>(
      std::count_if(a.verdicts.begin(), a.verdicts.end(), [](const Verdict& v) { return v.level == Level::exceeded; }));
}
double way_to_closest(const Case&, const Answers& a, Axle) {
  const Verdict* v = closest(a);
  return v ? 1 - share_left(*v) : kNone;
}

constexpr Measure kMeasures[] = {
    {"verdict", "verdict", "level", Better::lower, 1, false, false, level},
    {"passed", "limits passed", "count", Better::lower, 1, false, false, limits_passed},
    {"closest", "used of closest limit", "share", Better::lower, kLeastShare, false, true, way_to_closest},
    {"cost", "cost", "cost", Better::lower, 0.01, false, false,
     [](const Case& c, const Answers&, Axle) { return c.cost ? c.cost->amount : kNone; }},
    {"mass", "mass", "kg", Better::lower, kLeastMass, true, false,
     [](const Case&, const Answers& a, Axle axle) { return a.axle(axle).corner_mass; }},
    {"rotating", "rotating mass", "kg", Better::lower, kLeastMass, true, false,
     [](const Case&, const Answers& a, Axle axle) { return a.axle(axle).rotating_mass; }},
    {"inertia", "inertia", "kg m2", Better::lower, kLeastInertia, true, false,
     [](const Case&, const Answers& a, Axle axle) { return a.axle(axle).rotating_inertia; }},
    {"face", "ring face", "K", Better::lower, kLeastKelvin, true, true, face},
    {"ring", "ring bulk", "K", Better::lower, kLeastKelvin, true, true, ring},
    {"rate", "face heating", "K s-1", Better::lower, kLeastRate, true, true, face_rate},
    {"hat", "hat flange", "K", Better::lower, kLeastKelvin, true, true, hat},
    {"pad", "pad surface", "K", Better::lower, kLeastKelvin, true, true, pad},
    {"caliper", "caliper body", "K", Better::lower, kLeastKelvin, true, true, caliper},
    {"fluid", "brake fluid", "K", Better::lower, kLeastKelvin, true, true, fluid},
    {"outward", "ring outgrows hat", "m", Better::lower, kLeastGrowth, true, true, ring_outgrows},
    {"inward", "hat outgrows ring", "m", Better::lower, kLeastGrowth, true, true, hat_outgrows},
    {"float", "float left", "m", Better::higher, kLeastGrowth, true, true, float_left},
    {"load", "fastener load", "N", Better::lower, kLeastForce, true, true, fastener_load},
    {"stress", "joint stress", "share", Better::lower, kLeastShare, true, true, joint_stress},
    {"shock", "thermal shock", "share", Better::lower, kLeastShare, true, true, shock},
    {"life", "sessions left", "sessions", Better::higher, kLeastLife, true, true, life},
    {"strength", "hat strength left", "share", Better::higher, kLeastShare, true, true, hat_strength},
};

}  // namespace

std::span<const Measure> measures() {
  return kMeasures;
}

const Verdict* closest(const Answers& a) {
  const Verdict* found = nullptr;
  for (const Verdict& v : a.verdicts) {
    if (v.level == Level::unknown || v.key == "cold_share" || v.key == "most_play") continue;
    if (!found || share_left(v) < share_left(*found)) found = &v;
  }
  return found;
}

}  // namespace hatring::answer
