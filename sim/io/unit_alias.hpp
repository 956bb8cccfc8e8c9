// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "sim/io/units.hpp"

namespace hatring::io {

//! Rewrites a unit as the workshop spells it into what UDUNITS-2 reads correctly for this kind of quantity.
//! \returns empty when the text cannot be a unit (a second number, an offset such as "since", odd characters)
[[nodiscard]] std::string settle_unit(std::string_view unit, Quantity kind);

}  // namespace hatring::io
