// SPDX-License-Identifier: MIT
#include "sim/network/network.hpp"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

namespace hatring::network {

void Network::relink_faces() {
  for (Face& face : faces) {
    face.link = -1;
    for (std::size_t k = 0; k < links.size(); ++k)
      if (links[k].a == face.cell && links[k].b == face.below) face.link = static_cast<int>(k);
    if (face.link < 0) face.below = -1;
  }
}

NodeId Network::find(std::string_view name) const {
  for (int i = 0; i < size(); ++i)
    if (nodes[static_cast<std::size_t>(i)].name == name) return i;
  return -1;
}

Weights Network::by_mass(const std::vector<NodeId>& of) const {
  Weights out;
  out.reserve(of.size());
  double sum = 0;
  for (const NodeId n : of)
    if (n >= 0) sum += nodes[static_cast<std::size_t>(n)].mass;
  for (const NodeId n : of)
    if (n >= 0) out.emplace_back(n, nodes[static_cast<std::size_t>(n)].mass / sum);
  return out;
}

double Network::conductance(const Link& l, double temperature, double applied) const {
  const auto resistivity = [&](NodeId i) {
    const HeatContent& content = contents[static_cast<std::size_t>(nodes[static_cast<std::size_t>(i)].content)];
    return content.at(content.enthalpy(temperature)).resistivity;
  };
  return 1 / (l.shape_a * resistivity(l.a) + contact(l, applied) + l.shape_b * resistivity(l.b));
}

double Network::heat_capacity(const Node& node, double temperature) const {
  const HeatContent& content = contents[static_cast<std::size_t>(node.content)];
  return node.mass / content.at(content.enthalpy(temperature)).slope;
}

std::vector<double> Network::initial_heat() const {
  std::vector<double> heat;
  heat.reserve(nodes.size());
  for (const Node& n : nodes)
    heat.push_back(n.mass * contents[static_cast<std::size_t>(n.content)].enthalpy(n.temperature));
  return heat;
}

void Network::validate() const {
  const auto name = [&](NodeId i) {
    return i == kAmbient ? std::string("ambient") : nodes[static_cast<std::size_t>(i)].name;
  };
  const auto inside = [&](NodeId i) { return i >= 0 && i < size(); };
  for (const Node& n : nodes) {
    if (!(n.mass > 0) || !std::isfinite(n.mass))
      throw std::invalid_argument(fmt::format("node {}: mass {} kg must be above 0", n.name, n.mass));
    if (n.content < 0 || n.content >= static_cast<int>(contents.size()))
      throw std::invalid_argument(fmt::format("node {}: no material", n.name));
    if (!(n.temperature > 0) || !std::isfinite(n.temperature))
      throw std::invalid_argument(fmt::format("node {}: starts at {} K", n.name, n.temperature));
  }
  for (const Link& l : links) {
    if (!inside(l.a) || !inside(l.b) || l.a == l.b)
      throw std::invalid_argument(fmt::format("link {}: bad ends {} and {}", l.family, l.a, l.b));
    if (!(l.shape_a >= 0 && l.shape_b >= 0 && l.resistance >= 0 && l.shape_a + l.shape_b + l.resistance > 0))
      throw std::invalid_argument(
          fmt::format("link {} from {} to {}: resistance must be above 0", l.family, name(l.a), name(l.b)));
  }
  for (const Rubbing& r : rubbings)
    if (!inside(r.ring) || !inside(r.pad) || !(r.contact >= 0) || !(r.share >= 0))
      throw std::invalid_argument("rubbing: bad ends, contact or share");
  for (const Surface& s : surfaces)
    if (!inside(s.node) || s.air == s.node || s.table < 0 || s.table >= static_cast<int>(tables.size()))
      throw std::invalid_argument(fmt::format("surface of node {}: bad air or table", s.node));
  for (const Radiation& r : radiations)
    if (!inside(r.a) || r.a == r.b || !(r.factor >= 0) || !std::isfinite(r.factor))
      throw std::invalid_argument(fmt::format("radiation of {}: bad ends or factor", name(r.a)));
}

}  // namespace hatring::network
