// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>

#include "sim/session/case.hpp"

namespace hatring::io {

//! A trace that stands in a file of its own. \throws ConfigError
[[nodiscard]] session::Trace read_trace_file(const std::filesystem::path& file);

}  // namespace hatring::io
