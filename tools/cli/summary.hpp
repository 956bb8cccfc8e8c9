// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>

#include "sim/answer/run.hpp"
#include "tools/cli/display_units.hpp"

namespace hatring::tools {

//! "[X]", "[!]", "[ ]", "[?]": a level told without colour.
[[nodiscard]] const char* mark(answer::Level level);
//! The same, with "[x]" for a limit that is passed in part of the band only.
[[nodiscard]] const char* mark(const answer::Verdict& v);

//! "lap 9, 497 m", "parked, 17:20"
[[nodiscard]] std::string place_text(const answer::Place& place, const DisplayUnits& units);

//! What a driver reads on the terminal: verdict first, at most 80 columns, about one screen.
//! \param colour true only for a terminal that wants it  \param all every row, and all that the report has in numbers
[[nodiscard]] std::string summary(const session::Case& c, const answer::Run& run, const DisplayUnits& units,
                                  bool colour, bool all);

inline constexpr std::size_t kTextWidth = 79;  //!< of all that we print [columns]

//! Text broken at blanks so that no line is longer than `width`; following lines are indented.
[[nodiscard]] std::string wrapped(const std::string& text, std::size_t width, std::size_t indent);

}  // namespace hatring::tools
