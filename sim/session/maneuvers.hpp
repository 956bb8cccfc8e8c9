// SPDX-License-Identifier: MIT
//! \file
//! Speed changes that no trace describes: constant deceleration or acceleration, and constant power.
#pragma once

#include <vector>

#include "sim/session/drive.hpp"

namespace hatring::session {

//! One straight piece from one speed to another at the given rate [m/s, m/s, m/s2 > 0].
[[nodiscard]] std::vector<Piece> ramp(double from, double to, double rate);

//! One piece at constant speed [m/s, s].
[[nodiscard]] std::vector<Piece> cruise(double speed, double duration);

//! From one speed up to another in `duration` at constant power over what resists, v dv/dt = constant. Constant power
//! is no acceleration a car can have from rest: below a quarter of the final speed the acceleration is held instead.
[[nodiscard]] std::vector<Piece> constant_power(double from, double to, double duration);

}  // namespace hatring::session
