// SPDX-License-Identifier: MIT
//! \file
//! What `hatring cooldown` found, and its four ways out: terminal, JSON, picture, page.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "sim/answer/cooldown.hpp"
#include "sim/answer/hot_laps.hpp"
#include "tools/cli/display_units.hpp"

namespace hatring::tools {

struct Cooled {
  session::Case c;
  answer::Cooldown search;
  answer::HotLaps laps;
};

//! Exceeded when no plan holds every limit or one was over before; else the level of the chosen plan.
[[nodiscard]] answer::Level level_of(const answer::Cooldown& search);
//! Indices of the plans worth a row: the unbeaten ones, the chosen one, the surest one and parking at once; by cost.
[[nodiscard]] std::vector<std::size_t> rows_to_show(const answer::Cooldown& search);
//! "front brake fluid"
[[nodiscard]] std::string limit_name(const answer::Verdict& v);

[[nodiscard]] std::string cooldown_text(const Cooled& cooled, const DisplayUnits& units, bool colour);
//! What --json prints; docs/cooldown.schema.json describes it.
[[nodiscard]] nlohmann::json cooldown_json(const Cooled& cooled, double wall_seconds);
//! Cost of every plan against what it leaves.
[[nodiscard]] std::string cooldown_svg(const Cooled& cooled);
//! \param created ISO 8601
[[nodiscard]] nlohmann::json cooldown_page(const Cooled& cooled, const std::string& created);

}  // namespace hatring::tools
