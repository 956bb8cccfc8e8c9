// SPDX-License-Identifier: MIT
//! \file
//! The forces on the car as the session knows them: models::RoadLoad plus the engine's drag off the throttle.
#pragma once

#include "models/brake_power.hpp"
#include "sim/session/case.hpp"

namespace hatring::session {

//! Engine drag fades out between these speeds as the clutch opens for walking pace (common practice, no source) [m/s].
inline constexpr double kEngineGone = 1, kEngineFull = 3;

struct Road {
  models::RoadLoad load;
  double engine_drag = 0;  //!< at speed, at the tyres [N]
  [[nodiscard]] bool operator==(const Road&) const = default;
};

//! \throws CaseError when the car has no mass or a factor makes no sense
[[nodiscard]] Road road_of(const Case& c);

//! Engine braking at this speed, off the throttle: a C1 blend from 0 at kEngineGone to the car's engine_drag at
//! kEngineFull [N].
[[nodiscard]] double engine_force(const Road& road, double speed);

//! Force that the friction brakes must give off the throttle; negative when engine and road hold the car back by more
//! [N].
[[nodiscard]] double brake_demand(const Road& road, double speed, double acceleration, double grade);

}  // namespace hatring::session
