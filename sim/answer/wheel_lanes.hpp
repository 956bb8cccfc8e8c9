// SPDX-License-Identifier: MIT
//! \file
//! Wheels in the lanes of one system, which solves nodes that stay as hot as one another but once
//! (sim/network/symmetry.hpp); and the way back to each wheel.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <functional>
#include <vector>

#include "sim/answer/moments.hpp"
#include "sim/answer/run.hpp"
#include "sim/network/symmetry.hpp"
#include "sim/solve/stepper.hpp"

namespace hatring::answer {

template <class Real>
class WheelLanes {
 public:
  //! \param wheels that are solve::alike(), at most as many as the kernel has lanes; outlive this
  WheelLanes(session::Axle axle, const std::vector<Wheel>& wheels, const solve::WheelKernel<Real>& kernel);

  [[nodiscard]] solve::LaneSystem<Real>& system() { return system_; }
  //! State of the system at the first of the times: as each network starts, or as its passage does.
  [[nodiscard]] Eigen::VectorXd start() const;
  [[nodiscard]] const network::Symmetry& symmetry() const { return symmetry_; }
  //! The network of which the system solves that wheel.
  [[nodiscard]] const network::Network& solved(std::size_t wheel) const { return networks_[wheel]; }
  //! Heat of every node of solved(wheel), then its integrals [J]. \param x a state of the system
  [[nodiscard]] Eigen::VectorXd state(const Eigen::VectorXd& x, std::size_t wheel) const;

  using Vector = typename solve::LaneSystem<Real>::Vector;
  //! Keeps a moment as the next of every wheel, until there are enough of them.
  void keep(double time, const solve::DenseState<Vector>& at);
  [[nodiscard]] bool full() const { return count_ == solve::kMostMoments; }
  //! Hands over what was kept of each wheel, which is without surfaces and parts, and begins anew. Nothing kept, no
  //! call.
  void hand_over(const std::function<void(std::size_t wheel, Moments& moments)>& take);

 private:
  const std::vector<Wheel>& wheels_;
  std::vector<std::vector<double>> heats_;  // of every node at the start, by wheel [J]
  network::Symmetry symmetry_;
  std::vector<network::Network> networks_;  // by wheel
  solve::LaneSystem<Real> system_;
  std::vector<Moments> kept_;  // by wheel, with room for as many as there may be
  Vector temperature_;         // of a moment, as the system has them [K]
  Eigen::VectorXd sums_;       // its integrals and heats that follow [J]
  Eigen::Index count_ = 0;
};

extern template class WheelLanes<double>;
extern template class WheelLanes<float>;

}  // namespace hatring::answer
