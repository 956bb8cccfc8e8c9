// SPDX-License-Identifier: MIT
//! \file
//! Temperatures of the surfaces that rub, which the network's cells do not hold: by the heat that enters them.
//! Checked by tests/sim/solve/test_wheel_system.cpp.
#pragma once

#include <Eigen/Core>
#include <utility>
#include <vector>

#include "sim/network/network.hpp"
#include "sim/solve/lane_system.hpp"

namespace hatring::solve {

class RubbedSurfaces {
 public:
  //! \param network outlives this
  explicit RubbedSurfaces(const network::Network& network);

  //! For node temperatures t [K] under a load.
  void find(const Eigen::VectorXd& t, const Load& load);

  //! One friction face (Network::faces) [K]: a parabola through the first cell that has the cell's mean and the flux at
  //! both its ends.
  [[nodiscard]] double face(std::size_t index) const { return face_[index]; }
  //! Mean of the faces of one side, outboard or inboard, by area [K]; NaN where it has none.
  [[nodiscard]] double side(bool inboard) const;
  //! The pad of one side; as hot as its first cell where nothing rubs it, NaN where there is none [K].
  [[nodiscard]] double pad(bool inboard) const { return pad_[inboard ? 1 : 0]; }

 private:
  struct PadFace {
    network::NodeId cell;
    double heat = 0, conductance = 0;
  };
  const network::Network& network_;
  std::vector<std::vector<std::size_t>> rubbing_face_;  // faces of the cell that a rubbing heats
  std::vector<std::size_t> rubbing_pad_;                // index into pads_
  std::vector<std::size_t> like_;                       // by face: the first that is as hot, where sides were merged
  std::vector<double> heat_, face_;                     // by face: what enters it [W]; its temperature [K]
  std::vector<PadFace> pads_;
  std::vector<std::pair<network::NodeId, const network::HeatContent*>> near_;  // nodes at the surfaces
  Eigen::VectorXd resistivity_;                                                // of these, by node
  double area_[2] = {0, 0};
  double pad_[2] = {0, 0};
};

}  // namespace hatring::solve
