// SPDX-License-Identifier: MIT
//! \file
//! How many hot laps: the cool-down search the other way round.
#pragma once

#include <optional>
#include <vector>

#include "sim/answer/cooldown.hpp"

namespace hatring::answer {

//! The most hot laps in a row that hold every limit, and what the next one would break.
struct MostLaps {
  int laps = 0;                    //!< of the session's last step of hot laps
  std::optional<Verdict> limit{};  //!< none when the search ended before any was passed
};

//! A lift-and-coast lap after every so many hot ones.
struct RestRow {
  int every = 0;          //!< hot laps between two of them
  double pace = 0;        //!< of the lift-and-coast lap [-]
  double rest_costs = 0;  //!< one such lap over a hot one [s]
  double lap_costs = 0;   //!< average lap over a hot one [s]
  MostLaps hot{};         //!< hot laps, those between lift-and-coast laps counted alone
  bool settled = false;   //!< one round is like the next, so it can go on for as long as fuel and pads last
};

struct HotLaps {
  int planned = 0, searched = 0;      //!< laps in the session; where the search ended
  double lap_time = 0;                //!< of a hot lap [s]
  MostLaps driving;                   //!< limits on the hot laps themselves
  MostLaps with_plan, with_park_now;  //!< and those of the cool-down after them: the chosen plan, parking at once
  std::vector<RestRow> rests;
};

//! Number of hot laps for which run_hot() gives the search all it needs.
[[nodiscard]] int laps_to_search(const session::Case& c);

//! \param hot of laps_to_search() laps
[[nodiscard]] HotLaps search_hot_laps(const session::Case& c, const HotRun& hot, const Plan& chosen,
                                      const RunOptions& options = {});

}  // namespace hatring::answer
