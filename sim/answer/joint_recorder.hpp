// SPDX-License-Identifier: MIT
//! \file
//! Hat and ring at the bolt circle, moment by moment.
#pragma once

#include "sim/answer/recorders.hpp"

namespace hatring::answer {

//! Thermal strain from 20 degC, linear between points 1 K apart: each recorded moment asks for every ring node.
class StrainTable {
 public:
  StrainTable() = default;
  //! \param constant the 20 degC coefficient at every temperature
  StrainTable(const models::Material& material, bool constant);
  [[nodiscard]] double operator()(double temperature) const;

 private:
  std::vector<double> values_;
};

class JointRecorder {
 public:
  JointRecorder(const session::Case& c, session::Axle axle, const network::Network& network, Columns& columns);
  void observe(const Snapshot& now);

 private:
  // Ring minus hat [m].
  [[nodiscard]] double differential(const Snapshot& now) const;

  const session::Rotor& rotor_;
  const network::Network& network_;
  Columns& columns_;
  bool applicable_, floats_;
  double ring_mass_ = 0, restraint_ = 0;
  StrainTable iron_, hat_;
  std::size_t lug_, flange_, bell_;
  std::size_t growth_, outward_, inward_;
};

}  // namespace hatring::answer
