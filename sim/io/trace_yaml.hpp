// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "sim/session/case.hpp"

namespace hatring::io {

//! A trace over distance as the text of a trace file, which read_case takes as it is; speeds in km/h.
//! \param remarks for the head of the file, each a paragraph   Checked by tests/sim/io/test_track.cpp.
[[nodiscard]] std::string trace_file_text(const session::Trace& trace, const std::vector<std::string>& remarks);

}  // namespace hatring::io
