// SPDX-License-Identifier: MIT
//! \file
//! The car alone, for commands that run no session.
#pragma once

#include <filesystem>

#include "sim/io/loader.hpp"
#include "sim/session/case.hpp"

namespace hatring::io {

class Reader;

//! What a car is read for: a lap that is computed needs its power and grip, and so their defaults, besides.
enum class CarUse { braking, lap };

//! The keys `car:` and `air:` of a file (a car's own, or a session file, whose other keys are not looked at), includes
//! resolved, with what was assumed. \throws ConfigError with everything that is wrong
//! Tested in tests/sim/io/test_log_reading.cpp and test_track.cpp.
[[nodiscard]] session::Case read_car(const std::filesystem::path& file);
//! The same from the root of a file into the reader's case.
void read_car(Reader& reader, const NodePtr& root, CarUse use);

}  // namespace hatring::io
