// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "sim/answer/run.hpp"

namespace hatring::tools {

//! Everything the report page shows, as one JSON object; tools/report/src/run.ts lists its members.
[[nodiscard]] nlohmann::json page_json(const session::Case& c, const answer::Run& run, const std::string& created);

//! What every page opens with, whatever it shows.
[[nodiscard]] nlohmann::json page_head(const char* kind, const std::string& title, const std::string& created);
[[nodiscard]] nlohmann::json page_head(const char* kind, const session::Case& c, const std::string& created);
[[nodiscard]] nlohmann::json spans_json(const session::Drive& drive);
//! Values of some rows, rounded to `step` (a whole number or 1 over one) so that the page stays small; null for NaN.
[[nodiscard]] nlohmann::json rounded(const std::vector<double>& values, const std::vector<std::size_t>& rows,
                                     double step);
//! Temperatures and joint movement of both axles in some rows.
void add_axle_series(nlohmann::json& out, const answer::History& h, const std::vector<std::size_t>& rows);

//! Rows of a history to draw, about `wanted` of them: in each slice of time the rows at which one of `columns` has its
//! lowest and highest value, so that no peak is lost. First and last row are kept.
[[nodiscard]] std::vector<std::size_t> rows_to_draw(const std::vector<const std::vector<double>*>& columns,
                                                    std::size_t rows, std::size_t wanted);

}  // namespace hatring::tools
