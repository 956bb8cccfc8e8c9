// SPDX-License-Identifier: MIT
//! \file
//! Sections that are part of another topic's section and stand in a source of their own.
#pragma once

#include "sim/io/schema/schema.hpp"

namespace hatring::io {

[[nodiscard]] const Section<session::Hydraulic>& hydraulic_section();
[[nodiscard]] const Section<session::Fluid>& fluid_section();

}  // namespace hatring::io
