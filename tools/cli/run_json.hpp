// SPDX-License-Identifier: MIT
//! \file
//! A run as JSON: what --json prints, and the parts that the report page shares with it. SI units; NaN becomes null.
#pragma once

#include <nlohmann/json.hpp>

#include "sim/answer/run.hpp"

namespace hatring::tools {

[[nodiscard]] nlohmann::json place_json(const answer::Place& place);
[[nodiscard]] nlohmann::json verdict_json(const answer::Verdict& verdict);
//! Spread of a verdict, and what the full band varied (sim/answer/doubt.hpp).
[[nodiscard]] nlohmann::json doubt_json(const answer::Doubt& doubt);
[[nodiscard]] nlohmann::json full_band_json(const answer::FullBandAnswer& full);
[[nodiscard]] nlohmann::json balance_json(const answer::Balance& balance);
[[nodiscard]] nlohmann::json joint_json(const answer::JointAnswer& joint);
//! One wheel [kg], [kg m2]: ring and hat from geometry, the rest as used.
[[nodiscard]] nlohmann::json masses_json(const answer::AxleAnswers& answers);
[[nodiscard]] nlohmann::json peaks_json(const answer::AxleAnswers& answers);
[[nodiscard]] nlohmann::json fluid_json(const answer::FluidAnswer& fluid);

//! {front: f(front answers), rear: f(rear answers)}
template <class F>
[[nodiscard]] nlohmann::json both_axles(const answer::Answers& a, F&& f) {
  return {{"front", f(a.front)}, {"rear", f(a.rear)}};
}

//! Adds `rates`, `extremes`, `damage`, `softening` and `wet_patches`.
void add_wear_and_tear(nlohmann::json& out, const answer::Answers& a);

//! Keys: sentence, level, verdicts, full_band (with --band), peaks, joint, rates, extremes, damage, softening,
//! wet_patches, pedal, pads, bedding, brake_balance, symptoms, fluid, balance, masses, warnings, timing.
[[nodiscard]] nlohmann::json run_json(const answer::Run& run, double wall_seconds);

}  // namespace hatring::tools
