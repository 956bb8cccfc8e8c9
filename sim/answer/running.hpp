// SPDX-License-Identifier: MIT
//! \file
//! A run on its way: made ready, recorded as often as its brake share asks for, answered. Its wheels may be solved side
//! by side with those of others.
#pragma once

#include <vector>

#include "sim/answer/run.hpp"
#include "sim/answer/share.hpp"

namespace hatring::answer {

class Running {
 public:
  //! \param c outlives this  \throws session::CaseError
  explicit Running(const session::Case& c, const RunOptions& options = {});
  //! Of a case that differs from another's by a factor on every convection coefficient alone; takes over what is alike.
  Running(const session::Case& c, const Running& other, double convection);
  // The share is settled on its own drive.
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;

  //! Whether it must be recorded (again).
  [[nodiscard]] bool again() { return share_.again(run_.drive, run_.history); }
  //! Once it need not. Nothing is left of it then.
  [[nodiscard]] Run finish();

  //! Whether both go over about the same moments with the same parts, so that they can be recorded side by side.
  [[nodiscard]] bool alike(const Running& other) const;

 private:
  friend void record(const std::vector<Running*>& runs, const RunOptions& options);

  const session::Case& case_;
  Run run_;
  double speed_;
  ShareSettling share_;
};

//! Records both wheels of runs that are alike, side by side; as many of them as side_by_side() says.
//! \throws solve::SolveError when one of them fails
void record(const std::vector<Running*>& runs, const RunOptions& options);

}  // namespace hatring::answer
