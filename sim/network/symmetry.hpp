// SPDX-License-Identifier: MIT
//! \file
//! Nodes that stand for one another. Two nodes that hold alike, exchange alike with nodes that stand for one another
//! and begin equally hot stay equally hot for ever, so that one of them need be solved: the two sides of a disc in a
//! fixed caliper. No part is looked for by name; a shield, a sliding caliper or a hotter side sets the sides apart. (In
//! graph theory: the coarsest equitable partition, found by refining colours.)
#pragma once

#include <Eigen/Core>
#include <vector>

#include "sim/network/network.hpp"

namespace hatring::network {

struct Symmetry {
  std::vector<int> group;     //!< by node of the whole network: node of the reduced one that stands for it
  std::vector<NodeId> first;  //!< by node of the reduced network: the first that it stands for
  std::vector<int> members;   //!< and how many

  //! \param heat of every node of the reduced network  \returns that of every node of the whole one [J]
  [[nodiscard]] Eigen::VectorXd spread(const Eigen::VectorXd& heat) const;
};

//! Groups that hold in every one of some networks. \param networks with the same parts in the same order
//! \param heats of the nodes of each at the start [J]
[[nodiscard]] Symmetry symmetry(const std::vector<const Network*>& networks,
                                const std::vector<std::vector<double>>& heats);

//! The network with one node for each group. What passes between its nodes is the sum of what passes between those they
//! stand for; faces, probes and means read the same from it. Masses of whole parts, inertia and remarks are left out.
[[nodiscard]] Network reduced(const Network& whole, const Symmetry& symmetry);

}  // namespace hatring::network
