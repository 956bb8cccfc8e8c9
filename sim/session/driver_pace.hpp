// SPDX-License-Identifier: MIT
//! \file
//! A slower lap from a trace alone: the same car on the same road, driven with less of its grip and power, or in rain.
//! Nothing is known of the corners but the trace's own speed, so that speed is the envelope. Checked by
//! tests/sim/session/test_driver_pace.cpp.
#pragma once

#include "sim/session/lap_speed.hpp"
#include "sim/session/profile.hpp"

namespace hatring::session {

//! With G = effort.pace * effort.grip the share of the grip, P = effort.pace that of the power, T the force of the
//! tyres along the road as the trace has it (from its acceleration and what resists), at every place:
//!   going round    v'^2 <= v^2 (1 - (1 - G) c)   c = 1 - u^2: what the tyres have left for the corner when u is the
//!                                                share of brakes or power in use; 1 in a corner, 0 flat out or on the
//!                                                limit of the brakes
//!   speeding up    T' <= min(T, P T v / v', G T_max) where the trace is driven, 0 where it brakes
//!   slowing down   T' <= G T inside the trace's brakings; before one, G times its mean: it begins earlier
//! The largest power and braking force are the 95th percentiles over distance; a change of pedal shorter than
//! kPedalChange counts as none. Unlike `pace`, which slows the whole trace by one factor, top speeds fall less than
//! corner speeds. Full effort gives the trace back; the same shares as of old are the assumption (no source).
//! \returns a trace over distance
//! \throws CaseError when an effort is out of range, or the lap stands still between its ends
[[nodiscard]] Trace slower_lap(const Profile& lap, const Road& road, const Effort& effort, const std::string& name);

inline constexpr double kPedalChange = 0.8;  //!< [s]

}  // namespace hatring::session
