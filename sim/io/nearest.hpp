// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace hatring::io {

//! The candidate that a mistyped word most likely meant: fewest edits (insert, delete, replace, swap of neighbours;
//! case and the difference between `-`, ` ` and `_` count nothing), at most a third of its letters.
//! \returns empty when nothing is near
[[nodiscard]] std::string nearest(std::string_view word, const std::vector<std::string>& candidates);

//! "a, b, c"
[[nodiscard]] std::string joined(const std::vector<std::string>& words);

}  // namespace hatring::io
