// SPDX-License-Identifier: MIT
//! \file
//! Methods of other orders for our stepper, to see which order a session wants. tests/tools/bench checks the order
//! conditions of each.
#pragma once

#include "sim/solve/tableau.hpp"

namespace hatring::bench {

//! ROS2 of Verwer, Spee, Blom and Hundsdorfer, SIAM J. Sci. Comput. 20 (1999) 1456-1480: two stages, order 2 with any
//! matrix in place of the Jacobian, embedded order 1. Coefficients from memory, confirmed by the order conditions.
[[nodiscard]] const solve::Tableau& ros2();

//! ROS4, the L-stable one of Hairer and Wanner, "Solving Ordinary Differential Equations II", sec. IV.7: four stages,
//! order 4 with the exact Jacobian, embedded order 3. Coefficients from memory, confirmed by the order conditions.
[[nodiscard]] const solve::Tableau& ros4();

}  // namespace hatring::bench
