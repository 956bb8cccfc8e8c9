// SPDX-License-Identifier: MIT
//! \file
//! How a lap was braked, and against another lap of the same track. Checked by tests/sim/answer/test_braking_style.cpp.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "sim/session/drive.hpp"

namespace hatring::answer {

struct BrakingStyle {
  double point = 0;                        //!< where it begins, from the start of the lap [m]
  double entry_speed = 0, exit_speed = 0;  //!< [m/s]
  double slowest = 0;                      //!< from its begin to the next braking, or the end [m/s]
  double slowest_at = 0;                   //!< from the start of the lap [m]
  double hardest = 0, mean = 0;            //!< slowing [m/s2]
  //! 1 - mean / hardest: 0 for a pedal that is hit, held and dropped, 1/2 for one that is let out evenly from the first
  //! moment; more is trailed further into the corner.
  double rounding = 0;
};

//! One for each of the drive's brakings, in order.
[[nodiscard]] std::vector<BrakingStyle> braking_styles(const session::Drive& drive);

//! The same place of the track in both laps; where one of them does not brake it has no index.
struct MatchedBraking {
  std::optional<std::size_t> one, other;
  double lost = 0;  //!< time that the one takes longer from here to the next such place [s]
};

//! One lap against another. Distances of the other are stretched so that both laps are as long: lines and wheels differ
//! by about 1 % (common practice, no source).
struct AgainstLap {
  double stretch = 1;                    //!< length of the one over that of the other
  double lost = 0;                       //!< time that the one takes longer [s]
  double shift = 0;                      //!< by which the other fits clearly better; 0 when as they lie [m]
  std::vector<double> distance;          //!< along the one [m]
  std::vector<double> time, speed;       //!< of the one there [s] [m/s]
  std::vector<double> other_speed;       //!< [m/s]
  std::vector<double> lost_at;           //!< so far [s]
  std::vector<MatchedBraking> brakings;  //!< by place
};

//! Brakings that begin within this distance of each other are one place (our choice: less than lies between two
//! corners) [m].
inline constexpr double kSamePlace = 80;

[[nodiscard]] AgainstLap against(const session::Drive& one, const session::Drive& other);

//! Distances from the start, evenly over the drive, about `kStep` apart and at most `kPoints`.
[[nodiscard]] std::vector<double> places_along(const session::Drive& drive);
//! Speeds and times at rising distances.
struct Along {
  std::vector<double> time, speed;  //!< [s] [m/s]
};
[[nodiscard]] Along along(const session::Drive& drive, const std::vector<double>& distance);

}  // namespace hatring::answer
