// SPDX-License-Identifier: MIT
//! \file
//! The fastest drive along a line that stays below a ceiling and within what the car gains and loses from place to
//! place. Checked by tests/sim/session/test_lap_speed.cpp.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

namespace hatring::session {

struct SpeedBounds {
  std::vector<double> distance;  //!< of the nodes, rising [m]
  std::vector<double> ceiling;   //!< speed that no node may exceed, finite [m/s]
  //! d(v^2/2)/ds between two nodes: the most that speeding up gives (negative where the car cannot hold its speed) and
  //! the most that slowing down takes. Called with the cell's number (0 is between nodes 0 and 1) and a speed [m/s2].
  std::function<double(std::size_t cell, double speed)> gain, loss;
  bool closed = false;  //!< the last node is the first one again
};

//! Speed at each node. Forward and backward passes over the kinetic energy, a Runge-Kutta step of fourth order a cell
//! (Kutta 1901), repeated until no speed changes; on a closed line the passes run across the line.
//! \throws CaseError where the car would come to a stand
[[nodiscard]] std::vector<double> fastest(const SpeedBounds& bounds);

//! Time from the first node to the last, the acceleration constant in each cell [s].
[[nodiscard]] double time_along(const std::vector<double>& distance, const std::vector<double>& speed);

}  // namespace hatring::session
