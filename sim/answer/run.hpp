// SPDX-License-Identifier: MIT
//! \file
//! One run: Case in, everything it led to out. The way through the program is read here.
#pragma once

#include <vector>

#include "sim/answer/answers.hpp"
#include "sim/answer/checkpoint.hpp"
#include "sim/answer/history.hpp"
#include "sim/network/network.hpp"
#include "sim/session/case.hpp"
#include "sim/session/drive.hpp"
#include "sim/solve/stepper.hpp"
#include "sim/solve/tableau.hpp"

namespace hatring::answer {

struct RunOptions {
  solve::StepOptions step;  //!< tolerances; see sim/solve/stepper.hpp
  const solve::Tableau* tableau = &solve::ros34pw2();
};

struct Run {
  session::Drive drive;
  network::Network front, rear;
  History history;
  Answers answers;
};

//! \throws session::CaseError when the case cannot be run, solve::SolveError when the solver must give up
[[nodiscard]] Run run(const session::Case& c, const RunOptions& options = {});

//! Highest speed of the session, on which its networks are tabulated [m/s].
[[nodiscard]] double highest_speed(const session::Drive& drive);

//! Times at which a run is recorded: every Output::interval while moving, Output::parked_interval while parked or
//! rolling, and the ends of every span [s].
[[nodiscard]] std::vector<double> record_times(const session::Case& c, const session::Drive& drive);

//! Fills speed, distance and lap at the times of a history.
void fill_course(const session::Drive& drive, History& h);

//! Puts the columns of the group `rate` in place, from the columns of what changes. \param times of the rows [s]
void add_rates(const session::Case& c, const std::vector<double>& times, std::vector<Column>& columns);

//! Solves one wheel from the first to the last of the times and records it at each. Cumulative columns start at zero.
[[nodiscard]] AxleHistory record_axle(const session::Case& c, const session::Drive& drive, session::Axle axle,
                                      const network::Network& network, const std::vector<double>& times,
                                      const RunOptions& options, SolverWork& work, Passage* passage = nullptr);

}  // namespace hatring::answer
