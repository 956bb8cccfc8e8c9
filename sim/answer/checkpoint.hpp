// SPDX-License-Identifier: MIT
//! \file
//! What a run can go on from: the state of both wheels at one moment of a session.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "sim/answer/joint_load_recorder.hpp"
#include "sim/answer/ring_stress_recorder.hpp"

namespace hatring::answer {

//! One wheel at one moment: its heat, and what its ring and joint remember of earlier heat.
struct AxleState {
  Eigen::VectorXd heat;  //!< of every node [J]
  RingStressRecorder::Memory ring{};
  JointLoadRecorder::Memory joint{};
};

struct Checkpoint {
  double time = 0;  //!< of the session that was recorded [s]
  AxleState front, rear;
};

//! Where a recording of one wheel begins and which states it keeps on the way.
struct Passage {
  const AxleState* start = nullptr;  //!< at the first of the times; null: as the network starts
  std::vector<double> marks{};       //!< rising, each of them one of the times [s]
  std::vector<AxleState> kept{};     //!< filled, one a mark
};

}  // namespace hatring::answer
