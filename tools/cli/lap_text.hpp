// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "sim/answer/answers.hpp"
#include "tools/cli/display_units.hpp"

namespace hatring::tools {

//! One line a lap, both axles: a strip of plain characters from the ring's lowest to its highest mean temperature, with
//! its limit, then the highest of hat and fluid. Of many laps the first and the last are shown. At most 80 columns.
[[nodiscard]] std::string lap_strips(const answer::Answers& a, const DisplayUnits& units);

//! The same laps in numbers, all of them: does each end hotter than it began?
[[nodiscard]] std::string lap_table(const answer::Answers& a, const DisplayUnits& units);

}  // namespace hatring::tools
