// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "tools/cli/explanation.hpp"

namespace hatring::tools {

//! One wheel's network drawn like half a cross-section: pads and caliper outside, ring cells in layers and bands, lugs,
//! fasteners, hat, hub and wheel below. Links are lines, wider for a larger conductance; convection dashed, radiation
//! dotted, both gathered by part.
[[nodiscard]] std::string network_svg(const Explanation& e, session::Axle axle);

}  // namespace hatring::tools
