// SPDX-License-Identifier: MIT
//! \file
//! The heat balance of one wheel written a second time: state is temperature, properties and convection come straight
//! from models/ with no table, both rubbing surfaces are solved for, SUNDIALS CVODE integrates. Only nodes, shapes and
//! areas are shared with the program.
#pragma once

#include <functional>
#include <vector>

#include "models/material.hpp"
#include "sim/network/network.hpp"
#include "sim/session/case.hpp"
#include "sim/solve/wheel_system.hpp"

namespace hatring::test {

class WheelPeer {
 public:
  //! \param c, network and load outlive the peer. The wheel must have no shield.
  WheelPeer(const session::Case& c, session::Axle axle, const network::Network& network,
            std::function<solve::Load(double)> load);

  //! dT/dt [K/s] of every node.
  void rates(double time, const double* temperature, double* rate) const;

  //! Temperatures at each of `outputs`, integrated anew between restarts.
  //! \throws std::runtime_error when CVODE gives up
  [[nodiscard]] std::vector<std::vector<double>> solve(const std::vector<double>& restarts,
                                                       const std::vector<double>& outputs);

 private:
  using Law = std::function<double(double speed, double difference)>;
  [[nodiscard]] Law law_of(const network::Surface& s) const;

  const session::Case& case_;
  const session::Brake& brake_;
  const network::Network& network_;
  std::function<solve::Load(double)> load_;
  double begin_ = 0, end_ = 0;              // the load is asked strictly inside
  std::vector<models::Material> material_;  // by node
  std::vector<Law> laws_;                   // by surface [W/K]
};

}  // namespace hatring::test
