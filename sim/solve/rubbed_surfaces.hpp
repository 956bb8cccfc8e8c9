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

//! A few moments that follow one another are looked at together, at most this many: so that a number of each, a
//! Series, needs no memory of its own. (An odd number of lines of a cache, so that series beside one another do not
//! push one another out of it.)
inline constexpr int kMostMoments = 72;
using Series = Eigen::Array<double, Eigen::Dynamic, 1, Eigen::ColMajor, kMostMoments, 1>;

//! The load at each moment.
struct Loads {
  Series speed, heat, applied;  //!< as in Load

  void resize(Eigen::Index moments) {
    for (Series* const series : {&speed, &heat, &applied}) series->conservativeResize(moments);
  }
  [[nodiscard]] Load operator[](Eigen::Index i) const { return {speed[i], heat[i], applied[i]}; }
  void set(Eigen::Index i, const Load& load) {
    speed[i] = load.speed;
    heat[i] = load.heat;
    applied[i] = load.applied;
  }
};

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
