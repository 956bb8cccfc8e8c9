// SPDX-License-Identifier: MIT
#include <limits>
#include <tuple>

#include "sim/answer/verdict_rules.hpp"

namespace hatring::answer {
namespace {

void judge_float(Bench& b) {
  const double clearance = b.brake.rotor.joint.float_clearance;
  for (const auto& [name, aspect, what, advice] :
       {std::tuple{"clearance_outward", "outward", "float left, ring outgrowing the hat",
                   "Fit a joint with more float, or cool the ring."},
        std::tuple{"clearance_inward", "inward", "float left, hat outgrowing the ring",
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
                  .near = b.c.limits.near * clearance,
                  .reason = "no clearance left: the joint would carry the growth as load",
                  .advice = same(advice)});
  }
}

// A bolted joint takes the growth as load. The load is not computed yet, so the growth is shown and not judged.
void show_bolted(Bench& b) {
  const std::vector<double>* v = b.values("joint", "differential_expansion");
  if (!v || b.brake.rotor.joint.kind != session::JointKind::rigid) return;
  const std::size_t top = highest(*v, b.all()), bottom = lowest(*v, b.all());
  const std::size_t i = (*v)[top] >= -(*v)[bottom] ? top : bottom;
  const double none = std::numeric_limits<double>::quiet_NaN();
  b.out.push_back({.axle = b.history.axle,
                   .key = "bolted",
                   .part = "joint",
                   .aspect = "growth",
                   .what = "growth that the bolted joint must carry as load",
                   .level = Level::unknown,
                   .value = (*v)[i],
                   .limit = none,
                   .margin = none,
                   .unit = "m",
                   .place = place_at(b.drive, b.time[i]),
                   .reason = "no limit: the load on bolts and holes is not computed; look for cracks at the holes"});
}

}  // namespace

void judge_joint(Bench& b) {
  judge_float(b);
  show_bolted(b);
}

}  // namespace hatring::answer
