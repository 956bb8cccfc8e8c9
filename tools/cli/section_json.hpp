// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json.hpp>

#include "sim/answer/run.hpp"

namespace hatring::tools {

//! What the drawing of the disc, the margin bars and the session card of the report need beside the rest of the page:
//! `geometry` of each axle [m], `peaks` with their bands [K], and how much of the way to its limit each entry of
//! `verdicts` has used. Call it with the verdicts in place. Checked by test_cli.py.
void add_section(nlohmann::json& page, const session::Case& c, const answer::Answers& a);

}  // namespace hatring::tools
