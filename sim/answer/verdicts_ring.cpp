// SPDX-License-Identifier: MIT
// Ring and hat.
#include <fmt/format.h>

#include "sim/answer/verdict_rules.hpp"

namespace hatring::answer {

void judge_ring(Bench& b) {
  below(b, "ring_face", "ring face", "peak temperature", "ring_face_outboard", b.c.limits.ring_face,
        limit_reason(b.c, "ring_face"), same("Brake earlier and lighter, or fit more ring mass."));
  below(b, "ring_mean", "ring", "peak mean temperature", "ring_mean", b.c.limits.ring_mean,
        limit_reason(b.c, "ring_mean"), same("Run fewer hot laps in a row, or give the ring more air."));
  const std::vector<double>* rate = b.values("rate", "ring_face");
  if (!rate) return;
  const session::Limits& limits = b.c.limits;
  judge_values(b, *rate,
               {.key = "face_rate",
                .part = "ring face",
                .aspect = "heating",
                .what = "heating rate",
                .unit = "K s-1",
                .limit = limits.face_rate,
                .scale = limits.face_rate,
                .reason = limit_reason(b.c, "face_rate"),
                .advice = same(
                    "Warm the discs over a lap before the first hard stop; look for cracks at every hole and edge.")});
  std::vector<double> cooling(rate->size());
  std::transform(rate->begin(), rate->end(), cooling.begin(), [](double r) { return -r; });
  judge_values(b, cooling,
               {.key = "cooling_rate",
                .part = "ring face",
                .aspect = "cooling",
                .what = "cooling rate",
                .unit = "K s-1",
                .limit = limits.cooling_rate,
                .scale = limits.cooling_rate,
                .reason = limit_reason(b.c, "cooling_rate"),
                .advice = same("Come off a hard stop more gently, and do not blow cold air on one face only.")});
}

void judge_shock(Bench& b) {
  const std::vector<double>* used = b.values("stress", "utilisation");
  if (!used) return;
  const double limit = b.c.limits.shock;
  judge_values(b, *used,
               {.key = "shock",
                .part = "ring",
                .aspect = "thermal shock",
                .what = "largest tension over the iron's strength at its temperature",
                .unit = "share",
                .limit = limit,
                .scale = limit,
                .reason = limit_reason(b.c, "shock"),
                .advice = same("Warm the discs over a lap, brake lighter and earlier, and look for cracks at bore, lug "
                               "roots and holes after every session.")});
}

void judge_hat(Bench& b) {
  const bool one_piece = b.brake.rotor.joint.kind == session::JointKind::one_piece;
  const auto [limit, reason] =
      or_material(b, b.c.limits.hat, "hat", one_piece ? b.brake.rotor.ring.material : b.brake.rotor.hat.material);
  const std::string other = one_piece ? "" : " Compare a hat of another material.";
  below(b, "hat", "hat", "peak temperature of the flange", "hat_flange", limit, reason,
        {"Run fewer hot laps in a row." + other, "Roll longer before parking." + other});
  const auto [bolt_limit, bolt_reason] = or_material(b, b.c.limits.fastener, "fastener", b.brake.rotor.joint.material);
  below(b, "fastener", "fastener", "peak temperature", "fastener", bolt_limit, bolt_reason,
        same("Use fasteners made for this temperature; check their torque cold by the maker's figure."));
}

}  // namespace hatring::answer
