// SPDX-License-Identifier: MIT
//! \file
//! All recorders of one wheel: from the solver's state at each recorded moment to the columns of an axle.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "sim/answer/checkpoint.hpp"
#include "sim/answer/joint_load_recorder.hpp"
#include "sim/answer/joint_recorder.hpp"
#include "sim/answer/means.hpp"
#include "sim/answer/recorders.hpp"
#include "sim/answer/ring_stress_recorder.hpp"
#include "sim/answer/run.hpp"
#include "sim/network/symmetry.hpp"
#include "sim/solve/rubbed_surfaces.hpp"

namespace hatring::answer {

class AxleRecorder {
 public:
  //! \param solved the network whose nodes are observed: the wheel's, reduced by the symmetry; both outlive this
  //! \param rows to be recorded
  AxleRecorder(const Wheel& wheel, session::Axle axle, const network::Network& solved,
               const network::Symmetry& symmetry, std::size_t rows);
  // Its recorders point at its columns.
  AxleRecorder(const AxleRecorder&) = delete;
  AxleRecorder& operator=(const AxleRecorder&) = delete;

  //! \param rows that follow the last, at least one; takes their surfaces and parts. The very first is at the first of
  //! the times, from which heat is counted.
  void observe(Moments& rows);
  //! Whether the passage has a mark at that time: observe all rows up to it, then keep(), then the later rows.
  [[nodiscard]] bool due(double time) const;
  //! Keeps what the passage wants at its mark. \param state heat of each node, then integrals [J]
  void keep(const Eigen::VectorXd& state);
  //! What was recorded. \param times of the rows [s]
  [[nodiscard]] AxleHistory finish(const std::vector<double>& times);

 private:
  const Wheel wheel_;
  session::Axle axle_;
  const network::Symmetry& symmetry_;
  solve::RubbedSurfaces surfaces_;
  Means parts_;  // of the probes
  Columns columns_;
  TemperatureRecorder temperatures_;
  JointRecorder joint_;
  JointLoadRecorder loads_;
  RingStressRecorder stresses_;
  PedalRecorder pedal_;
  HeatRecorder heat_;
};

}  // namespace hatring::answer
