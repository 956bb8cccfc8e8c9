// SPDX-License-Identifier: MIT
// Ring and hat.
#include <fmt/format.h>

#include <optional>

#include "sim/answer/verdict_rules.hpp"

namespace hatring::answer {

namespace {

// Where the car comes to rest, its pads rest on one place of the ring. A bench stands by itself, without a driver.
void judge_standstill(Bench& b) {
  const std::vector<double>* mean = b.values("temperature", "ring_mean");
  if (!mean || !(b.c.limits.pad_print > 0)) return;
  std::optional<std::size_t> worst;
  const std::vector<session::Span>& spans = b.drive.spans();
  for (std::size_t s = 1; s < spans.size(); ++s) {
    if (spans[s].phase != session::Phase::parked || spans[s - 1].phase != session::Phase::driving) continue;
    const Rows rows = rows_of(spans[s], b.time);
    if (rows.first < rows.last && (!worst || (*mean)[rows.first] > (*mean)[*worst])) worst = rows.first;
  }
  if (!worst) return;
  const double limit = b.c.limits.pad_print, margin = limit - (*mean)[*worst];
  const Place place{.time = b.time[*worst], .span = "parked"};
  b.out.push_back({.axle = b.history.axle,
                   .key = "pad_print",
                   .part = "ring",
                   .aspect = "at rest",
                   .what = "mean temperature when the car comes to rest",
                   .level = level_of(margin, b.c.limits.near * (limit - b.c.air.temperature)),
                   .value = (*mean)[*worst],
                   .limit = limit,
                   .margin = margin,
                   .scale = limit - b.c.air.temperature,
                   .unit = "K",
                   .place = place,
                   .since = margin < 0 ? std::optional(place) : std::nullopt,
                   .reason = limit_reason(b.c, "pad_print"),
                   .advice = "Cool down longer before you stop; no handbrake and no foot on the pedal at rest."});
}

}  // namespace

void judge_ring(Bench& b) {
  below(b, "ring_face", "ring face", "", "peak temperature", "ring_face_outboard", b.c.limits.ring_face,
        limit_reason(b.c, "ring_face"), same("Brake earlier and lighter, or fit more ring mass."));
  below(b, "ring_mean", "ring", "bulk", "peak temperature, mean through the ring", "ring_mean", b.c.limits.ring_mean,
        limit_reason(b.c, "ring_mean"), same("Run fewer hot laps in a row, or give the ring more air."));
  judge_standstill(b);
  const std::vector<double>* rate = b.values("rate", "ring_face");
  if (!rate) return;
  const session::Limits& limits = b.c.limits;
  judge_values(b, *rate,
               {.key = "face_rate",
                .part = "ring face",
                .aspect = "heating",
                .what = "fastest heating of the face",
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
                .what = "fastest cooling of the face",
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
  below(b, "hat", "hat", "flange", "peak temperature of the flange", "hat_flange", limit, reason,
        {"Run fewer hot laps in a row." + other, "Roll longer before parking." + other});
  const auto [bolt_limit, bolt_reason] = or_material(b, b.c.limits.fastener, "fastener", b.brake.rotor.joint.material);
  below(b, "fastener", "fastener", "", "peak temperature", "fastener", bolt_limit, bolt_reason,
        same("Use fasteners made for this temperature; check their torque cold by the maker's figure."));
}

}  // namespace hatring::answer
