// SPDX-License-Identifier: MIT
//! \file
//! What the cool-down search of a Case tries.
#pragma once

#include <vector>

namespace hatring::session {

//! The plans that a cool-down search tries: every lap count with every pace, every time of rolling, with and without a
//! fan. Parking at once is always one of them.
struct CooldownPlans {
  std::vector<double> laps;       //!< cool-down laps, in halves [-]
  std::vector<double> pace;       //!< of those laps, over the trace's speed [-]
  std::vector<double> roll;       //!< times of rolling in the paddock [s]
  double roll_speed = 0;          //!< [m/s]
  double fan = 0;                 //!< wind that a fan makes around the parked wheel; 0 = no fan at hand [m/s]
  double fan_time = 0;            //!< what fetching and pointing it counts as [s]
  double soak = 0;                //!< how long the parked car is followed [s]
  int most_laps = 0;              //!< the search for the number of hot laps ends there
  std::vector<double> rest_pace;  //!< of lift-and-coast laps between hot ones [-]
};

}  // namespace hatring::session
