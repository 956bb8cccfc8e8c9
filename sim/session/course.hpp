// SPDX-License-Identifier: MIT
//! \file
//! The course: all steps of a session strung together on one clock. Energy and heat come later (ledger.hpp).
#pragma once

#include <vector>

#include "sim/session/drive.hpp"
#include "sim/session/profile.hpp"

namespace hatring::session {

//! Automatic stop before parking, pull-away after it, and how much of the time between two snubs the return to speed
//! may take (all ours: an unhurried driver).
inline constexpr double kStopDeceleration = 1.5;  //!< [m/s2]
inline constexpr double kPullAway = 2;            //!< [m/s2]
inline constexpr double kReturnShare = 0.7;

//! A session may have so many pieces (a day of racing at 10 samples a second has a third of it) and last so long.
inline constexpr std::size_t kMostPieces = 3'000'000;
inline constexpr double kLongestSession = 14 * 86400.0;  //!< [s]

struct Course {
  std::vector<Piece> pieces;       //!< contiguous; `braking` indexes `brakings`
  std::vector<Span> spans;         //!< contiguous
  std::vector<Interval> brakings;  //!< rising, at least kBlip apart
  std::vector<BenchHeat> holds;    //!< rising
  std::vector<double> bounds;      //!< begins and ends of parking and holds, changes of air, session begin and end [s]
  std::vector<AirSpell> airs;      //!< rising; the first from 0 on
};

//! \throws CaseError naming the session entry
[[nodiscard]] Course compose(const Case& c, const Road& road);

}  // namespace hatring::session
