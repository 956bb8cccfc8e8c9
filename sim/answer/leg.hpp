// SPDX-License-Identifier: MIT
//! \file
//! A run in parts: one part of a session goes on from where another ended, so that what comes before is solved once.
//! Checked by tests/sim/answer/test_cooldown.cpp: in parts or in one go, the history is the same.
#pragma once

#include <vector>

#include "sim/answer/run.hpp"

namespace hatring::answer {

struct Wheels {
  network::Network front, rear;
};

//! \param highest_speed as for network::assemble: the same for all that go on from each other [m/s]
[[nodiscard]] Wheels assemble_wheels(const session::Case& c, double highest_speed, const RunOptions& options = {});

//! Records wheels side by side over a whole session, part by part where the air changes (Drive::airs()).
//! \param wheels assembled in the first of the airs; else as for record_axles()  \param speeds as for network::assemble
//! [m/s] \param work is added to
//! Checked by tests/sim/answer/test_airs.cpp.
[[nodiscard]] std::vector<AxleHistory> record_wheels(session::Axle axle, const std::vector<Wheel>& wheels,
                                                     const std::vector<double>& speeds,
                                                     const std::vector<double>& times, const RunOptions& options,
                                                     SolverWork& work);
//! The case with another air.
[[nodiscard]] session::Case in_air(session::Case c, const session::Air& air);

//! One part of a session.
struct Leg {
  History history;
  std::vector<Checkpoint> kept;  //!< at the marks, and at last at the end
};

//! Records both wheels from `begin` to `end` on the clock of the drive [s].
//! \param start state at `begin`, from wheels of the same parts (the air around them may be another); null: as the
//! wheels start
//! \param marks rising, inside the part [s]
//! \throws solve::SolveError
[[nodiscard]] Leg record_leg(const session::Case& c, const session::Drive& drive, const Wheels& wheels, double begin,
                             double end, const Checkpoint* start, std::vector<double> marks = {},
                             const RunOptions& options = {});

//! The rows of a history up to a time of it [s].
[[nodiscard]] History up_to(History whole, double time);

//! Appends a part that went on from the end of `whole`; heats that add up go on adding up.
void append(const session::Case& c, History& whole, const History& part);

}  // namespace hatring::answer
