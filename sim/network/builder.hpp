// SPDX-License-Identifier: MIT
//! \file
//! Shared by the files that build one part of the network each; not for use outside sim/network.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "models/disc_geometry.hpp"
#include "sim/network/cooling.hpp"
#include "sim/network/mesh.hpp"
#include "sim/network/network.hpp"

namespace hatring::network {

//! The friction ring's nodes, as the other parts need them.
struct RingNodes {
  struct BoreCell {
    NodeId node;
    double thickness;  //!< [m]
  };
  std::vector<NodeId> all;
  std::vector<BoreCell> bore;  //!< cells of the innermost band, outboard then inboard, each from its face to mid-plane
  double bore_half_width = 0;  //!< half the radial width of that band [m]
  std::vector<double>
      swept_edges;  //!< radii that bound the rubbed bands, in the order of Network::faces of one side [m]
  double bore_radius = 0;
};

struct HatNodes {
  NodeId lug = -1, fastener = -1, flange = -1, face = -1, hub = -1;
  std::vector<NodeId> bell;  //!< from the flange to the face
};

class Builder {
 public:
  Builder(const session::Case& c, session::Axle axle, double highest_speed, const MeshCounts& cut);

  const session::Case& c;
  const session::Brake& brake;
  const std::string axle;  //!< "front" or "rear", for messages
  const MeshCounts counts;
  const Cooling cooling;
  Network net;
  NodeId air = kAmbient;  //!< the air in the wheel; outside when convection is pinned
  NodeId wheel = -1;      //!< wheel centre and upright

  //! \throws session::CaseError when the material is unknown
  [[nodiscard]] const models::Material& material(const std::string& name) const;
  NodeId add(std::string name, Part part, double mass, const std::string& material);
  //! Half of a cell: length / area, for Link::shape_a and shape_b.
  [[nodiscard]] static double half(double length, double area) { return 0.5 * length / area; }

  //! A convecting surface. Those of one law share a table. \param name of the law, for those who ask
  //! \param scale area [m2], or share of what the law says of a whole [-]
  void cool(NodeId node, NodeId air, double scale, const std::string& name, const Law& law);
  //! Grey radiation to the surroundings (or between nodes), unless radiation is off.
  void radiate(NodeId a, NodeId b, double factor);

 private:
  [[nodiscard]] int content(const std::string& material);
  std::map<std::string, int> content_by_material_;
  std::vector<Law> laws_;  // of Network::tables
};

[[nodiscard]] models::HatGeometry hat_geometry(const session::Rotor& rotor);
[[nodiscard]] models::VaneGeometry vane_geometry(const session::Ring& ring);  //!< of a vented ring

[[nodiscard]] RingNodes build_ring(Builder& b);
[[nodiscard]] HatNodes build_hat(Builder& b, const RingNodes& ring);
void build_caliper(Builder& b, const RingNodes& ring);
//! Adds up masses and inertia of what turns, once every part has its final mass.
void add_up_masses(Builder& b);

}  // namespace hatring::network
