// SPDX-License-Identifier: MIT
//! \file
//! The car alone, for commands that run no session.
#pragma once

#include <filesystem>

#include "sim/session/case.hpp"

namespace hatring::io {

struct ReadCar {
  session::Car car;
  std::vector<session::Assumption> assumptions;
};

//! The key `car:` of a file (a car's own, or a session file), includes resolved; other keys are not looked at.
//! \throws ConfigError with everything that is wrong   Tested in tests/sim/io/test_log_reading.cpp.
[[nodiscard]] ReadCar read_car(const std::filesystem::path& file);

}  // namespace hatring::io
