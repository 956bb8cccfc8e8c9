// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>

#include "sim/session/case.hpp"

namespace hatring::io {

//! A trace file (one top key `trace:`) alone, for commands that run no session. \throws ConfigError
[[nodiscard]] session::Trace read_trace_file(const std::filesystem::path& file);

}  // namespace hatring::io
