// SPDX-License-Identifier: MIT
//! \file
//! Hat and ring at the bolt circle, moment by moment.
#pragma once

#include "sim/answer/recorders.hpp"

namespace hatring::answer {

class JointRecorder {
 public:
  JointRecorder(const session::Case& c, session::Axle axle, const network::Network& network, Columns& columns);
  //! \returns the differential expansion now; 0 for a one-piece disc [m]
  double observe(const Snapshot& now);

 private:
  // Ring minus hat [m].
  [[nodiscard]] double differential(const Snapshot& now) const;
  void observe_float(const Snapshot& now, double differential);

  const session::Rotor& rotor_;
  Columns& columns_;
  bool applicable_, floats_;
  network::Weights ring_;  // mean of the ring, by mass
  double restraint_ = 0;
  double lug_thickness_ = 0;
  const network::StrainTable *iron_ = nullptr, *hat_ = nullptr, *bobbin_ = nullptr;
  std::size_t lug_, flange_, bell_, fastener_;
  std::size_t growth_, outward_, inward_, along_, axial_;
};

}  // namespace hatring::answer
