// SPDX-License-Identifier: MIT
//! \file
//! Temperatures of the surfaces that rub, which the network's cells do not hold: by the heat that enters them.
//! Checked by tests/sim/solve/test_wheel_system.cpp.
#pragma once

#include <Eigen/Core>
#include <utility>
#include <vector>

#include "sim/network/network.hpp"
#include "sim/solve/loads.hpp"

namespace hatring::solve {

class RubbedSurfaces {
 public:
  //! \param network outlives this
  explicit RubbedSurfaces(const network::Network& network);

  //! For temperatures t under some loads, moments by nodes [K].
  void find(const Eigen::ArrayXXd& t, const Loads& loads);
  //! For those of one moment, by node [K].
  void find(const Eigen::VectorXd& t, const Load& load);

  //! One friction face (Network::faces) at each moment [K]: a parabola through the first cell that has the cell's mean
  //! and the flux at both its ends.
  [[nodiscard]] auto face(std::size_t index) const { return face_.col(static_cast<Eigen::Index>(index)); }
  //! Mean of the faces of one side, outboard or inboard, by area at each moment [K]; NaN where it has none.
  [[nodiscard]] Series side(bool inboard) const;
  //! The pad of one side at each moment; as hot as its first cell where nothing rubs it, NaN where there is none [K].
  [[nodiscard]] auto pad(bool inboard) const { return pad_.col(inboard ? 1 : 0); }

 private:
  struct PadFace {
    network::NodeId cell;
    Series heat{}, conductance{};
  };
  void rub(const Eigen::ArrayXXd& t, const Loads& loads);

  const network::Network& network_;
  std::vector<std::vector<Eigen::Index>> rubbing_face_;  // faces of the cell that a rubbing heats
  std::vector<std::size_t> rubbing_pad_;                 // index into pads_
  std::vector<Eigen::Index> like_;                       // by face: the first that is as hot, where sides were merged
  std::vector<PadFace> pads_;
  std::vector<std::pair<network::NodeId, const network::HeatContent*>> near_;  // nodes at the surfaces
  Eigen::ArrayXXd resistivity_;                                                // of these, moments by nodes
  Eigen::ArrayXXd heat_, face_;  // moments by faces: what enters it [W]; its temperature [K]
  Eigen::ArrayXXd pad_;          // moments by sides
  double area_[2] = {0, 0};
};

}  // namespace hatring::solve
