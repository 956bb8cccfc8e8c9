// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "sim/solve/kernel.hpp"

namespace hatring::solve {

//! An order of pairs in which each stands, where that can be, several places behind those that share a node with it:
//! sums are kept in memory, and one that was just written is not ready yet to be read. \returns indices into `pairs`
[[nodiscard]] std::vector<int> interleave(const std::vector<Ends>& pairs);

}  // namespace hatring::solve
