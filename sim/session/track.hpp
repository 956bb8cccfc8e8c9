// SPDX-License-Identifier: MIT
//! \file
//! A track as a line of stretches, from a driver's list of straights and corners or from smoothed points.
#pragma once

#include <string>
#include <vector>

namespace hatring::session {

//! A stretch of constant curvature, grade and grip.
struct Stretch {
  double length = 0;     //!< [m]
  double curvature = 0;  //!< one over the radius, left positive [1/m]
  double grade = 0;      //!< rise over run, uphill positive [-]
  double grip = 1;       //!< multiplies the grip of the tyres [-]
};

struct Track {
  std::string name;
  std::vector<Stretch> stretches;
  bool closed = true;  //!< the last stretch leads back into the first; otherwise a drive from rest to a flying finish

  [[nodiscard]] double length() const {
    double sum = 0;
    for (const Stretch& s : stretches) sum += s.length;
    return sum;
  }
};

}  // namespace hatring::session
