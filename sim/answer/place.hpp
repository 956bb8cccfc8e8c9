// SPDX-License-Identifier: MIT
#pragma once

#include <string>

namespace hatring::answer {

//! When and where something happened.
struct Place {
  double time = 0;          //!< [s]
  int lap = 0;              //!< 0 when not on a lap
  std::string span{};       //!< "lap 7", "parked", ...
  double lap_distance = 0;  //!< from the start of that lap [m]
};

}  // namespace hatring::answer
