// SPDX-License-Identifier: MIT
//! \file
//! Hat and ring at the bolt circle, moment by moment.
#pragma once

#include "sim/answer/recorders.hpp"

namespace hatring::answer {

class JointRecorder {
 public:
  JointRecorder(const session::Case& c, session::Axle axle, const network::Network& network, Columns& columns);
  //! \returns the differential expansion, row by row; 0 for a one-piece disc [m]
  solve::Series observe(const Moments& rows);

 private:
  // Ring minus hat [m].
  [[nodiscard]] solve::Series differential(const Moments& rows) const;
  void observe_float(const Moments& rows, const solve::Series& differential);

  const session::Rotor& rotor_;
  Columns& columns_;
  bool applicable_, floats_;
  network::Weights ring_;  // mean of the ring, by mass
  double restraint_ = 0;
  double lug_thickness_ = 0;
  const network::StrainTable *iron_ = nullptr, *hat_ = nullptr, *bobbin_ = nullptr;
  Eigen::Index lug_, flange_, bell_, fastener_;
  std::size_t growth_, outward_, inward_, along_, axial_;
};

}  // namespace hatring::answer
