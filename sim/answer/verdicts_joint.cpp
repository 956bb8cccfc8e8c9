// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <tuple>

#include "sim/answer/verdict_rules.hpp"

namespace hatring::answer {
namespace {

void judge_float(Bench& b) {
  const double clearance = b.brake.rotor.joint.float_clearance;
  for (const auto& [name, aspect, what, advice] :
       {std::tuple{"clearance_outward", "float outward", "float left, ring outgrowing the hat",
                   "Fit a joint with more float, or cool the ring."},
        std::tuple{"clearance_inward", "float inward", "float left, hat outgrowing the ring",
                   "Fit a joint with more float; do not cool the ring faster than the hat."}}) {
    const std::vector<double>* v = b.values("joint", name);
    if (!v) continue;
    judge_values(b, *v,
                 {.key = "float",
                  .part = "joint",
                  .aspect = aspect,
                  .what = what,
                  .unit = "m",
                  .keep_below = false,
                  .scale = clearance,
                  .reason = "no clearance left: the joint would carry the growth as load",
                  .advice = same(advice)});
  }
}

// Play that heat takes up, and play that is more than the session needs.
void judge_play(Bench& b) {
  const session::Joint& joint = b.brake.rotor.joint;
  for (const auto& [name, aspect, what, play, advice] :
       {std::tuple{"clearance_tangential", "slot play", "play left between bobbin and slot, along the circle",
                   joint.slot_gap,
                   "The bobbins jam in their slots and the joint no longer floats: more slot clearance."},
        std::tuple{"clearance_axial", "axial play", "axial play left of the ring on its bobbins", joint.axial_float,
                   "The ring is clamped axially while hot and may cone: more axial play."}}) {
    const std::vector<double>* v = b.values("joint", name);
    if (!v) continue;
    judge_values(b, *v,
                 {.key = "play",
                  .part = "joint",
                  .aspect = aspect,
                  .what = what,
                  .unit = "m",
                  .keep_below = false,
                  .scale = play,
                  .reason = "no play left: the joint would no longer float",
                  .advice = same(advice)});
  }
  const std::vector<double>* growth = b.values("joint", "differential_expansion");
  if (!growth || joint.kind != session::JointKind::floating) return;
  const std::size_t top = highest(*growth, b.all()), bottom = lowest(*growth, b.all());
  const std::size_t i = (*growth)[top] >= -(*growth)[bottom] ? top : bottom;
  const double spare = joint.float_clearance - std::abs((*growth)[i]);
  if (spare < 0) return;
  b.out.push_back(
      {.axle = b.history.axle,
       .key = "most_play",
       .part = "joint",
       .aspect = "too loose",
       .what = "float beyond what this session needs",
       // Loose is a nuisance where tight is a danger: never worse than near.
       .level = spare > b.c.limits.most_play ? Level::near : Level::within,
       .value = spare,
       .limit = b.c.limits.most_play,
       .margin = b.c.limits.most_play - spare,
       .unit = "m",
       .place = place_at(b.drive, b.time[i]),
       .reason = limit_reason(b.c, "most_play"),
       .advice = "The ring can knock the pistons back: pump the pedal before a braking, or fit less float."});
}

// Stress over strength of what carries the load across the joint.
void judge_joint_stress(Bench& b) {
  const double limit = b.c.limits.joint_stress;
  for (const auto& [name, part, what, advice] :
       {std::tuple{"fastener_utilisation", "fastener", "stress over proof strength at its temperature",
                   "More or stronger fasteners, or a joint that floats; new fasteners now."},
        std::tuple{"hat_hole_utilisation", "hat holes", "bearing pressure over what the hot hat bears",
                   "Look for holes that have grown long; more fasteners, a thicker flange, or a steel hat."},
        std::tuple{"lug_utilisation", "ring lugs", "stress over tensile strength at its temperature",
                   "Look for cracks at every lug and hole; a ring with stronger lugs, or a joint that floats."}}) {
    const std::vector<double>* v = b.values("stress", name);
    if (!v) continue;
    judge_values(b, *v,
                 {.key = "joint_stress",
                  .part = part,
                  .aspect = "load",
                  .what = what,
                  .unit = "share",
                  .limit = limit,
                  .scale = limit,
                  .reason = limit_reason(b.c, "joint_stress"),
                  .advice = same(advice)});
  }
}

// Slip of a bolted joint through its hole clearance, and the clamping force that heat leaves.
void judge_clamping(Bench& b) {
  const session::Joint& joint = b.brake.rotor.joint;
  const std::vector<double>* slip = b.values("joint", "slip");
  if (!slip) return;
  std::vector<double> left(slip->size());
  std::transform(slip->begin(), slip->end(), left.begin(),
                 [&](double s) { return joint.hole_clearance - std::abs(s); });
  constexpr double kKnown = 0.25;  // of the clearance, judgement
  judge_values(
      b, left,
      {.key = "slip",
       .part = "joint",
       .aspect = "hole gap",
       .what = "hole clearance left as the bolted faces slip",
       .unit = "m",
       .keep_below = false,
       .scale = joint.hole_clearance,
       .tolerance = kKnown * joint.hole_clearance,
       .reason = "no clearance left: the bolts bear on their holes at every braking. A quarter of it beyond counts as "
                 "near, for nobody measures it better",
       .advice = same("The joint works on its bolts: fit a floating joint, and renew the bolts; never ream the "
                      "holes wider.")});
  if (!(joint.preload > 0)) return;
  for (const auto& [name, aspect, what] :
       {std::tuple{"preload", "hot grip", "least clamping force, over that of the assembly"},
        std::tuple{"preload_cold", "cold grip", "clamping force left when cold again, over that of the assembly"}}) {
    std::vector<double> share(*b.values("joint", name));
    for (double& force : share) force /= joint.preload;
    judge_values(b, share,
                 {.key = "preload_left",
                  .part = "joint",
                  .aspect = aspect,
                  .what = what,
                  .unit = "share",
                  .limit = b.c.limits.preload_left,
                  .keep_below = false,
                  .scale = (1 - b.c.limits.preload_left),
                  .reason = limit_reason(b.c, "preload_left"),
                  .advice = same("Check the fasteners cold by the maker's figure after the session; a larger washer "
                                 "spares the aluminium.")});
  }
}

}  // namespace

void judge_joint(Bench& b) {
  judge_float(b);
  judge_play(b);
  judge_clamping(b);
  judge_joint_stress(b);
}

}  // namespace hatring::answer
