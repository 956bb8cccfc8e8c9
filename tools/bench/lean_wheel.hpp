// SPDX-License-Identifier: MIT
//! \file
//! The heat balance of one wheel for methods that want rates and nothing else: what solve::WheelSystem::rates gives for
//! the nodes, without allocations, integrals or what our steps are expanded by. tests/tools/bench holds the two
//! together.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "sim/network/network.hpp"
#include "sim/solve/lane_system.hpp"

namespace hatring::bench {

class LeanWheel {
 public:
  //! \param network outlives this, and is valid  \param load called with times inside the current window
  LeanWheel(const network::Network& network, solve::LoadFunction load);

  //! The load may jump at both ends: it is evaluated strictly inside.
  void set_window(double begin, double end);
  //! Heat of every node at the start [J].
  [[nodiscard]] Eigen::VectorXd initial_state() const;
  //! Rates of the nodes' heat [W].
  void rates(double t, const double* heat, double* rate);

 private:
  struct Conductor {
    int a, b;
    double shape_a, shape_b, resistance;
  };
  struct Pair {
    int a, b;
    double factor;
  };
  struct Cooled {
    int node, air, table;
    double scale;
  };
  void load_at(double t);
  void cool(double* rate);

  const network::Network& network_;
  solve::LoadFunction load_function_;
  double begin_ = -1e300, end_ = 1e300, time_ = -1e300;
  solve::Load load_;
  network::SpeedWeights speed_;
  Eigen::VectorXd temperature_, resistivity_;  // by node
  std::vector<double> inverse_mass_, fourth_;  // by node
  std::vector<double> radiance_;               // to outside, by node [W/K4]
  std::vector<Conductor> conductors_;
  std::vector<network::Link> pressed_;
  std::vector<Pair> pairs_;
  std::vector<Cooled> cooled_;              // surfaces of one table stand together
  std::vector<double> difference_, place_;  // by cooled surface
};

}  // namespace hatring::bench
