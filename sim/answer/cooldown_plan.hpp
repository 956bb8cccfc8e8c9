// SPDX-License-Identifier: MIT
//! \file
//! One way to cool down after the last hot lap, and what comes of it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/answer/answers.hpp"
#include "sim/answer/hot_run.hpp"
#include "sim/answer/leg.hpp"

namespace hatring::answer {

struct Plan {
  double laps = 0;   //!< cool-down laps, in halves
  double pace = 1;   //!< of them; without meaning when there are none [-]
  double roll = 0;   //!< rolling in the paddock [s]
  bool fan = false;  //!< on the parked wheels

  [[nodiscard]] bool park_now() const { return laps == 0 && roll == 0 && !fan; }
};

//! Every plan of the case's `cooldown`, parking at once first; plans with the same laps, then the same roll, stand
//! together.
[[nodiscard]] std::vector<Plan> plans_of(const session::CooldownPlans& space);

//! What matters of one axle on the way down.
struct Soak {
  double at_rest = 0;                                     //!< mean of the ring when the car comes to rest [K]
  double fluid = 0, piston = 0, caliper = 0, hat = 0;     //!< highest from the last hot lap on [K]
  double fluid_after = 0;                                 //!< of that of the fluid, after the car has come to rest [s]
  double cooling = 0;                                     //!< fastest fall of the ring face over the rate window [K/s]
  std::optional<double> largest_growth, smallest_growth;  //!< ring minus hat; none where there is no joint [m]
};

struct Outcome {
  Plan plan{};
  double driving = 0;               //!< from the end of the last hot lap until the car stands [s]
  double cost = 0;                  //!< that, and what the fan counts as [s]
  std::vector<Verdict> verdicts{};  //!< least left first; times from the end of the last hot lap
  double left = 0;                  //!< the least that any limit has left after the last hot lap, see share_left() [-]
  bool holds = false;               //!< every limit that the cool-down can still change is held
  bool unbeaten = false;            //!< no plan leaves more for the same cost or less
  Soak front{}, rear{};

  //! The verdict with the least left among those that count; nullptr when none counts.
  [[nodiscard]] const Verdict* tightest() const;
};

//! Whether a verdict counts for a cool-down: it is judged, on what happens after the last hot lap, and its worst comes
//! after the end of that lap. What was worst at that very end no plan can change.
[[nodiscard]] bool counts_for_plan(const Verdict& v);

//! Runs plans from one checkpoint. Plans in the order of plans_of() share what they have in common.
//! A plan's own drive begins with the last hot lap, so that braking across the line is as in the whole session; only
//! what follows is solved.
class PlanRunner {
 public:
  //! \param hot outlives the runner  \param lap index into hot.after  \throws session::CaseError without a trace
  PlanRunner(const HotRun& hot, std::size_t lap, RunOptions options = {});

  //! \param history when given, filled with all that was recorded; times from the end of the last hot lap
  [[nodiscard]] Outcome run(const Plan& plan, History* history = nullptr);

 private:
  // A part of a plan from the flag on.
  struct Kept {
    std::optional<Plan> plan;
    History history;
    Checkpoint end;
    ShareKnots share{};
  };
  [[nodiscard]] std::vector<session::Step> steps(const Plan& plan) const;
  // What a plan goes on with after `from`, up to `end` on the clock of its drive; empty when that is no later.
  [[nodiscard]] Kept drive_on(const Plan& plan, session::Drive& drive, const Kept& from, double begin,
                              double end) const;
  // Places on the session's laps and on the clock of the cool-down; verdicts in order; what is left.
  void conclude(Outcome& outcome, double flag) const;

  const HotRun& hot_;
  int lap_;
  const Checkpoint& start_;
  RunOptions options_;
  session::Case c_;
  session::DriveStep run_up_, cool_;
  std::size_t half_trace_ = 0;
  Wheels fanned_;
  Kept laps_, rolled_;  // the parts that the last plan had, by what they depend on
};

}  // namespace hatring::answer
