// SPDX-License-Identifier: MIT
//! \file
//! One wheel's network in one scenario: its state as temperatures, and its heat balance stated plainly.
#pragma once

#include <Eigen/Core>

#include "sim/network/network.hpp"
#include "sim/solve/lane_system.hpp"

namespace hatring::solve {

//! State x = [H (n) [J]; integrals of WheelIntegral [J]].
class WheelSystem {
 public:
  //! \param network outlives the system  \param load called with times inside the current window
  //! \throws std::invalid_argument when the network is not valid
  WheelSystem(const network::Network& network, LoadFunction load);

  //! The load may jump at both ends of [begin, end]: evaluate it strictly inside.
  void set_window(double begin, double end) { lanes_.set_window(begin, end); }

  //! State at the start: the nodes' starting temperatures, all integrals zero.
  [[nodiscard]] Eigen::VectorXd initial_state() const { return lanes_.initial_state(); }
  [[nodiscard]] int nodes() const { return lanes_.nodes(); }
  [[nodiscard]] static int integrals() { return kIntegrals; }

  //! The system as the stepper knows it.
  [[nodiscard]] LaneSystem<double>& lanes() { return lanes_; }

  //! dx/dt as the network states it, evaluated apart from the kernels: for other solvers, and to hold them against.
  void rates(double t, const Eigen::VectorXd& x, Eigen::VectorXd& dxdt) const;

  //! The load inside the current window.
  [[nodiscard]] Load load_at(double time) const { return lanes_.load_at(time); }

  //! Temperatures of a state, without touching the linearisation [K].
  void temperatures_of(const Eigen::VectorXd& x, Eigen::VectorXd& temperature) const {
    lanes_.temperatures_of(x, temperature);
  }
  [[nodiscard]] const network::Network& network() const { return network_; }

 private:
  const network::Network& network_;
  LaneSystem<double> lanes_;
};

}  // namespace hatring::solve
