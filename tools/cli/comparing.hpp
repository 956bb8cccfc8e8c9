// SPDX-License-Identifier: MIT
//! \file
//! What `hatring compare` ran, and the ways it is told.
#pragma once

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "sim/answer/comparison.hpp"
#include "tools/cli/display_units.hpp"

namespace hatring::tools {

struct Compared {
  std::vector<std::filesystem::path> files;   //!< the session's, then each variant's
  std::vector<answer::Contender> contenders;  //!< in the same order
  std::vector<answer::Run> runs;              //!< likely air
  answer::Comparison comparison;
  std::vector<std::size_t> order;  //!< in which the set-ups are shown; the first always leads
  std::string sorted_by;           //!< key, empty for the order as named
};

[[nodiscard]] std::string comparison_text(const Compared& all, const DisplayUnits& units, bool colour);

//! Keys: sentence, recommended, sorted_by, variants (each what simulate prints, with name, file and cost), rows,
//! timing.
[[nodiscard]] nlohmann::json comparison_json(const Compared& all, double wall_seconds);

//! What the report page shows; tools/report/src/run.ts lists its members.
[[nodiscard]] nlohmann::json comparison_page(const Compared& all, const std::string& created);

}  // namespace hatring::tools
