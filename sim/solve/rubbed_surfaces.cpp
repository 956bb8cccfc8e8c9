// SPDX-License-Identifier: MIT
#include "sim/solve/rubbed_surfaces.hpp"

#include <algorithm>
#include <limits>
#include <set>

#include "sim/solve/flows.hpp"

namespace hatring::solve {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

}  // namespace

RubbedSurfaces::RubbedSurfaces(const network::Network& network)
    : network_(network), heat_(network.faces.size()), face_(network.faces.size()) {
  for (const network::Rubbing& r : network.rubbings) {
    std::vector<std::size_t>& faces = rubbing_face_.emplace_back();
    for (std::size_t f = 0; f < network.faces.size(); ++f)
      if (network.faces[f].cell == r.ring) faces.push_back(f);
    const auto known = std::find_if(pads_.begin(), pads_.end(), [&r](const PadFace& p) { return p.cell == r.pad; });
    rubbing_pad_.push_back(static_cast<std::size_t>(known - pads_.begin()));
    if (known == pads_.end()) pads_.push_back({.cell = r.pad});
  }
  for (const network::Face& f : network.faces) {
    const auto same = std::find_if(network.faces.begin(), network.faces.end(), [&f](const network::Face& other) {
      return other.cell == f.cell && other.below == f.below && other.shape == f.shape;
    });
    like_.push_back(static_cast<std::size_t>(same - network.faces.begin()));
  }
  std::set<network::NodeId> near;
  for (const network::Face& f : network.faces) {
    area_[f.inboard ? 1 : 0] += f.area;
    near.insert(f.cell);
    if (f.below >= 0) near.insert(f.below);
  }
  for (const network::Rubbing& r : network.rubbings) near.insert({r.ring, r.pad});
  near_.reserve(near.size());
  for (const network::NodeId i : near) near_.emplace_back(i, &network.contents[at(network.nodes[at(i)].content)]);
  resistivity_.setZero(network.size());
}

void RubbedSurfaces::find(const Eigen::VectorXd& t, const Load& load) {
  for (const auto& [node, content] : near_) resistivity_[node] = content->resistivity(t[node]);
  std::fill(heat_.begin(), heat_.end(), 0.0);
  for (PadFace& p : pads_) p.heat = p.conductance = 0;
  const bool rubs = load.heat != 0 || load.applied != 0;
  for (std::size_t k = 0; rubs && k < network_.rubbings.size(); ++k) {
    const network::Rubbing& r = network_.rubbings[k];
    const RubbingFlow heat = rubbing_flow(r, network_.fixed_ring_share, load, t, resistivity_);
    for (const std::size_t f : rubbing_face_[k]) heat_[f] += heat.to_ring;
    PadFace& pad = pads_[rubbing_pad_[k]];
    pad.heat += heat.to_pad;
    pad.conductance += 1 / (r.shape_pad * resistivity_[r.pad]);  // bands side by side
  }
  for (std::size_t f = 0; f < face_.size(); ++f) {
    if (like_[f] < f) {
      face_[f] = face_[like_[f]];
      continue;
    }
    const network::Face& face = network_.faces[f];
    // Heat from the cell to the next one [W].
    const double onward = face.below >= 0 ? link_flow(network_.links[at(face.link)], load, t, resistivity_) : 0;
    face_[f] = t[face.cell] + face.shape * resistivity_[face.cell] * (2 * heat_[f] + onward) / 6;
  }
  for (const std::size_t side : {0U, 1U}) {
    const network::NodeId cell = network_.pads[side];
    pad_[side] = cell >= 0 ? t[cell] : std::numeric_limits<double>::quiet_NaN();
    for (const PadFace& p : pads_)
      if (p.cell == cell && p.conductance > 0) pad_[side] += p.heat / p.conductance;
  }
}

double RubbedSurfaces::side(bool inboard) const {
  double sum = 0;
  for (std::size_t f = 0; f < face_.size(); ++f)
    if (network_.faces[f].inboard == inboard) sum += network_.faces[f].area * face_[f];
  return sum / area_[inboard ? 1 : 0];
}

}  // namespace hatring::solve
