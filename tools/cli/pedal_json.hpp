// SPDX-License-Identifier: MIT
//! \file
//! Pads, pedal and the share of the axles as JSON, for --json and the report page. SI units; NaN becomes null.
#pragma once

#include <nlohmann/json.hpp>

#include "sim/answer/answers.hpp"

namespace hatring::tools {

//! {front, rear: friction, pressure, fade, growth; car: effort and reach; corners: [...]; laps: [...]}
[[nodiscard]] nlohmann::json pedal_json(const answer::Answers& a);
[[nodiscard]] nlohmann::json pads_json(const answer::PadAnswer& p);
[[nodiscard]] nlohmann::json bedding_json(const answer::BeddingAnswer& b);
[[nodiscard]] nlohmann::json brake_balance_json(const answer::BrakeBalance& b);
[[nodiscard]] nlohmann::json symptoms_json(const std::vector<answer::Symptom>& symptoms);

//! Adds `pedal`, `pads`, `bedding`, `brake_balance` and `symptoms`.
void add_pedal(nlohmann::json& out, const answer::Answers& a);

}  // namespace hatring::tools
