// SPDX-License-Identifier: MIT
//! \file
//! Length and first half of a trace.
#pragma once

#include <vector>

#include "sim/session/case.hpp"

namespace hatring::answer {

//! Distance covered up to each sample, straight between samples [m].
[[nodiscard]] std::vector<double> covered(const session::Trace& trace);

//! Up to half the distance; the last sample lies exactly there. \throws session::CaseError when it does not move
[[nodiscard]] session::Trace first_half(const session::Trace& trace);

}  // namespace hatring::answer
