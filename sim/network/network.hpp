// SPDX-License-Identifier: MIT
//! \file
//! The thermal network of one wheel's brake: nodes that hold heat, links that pass it on, surfaces that lose it.
//! A Network is plain data. sim/network/assemble builds it from a Case; tests may build small ones by hand.
#pragma once

#include <array>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "sim/network/conductance_table.hpp"
#include "sim/network/heat_content.hpp"
#include "sim/network/strain_table.hpp"

namespace hatring::network {

using NodeId = int;
inline constexpr NodeId kAmbient = -1;  //!< outside air and surroundings, at Network::ambient

//! Which part a node belongs to; the heat balance counts everything but `wheel` as stored in the brake.
enum class Part { ring, lug, fastener, hat, hub, pad, backing, piston, caliper, fluid, air, wheel };

struct Node {
  std::string name;  //!< "ring.outboard.band1.layer1"
  Part part = Part::ring;
  double mass = 0;         //!< [kg]
  int content = 0;         //!< index into Network::contents
  double temperature = 0;  //!< at the start [K]
};

//! Conduction in series: half of node a, a fixed resistance (contact or none), half of node b.
//! Conductance = 1 / (shape_a / k_a(T_a) + resistance + shape_b / k_b(T_b)); shape = length / area [1/m].
//! Where the brake's pressure makes the contact, the resistance falls to 1 / (1 / resistance + pressed * applied).
struct Link {
  NodeId a = 0, b = 0;
  double shape_a = 0, shape_b = 0;  //!< [1/m]
  double resistance = 0;            //!< [K/W]
  double pressed = 0;  //!< contact conductance added beside the resistance while the pads are applied [W/K]
  std::string family;  //!< "ring", "ring_hat", "hat_hub", ... the name that a config pins it by
};

//! One pad rubbing one band of one ring face. Both surfaces are eliminated (models/friction.hpp, contact_split).
struct Rubbing {
  NodeId ring = 0, pad = 0;
  double share = 0;                      //!< of the wheel's friction power [-]
  double contact = 0;                    //!< contact conductance while the pads are applied [W/K]
  double shape_ring = 0, shape_pad = 0;  //!< half-cell length / area [1/m]
};

//! Convection from a node to the air in the wheel (a node) or to the outside.
struct Surface {
  NodeId node = 0;
  NodeId air = kAmbient;
  int table = 0;     //!< index into Network::tables
  double scale = 1;  //!< times the table (surfaces of the same kind share one) [-]
  std::string law;   //!< what the table holds, in words
};

//! Grey radiation: heat = sigma * factor * (T_a^4 - T_b^4).
struct Radiation {
  NodeId a = 0, b = kAmbient;
  double factor = 0;  //!< emissivity times area times view factor [m2]
};

//! A friction face of the ring at one band: what is needed to reconstruct its surface temperature.
struct Face {
  NodeId cell = 0, below = -1;  //!< first cell under the face, and the next one inward (-1: none)
  double shape = 0;             //!< thickness of the first cell / area [1/m]
  double area = 0;              //!< [m2]
  int link = -1;                //!< index of the link from cell to below
  bool inboard = false;
};

//! Nodes with weights that sum to one.
using Weights = std::vector<std::pair<NodeId, double>>;

//! A radial band of the ring.
struct RingBand {
  double inner = 0, outer = 0;  //!< [m]
  Weights mean;                 //!< of its cells in both cheeks, by mass
};

//! One named result: a mean over nodes with fixed weights. Empty weights: not applicable.
struct Probe {
  std::string name, long_name;
  Weights weights;
};

struct Network {
  double ambient = 293.15;  //!< [K]
  std::vector<HeatContent> contents;
  std::vector<std::string> materials;  //!< names of the contents; empty in a network built by hand
  std::vector<Node> nodes;
  std::vector<Link> links;
  std::vector<Rubbing> rubbings;
  std::vector<Surface> surfaces;
  std::vector<Radiation> radiations;
  std::vector<Face> faces;
  std::vector<Probe> probes;
  ConductanceGrid grid{60};
  std::vector<ConductanceTable> tables;

  //! Fixed split of the friction power instead of contact: share into the ring; negative = by contact.
  double fixed_ring_share = -1;

  // Facts of the assembly, for answers and reports.
  std::map<std::string, StrainTable> strains;  //!< of ring, hat and fasteners, by material; none where it is not known
  std::vector<RingBand> ring_bands;            //!< from the bore outward
  std::array<Weights, 2> cheeks;               //!< mean of the cheek under the rubbed track, outboard and inboard
  std::array<NodeId, 2> pads{-1, -1};          //!< first cell of the pad, outboard and inboard
  double ring_mass = 0, hat_mass = 0;          //!< from geometry [kg]
  double corner_mass = 0, rotating_mass = 0;   //!< as used: disc, pads, caliper, fluid; the disc alone [kg]
  double rotating_inertia = 0;                 //!< of the disc about its axle [kg m2]
  std::vector<std::string> remarks;            //!< "front hat: weighed 1.2 kg, geometry gives 0.9 kg (+33 %)"

  //! Resistance of a link's contact [K/W]. \param applied 0 pads released .. 1 applied
  [[nodiscard]] static double contact(const Link& l, double applied) {
    return l.pressed > 0 ? 1 / (1 / l.resistance + l.pressed * applied) : l.resistance;
  }
  [[nodiscard]] int size() const { return static_cast<int>(nodes.size()); }

  NodeId add(Node node) {
    nodes.push_back(std::move(node));
    return size() - 1;
  }
  //! Conductance through solid matter and contact.
  void link(Link link) { links.push_back(std::move(link)); }
  //! A fixed conductance [W/K]; none where it is zero.
  void link(NodeId a, NodeId b, double conductance, std::string family) {
    if (conductance > 0) links.push_back({a, b, 0, 0, 1 / conductance, 0, std::move(family)});
  }
  //! Faces find the link to the cell below again, after links were taken away or renumbered.
  void relink_faces();
  //! \returns index of the first node with that name, or -1
  [[nodiscard]] NodeId find(std::string_view name) const;
  //! Nodes weighted by mass; negative ones stand for parts that are not there and are left out.
  [[nodiscard]] Weights by_mass(const std::vector<NodeId>& of) const;
  //! What a link conducts while both its ends have that temperature [W/K]. \param applied as in contact()
  [[nodiscard]] double conductance(const Link& l, double temperature, double applied = 0) const;
  //! Heat that warms a node of that temperature by one kelvin [J/K].
  [[nodiscard]] double heat_capacity(const Node& node, double temperature) const;
  //! Heat content of every node at its starting temperature [J].
  [[nodiscard]] std::vector<double> initial_heat() const;
  //! \throws std::invalid_argument naming node or link when something is not physical (mass <= 0, link to itself, ...)
  void validate() const;
};

}  // namespace hatring::network
