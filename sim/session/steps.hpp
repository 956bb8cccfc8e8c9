// SPDX-License-Identifier: MIT
//! \file
//! The steps of a session: what is driven, one after the other. Plain structs in SI units, part of the Case.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>

namespace hatring::session {

enum class Axle { front, rear };

//! What every step may have.
struct StepNote {
  std::string place{};                              //!< where it was written, for messages
  std::optional<double> air_temperature{}, wind{};  //!< from this step on; as before if not given [K], [m/s]
};

//! A red flag within a lap: the car slows down and rolls through the rest of the lap, off the brakes.
struct RedFlag {
  std::optional<double> distance{}, time{};  //!< into the lap; one of them [m], [s]
  double speed = 0;                          //!< of the roll [m/s]
  double deceleration = 0;                   //!< down to it [m/s2]
};

enum class LapKind { out_lap, hot, cooldown };
struct DriveStep {
  LapKind kind = LapKind::hot;
  int laps = 1;
  std::size_t trace = 0;  //!< index into Case::traces
  double pace = 1;        //!< scales speed at every place [-]
  //! Share of the trace's grip and power that the driver uses, above 0 to 1: a physically slower lap (driver_pace.hpp).
  std::optional<double> driver_pace = {};
  double grip = 1;                       //!< of the road over that on which the trace was driven: rain [-]
  std::optional<RedFlag> red_flag = {};  //!< in the last of the laps
  StepNote note = {};
};
struct ParkStep {
  double duration = 0;  //!< [s]
  StepNote note = {};
};
//! Repeated snubs: brake at constant deceleration, return to speed at constant power, cruise until the next start.
struct SnubStep {
  int count = 0;
  double from = 0;          //!< [m/s]
  double to = 0;            //!< [m/s]
  double deceleration = 0;  //!< [m/s2]
  double every = 0;         //!< start to start [s]
  StepNote note = {};
};
//! Bench: constant speed with a given friction heat of one wheel (before the pad/ring split), one value or a linear
//! ramp.
struct HoldStep {
  double duration = 0;       //!< [s]
  double speed = 0;          //!< [m/s]
  double heat_from = 0;      //!< [W]
  double heat_to = 0;        //!< [W]
  std::optional<Axle> axle;  //!< only this axle is heated; both if not given
  StepNote note = {};
};
//! Rolling slowly, off the brakes: round the paddock, so that air goes on passing the discs.
struct RollStep {
  double duration = 0;  //!< [s]
  double speed = 0;     //!< [m/s]
  StepNote note = {};
};
using Step = std::variant<DriveStep, ParkStep, SnubStep, HoldStep, RollStep>;

}  // namespace hatring::session
