// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "sim/answer/answers.hpp"
#include "tools/cli/display_units.hpp"

namespace hatring::tools {

//! A caution for each puddle that the hot faces meet; else empty.
[[nodiscard]] std::string wet_patch_text(const answer::Answers& a, const DisplayUnits& units);

//! Joint, loads, life, fluid, heat balance and masses in lines of text; at most 80 columns.
[[nodiscard]] std::string details_text(const answer::Answers& a, const DisplayUnits& units);

}  // namespace hatring::tools
