// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "sim/session/case.hpp"

namespace hatring::answer {

//! The boiling point that a fluid is held against, and what stands behind it.
struct BoilingPoint {
  double judged = 0;    //!< [K]; 0 where the case has none
  std::string basis{};  //!< "wet", "dry", "aged", "your own"
  double water = 0;     //!< by age [kg/kg]; NaN where no age is given
  double aged = 0;      //!< with that water [K]; NaN where no age is given
};
[[nodiscard]] BoilingPoint boiling_point_of(const session::Fluid& fluid);

}  // namespace hatring::answer
