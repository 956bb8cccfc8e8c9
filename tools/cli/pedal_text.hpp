// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "sim/answer/answers.hpp"
#include "tools/cli/display_units.hpp"

namespace hatring::tools {

//! Pads, pedal, share of the axles and the faults that the run points to, for the terminal.
[[nodiscard]] std::string pedal_text(const answer::Answers& a, const DisplayUnits& units);
//! Stop by stop where a bedding plan was run; else empty.
[[nodiscard]] std::string bedding_text(const answer::Answers& a, const DisplayUnits& units);

}  // namespace hatring::tools
