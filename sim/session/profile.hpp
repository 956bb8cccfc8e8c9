// SPDX-License-Identifier: MIT
//! \file
//! A trace made ready to drive: smooth pieces from time 0 and the times when its brakes are on.
#pragma once

#include <vector>

#include "sim/session/braking_search.hpp"
#include "sim/session/case.hpp"

namespace hatring::session {

//! A trace is a drawn line and not a log to be smoothed when its points lie further apart than kDrawnGap for most of
//! its time, or further than kSketchGap with fewer than kSketchPoints in all. Drawn lines are followed exactly [s].
inline constexpr double kDrawnGap = 1.5, kSketchGap = 0.3;
inline constexpr std::size_t kSketchPoints = 20;

struct Profile {
  std::vector<Piece> pieces;  //!< from time 0 and distance 0; `braking` indexes `brakings`
  std::vector<Interval> brakings;
  double noise = 0;  //!< found in the trace; 0 for a drawn one [m/s]

  [[nodiscard]] double length() const;  //!< of the lap [m]
};

//! \throws CaseError when the trace cannot be driven; the message begins with the trace's name
[[nodiscard]] Profile make_profile(const Trace& trace, const Road& road, const Brakes& brakes);

//! The trace on its own clock. Between two points of a distance trace the acceleration is constant, so that the time is
//! twice the distance over the sum of the speeds; that holds at a standing start or stop too, where 1/v does not.
//! \throws CaseError
[[nodiscard]] Samples samples_of(const Trace& trace);

}  // namespace hatring::session
