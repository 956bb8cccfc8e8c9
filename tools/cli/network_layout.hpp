// SPDX-License-Identifier: MIT
//! \file
//! Where each node of a network stands in its drawing.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "sim/network/network.hpp"
#include "tools/cli/svg.hpp"

namespace hatring::tools {

//! Nodes that lose heat together in the drawing.
enum class Group { ring, joint, hat, pad, piston, fluid, caliper, hub, wheel, air };
[[nodiscard]] Group group_of(const network::Node& node);

//! Heat that a group loses one way: all surfaces of one law, or all radiation.
struct Loss {
  Group group = Group::ring;
  std::string label;  //!< "vane passages"
  bool radiation = false;
  bool outside = false;    //!< straight to the outside air, not to the air in the wheel
  double conductance = 0;  //!< of convection [W/K]
  double factor = 0;       //!< of radiation [m2]
};
//! \param speed at which convection is shown [m/s]
[[nodiscard]] std::vector<Loss> losses_of(const network::Network& network, double speed);

struct NodeBox {
  Box box;
  std::string label;
  bool upright = false;  //!< too narrow for words in line
};

struct Layout {
  std::vector<NodeBox> nodes;           //!< as Network::nodes
  Box ring, hat, outer_pad, inner_pad;  //!< frames around the nodes of a part
  Box outside;                          //!< the outside air
  std::map<Group, double> loss_top;     //!< where the first line of a group's losses runs
  double left = 0;                      //!< column kept free for the line from caliper to wheel
  double width = 0, height = 0;
};

inline constexpr double kLossPitch = 15;  //!< between the lines of two losses

[[nodiscard]] Layout lay_out(const network::Network& network, const std::vector<Loss>& losses);

}  // namespace hatring::tools
