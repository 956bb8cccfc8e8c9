// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "sim/answer/answers.hpp"
#include "tools/cli/display_units.hpp"

namespace hatring::tools {

//! What the full band found, for the terminal: how surely the limits in question are kept, on which input each hangs,
//! and what to measure. Empty where it was not run.
[[nodiscard]] std::string doubt_text(const answer::Answers& a, const DisplayUnits& units);

//! "front ring, worn": axle, part and aspect of a verdict.
[[nodiscard]] std::string part_of(const answer::Verdict& v);

}  // namespace hatring::tools
