// SPDX-License-Identifier: MIT
//! \file
//! Where on which lap something happened, and the extremes of a column.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "sim/answer/answers.hpp"

namespace hatring::answer {

//! \param time from the start of the session [s]
[[nodiscard]] Place place_at(const session::Drive& drive, double time);

//! For what is counted over all of it: its end, with the span kWholeSession.
inline constexpr const char* kWholeSession = "whole session";
[[nodiscard]] Place whole_session(const session::Drive& drive);

//! "on lap 7", "on the out lap", "on the way in", "while rolling", "after parking", "during snub 4", "over the whole
//! session": the one place that puts a place into words.
[[nodiscard]] std::string in_words(const Place& place);

//! Rows [first, last) of a History that lie in a span; both its ends are included.
struct Rows {
  std::size_t first = 0, last = 0;
};
[[nodiscard]] Rows rows_of(const session::Span& span, const std::vector<double>& time);

//! Index of the largest (smallest) value in rows; ties go to the first. Rows must not be empty; no NaN.
[[nodiscard]] std::size_t highest(const std::vector<double>& values, Rows rows);
[[nodiscard]] std::size_t lowest(const std::vector<double>& values, Rows rows);

}  // namespace hatring::answer
