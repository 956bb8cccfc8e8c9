// SPDX-License-Identifier: MIT
//! \file
//! The session up to the end of its last hot lap, run once, with a state to go on from after each of its last hot laps.
#pragma once

#include <vector>

#include "sim/answer/leg.hpp"
#include "sim/answer/share.hpp"

namespace hatring::answer {

struct HotRun {
  session::Case c;          //!< the case as given, air included; its session ends with the last hot lap
  std::size_t step = 0;     //!< index of the last step of hot laps in the session
  session::DriveStep cool;  //!< a cool-down lap: the session's own after the hot laps, or one on the trace of these
  int laps_before = 0;      //!< laps of all steps before it
  session::Drive drive;
  Wheels wheels;
  double highest_speed = 0;  //!< [m/s]
  History history;
  std::vector<Checkpoint> after;  //!< one for each lap of the last step of hot laps
  std::vector<Verdict> verdicts;  //!< of this part of the session, both axles
};

//! Verdicts of both axles on a part of a session, pedal and pads among them. Fatigue is left out, as it needs the whole
//! of it. \param from_start the part begins with the session: wear and window shares are judged only then
[[nodiscard]] std::vector<Verdict> judge_part(const session::Case& c, const session::Drive& drive, const History& h,
                                              bool from_start = false);

//! A part of a session whose share hangs on the faces at its begin, the last row of `before` that is no later than
//! `time`. \param time on the clock of `before` [s]
[[nodiscard]] SharePart share_part(const History& before, double time);

//! What the hat of an axle has been through up to a time of a history, and in every earlier session like it. To go into
//! the case of what comes after.
[[nodiscard]] std::vector<session::Soak> hat_soak(const session::Case& c, session::Axle axle, const History& h,
                                                  double until);

//! Index of the last step of hot laps. \throws session::CaseError when there is none
[[nodiscard]] std::size_t last_hot_step(const session::Case& c);

//! \param laps of the last step of hot laps, in place of its own
//! \param convection factor on every convection coefficient, both axles [-]
//! \throws session::CaseError, solve::SolveError
[[nodiscard]] HotRun run_hot(session::Case c, int laps, double convection = 1, const RunOptions& options = {});

}  // namespace hatring::answer
