// SPDX-License-Identifier: MIT
//! \file
//! All recorders of one wheel: from the solver's state at each recorded moment to the columns of an axle.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "sim/answer/checkpoint.hpp"
#include "sim/answer/joint_load_recorder.hpp"
#include "sim/answer/joint_recorder.hpp"
#include "sim/answer/recorders.hpp"
#include "sim/answer/ring_stress_recorder.hpp"
#include "sim/answer/run.hpp"
#include "sim/solve/rubbed_surfaces.hpp"

namespace hatring::answer {

class AxleRecorder {
 public:
  //! \param start heat of every node at the first of the times [J]  \param rows to be recorded
  AxleRecorder(const Wheel& wheel, session::Axle axle, const Eigen::VectorXd& start, std::size_t rows);
  // Its recorders point at its columns.
  AxleRecorder(const AxleRecorder&) = delete;
  AxleRecorder& operator=(const AxleRecorder&) = delete;

  //! \param state of this wheel: heats, then integrals [J]  \param node temperature of every node [K]
  void observe(double time, const Eigen::VectorXd& state, const Eigen::VectorXd& node, const solve::Load& load);
  //! What was recorded. \param times of the rows [s]
  [[nodiscard]] AxleHistory finish(const std::vector<double>& times);

 private:
  [[nodiscard]] Snapshot look(double time, const Eigen::VectorXd& state, const Eigen::VectorXd& node,
                              const solve::Load& load);

  const Wheel wheel_;
  session::Axle axle_;
  solve::RubbedSurfaces surfaces_;
  std::vector<double> part_;
  network::NodeId pads_[2];
  Columns columns_;
  TemperatureRecorder temperatures_;
  JointRecorder joint_;
  JointLoadRecorder loads_;
  RingStressRecorder stresses_;
  PedalRecorder pedal_;
  HeatRecorder heat_;
};

}  // namespace hatring::answer
