// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "sim/answer/run.hpp"
#include "tools/cli/display_units.hpp"

namespace hatring::tools {

//! "[X]", "[!]", "[ ]", "[?]": a level told without colour.
[[nodiscard]] const char* mark(answer::Level level);

//! What a driver reads on the terminal: verdict first, at most 80 columns.
//! \param colour true only for a terminal that wants it
[[nodiscard]] std::string summary(const session::Case& c, const answer::Run& run, const DisplayUnits& units,
                                  bool colour);

//! "lap 7, 1441 m", "parked, 17:10": short, for tables and brackets.
[[nodiscard]] std::string where(const answer::Place& place, const DisplayUnits& units);

//! Text broken at blanks so that no line is longer than `width`; following lines are indented.
[[nodiscard]] std::string wrapped(const std::string& text, std::size_t width, std::size_t indent);

}  // namespace hatring::tools
