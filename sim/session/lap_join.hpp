// SPDX-License-Identifier: MIT
//! \file
//! How a lap takes over from the speed at which the lap before it ended, with no jump in kinetic energy.
#pragma once

#include <vector>

#include "sim/session/drive.hpp"

namespace hatring::session {

//! The join is spread over this distance, or a third of the lap if that is shorter (our choice: a start straight) [m].
inline constexpr double kJoinDistance = 300;

//! The lap with its first part redrawn so that it starts at `speed` [m/s] and is its own after the join. Over the
//! distance x of the join, with v the lap's own speed and S the smoothstep from 0 to 1:
//!   slower than the lap:  w = v (1 + (speed / v(0) - 1) (1 - S))          never stops, never overtakes the lap
//!   faster than the lap:  w^2 = v^2 + (speed^2 - v(0)^2) (1 - S)          the surplus energy fades, no speed is
//!   multiplied
//! Each new piece covers the same stretch of road as the old one, exactly.
//! \pre has_room_to_join(lap)
//! \param lap from time 0 and distance 0; the first piece moves or `speed` is above its start
[[nodiscard]] std::vector<Piece> joined(const std::vector<Piece>& lap, double speed);

//! Whether the lap keeps moving as far as the join reaches. If not, the car must come to the lap's own first speed
//! before it.
[[nodiscard]] bool has_room_to_join(const std::vector<Piece>& lap);

//! Slower than this a car stands [m/s].
inline constexpr double kStanding = 0.5;

}  // namespace hatring::session
