// SPDX-License-Identifier: MIT
//! \file
//! One run: Case in, everything it led to out. The way through the program is read in running.cpp.
#pragma once

#include <functional>
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

using Tasks = std::vector<std::function<void()>>;

struct RunOptions {
  solve::StepOptions step;  //!< tolerances; see sim/solve/stepper.hpp
  int lanes = 8;            //!< most scenarios that are solved side by side
  const solve::Tableau* tableau = &solve::ros34pw2();
  //! Does tasks that know nothing of each other, such as both axles: one after the other, or at the same time.
  //! Done when none is running any more, and only then \throws what one of them threw. \param tasks at least one
  std::function<void(const Tasks&)> together = [](const Tasks& tasks) {
    for (const auto& task : tasks) task();
  };
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

//! One wheel in one scenario. All of it outlives its recording.
struct Wheel {
  const session::Case& c;
  const session::Drive& drive;
  const network::Network& network;
  Passage* passage = nullptr;
};

//! How many of so many wheels the next record_axles() is to take.
[[nodiscard]] std::size_t side_by_side(std::size_t wheels, const RunOptions& options);

//! Solves wheels side by side from the first to the last of the times and records each at each. Cumulative columns
//! start at zero. \param wheels with networks that are solve::alike() and drives with as many restarts, a few
//! milliseconds apart; as many as side_by_side() says \param work of one of them
//! \throws solve::SolveError when one of them fails
[[nodiscard]] std::vector<AxleHistory> record_axles(session::Axle axle, const std::vector<Wheel>& wheels,
                                                    const std::vector<double>& times, const RunOptions& options,
                                                    SolverWork& work);

}  // namespace hatring::answer
