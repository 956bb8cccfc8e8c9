// SPDX-License-Identifier: MIT
//! \file
//! The front axle's share of the braking where the case does not fix it: by hydraulics and friction, or by load
//! transfer. Checked by tests/sim/answer/test_share.cpp.
#pragma once

#include <functional>

#include "sim/answer/history.hpp"
#include "sim/answer/pedal_answers.hpp"
#include "sim/session/case.hpp"
#include "sim/session/drive.hpp"

namespace hatring::answer {

//! Largest change of the share between the last two runs [-], and the runs it may take.
inline constexpr double kShareTolerance = 1e-3;
inline constexpr int kShareRuns = 6;

//! Gives the drive its share and runs it. By hydraulics the share hangs on the pads' temperature and that on the
//! share: run, take the share of every recorded moment of braking from the temperatures, and run again until no share
//! changes by more than kShareTolerance. The axles meet through this curve alone, so each is solved by itself. A
//! braking without a recorded moment takes the share of its neighbours.
//! \param record solves both axles with the drive's share and fills `history`
//! \returns law, runs, change and settled
BrakeBalance settle_share(const session::Case& c, session::Drive& drive, const History& history,
                          const std::function<void()>& record);

}  // namespace hatring::answer
