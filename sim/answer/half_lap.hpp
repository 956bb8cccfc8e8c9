// SPDX-License-Identifier: MIT
//! \file
//! The first half of a trace.
#pragma once

#include "sim/session/case.hpp"

namespace hatring::answer {

//! Up to half the distance; the last sample lies exactly there. \throws session::CaseError when it does not move
[[nodiscard]] session::Trace first_half(const session::Trace& trace);

}  // namespace hatring::answer
