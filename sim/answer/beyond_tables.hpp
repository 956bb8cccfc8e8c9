// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "sim/answer/answers.hpp"

namespace hatring::answer {

//! Warnings where ring, fasteners, hat or pads got hotter than the data of their material reach: beyond the end of a
//! table its last value is held, which flatters a strength. Each says how far the table goes and what to do. Checked by
//! tests/sim/answer/test_beyond_tables.cpp.
[[nodiscard]] std::vector<std::string> beyond_tables(const session::Case& c, session::Axle axle,
                                                     const AxleAnswers& answers);

}  // namespace hatring::answer
