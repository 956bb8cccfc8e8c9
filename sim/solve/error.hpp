// SPDX-License-Identifier: MIT
#pragma once

#include <stdexcept>
#include <string>

namespace hatring::solve {

//! The integration cannot go on. what() names time, step, node and temperature.
class SolveError : public std::runtime_error {
 public:
  SolveError(const std::string& message, double time, double step, std::string node, double last_good_time)
      : std::runtime_error(message), time(time), step(step), node(std::move(node)), last_good_time(last_good_time) {}
  double time;            //!< [s]
  double step;            //!< [s]
  std::string node;       //!< the worst one
  double last_good_time;  //!< end of the last accepted step [s]
};

}  // namespace hatring::solve
