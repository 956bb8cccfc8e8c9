// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "tools/cli/display_units.hpp"
#include "tools/sweep/summary.hpp"

namespace hatring::tools {

//! What the runs of a sweep say together, for the terminal; at most 80 columns but for long names of parameters.
[[nodiscard]] std::string sweep_text(const SweepSummary& summary, const DisplayUnits& units);
//! The same as JSON (docs/sweep.schema.json). \param fresh runs that this call did \param wall seconds that it took
[[nodiscard]] nlohmann::json sweep_json(const SweepSummary& summary, const std::filesystem::path& file,
                                        std::uint64_t fresh, double wall);

}  // namespace hatring::tools
