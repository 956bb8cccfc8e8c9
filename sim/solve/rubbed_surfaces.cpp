// SPDX-License-Identifier: MIT
#include "sim/solve/rubbed_surfaces.hpp"

#include <algorithm>
#include <limits>
#include <set>
#include <stdexcept>

#include "sim/network/index.hpp"
#include "sim/solve/flows.hpp"

namespace hatring::solve {
namespace {

using network::at;

}  // namespace

RubbedSurfaces::RubbedSurfaces(const network::Network& network) : network_(network) {
  const std::vector<network::Face>& faces = network.faces;
  for (const network::Rubbing& r : network.rubbings) {
    std::vector<Eigen::Index>& heated = rubbing_face_.emplace_back();
    for (std::size_t f = 0; f < faces.size(); ++f)
      if (faces[f].cell == r.ring) heated.push_back(static_cast<Eigen::Index>(f));
    const auto known = std::find_if(pads_.begin(), pads_.end(), [&r](const PadFace& p) { return p.cell == r.pad; });
    rubbing_pad_.push_back(static_cast<std::size_t>(known - pads_.begin()));
    if (known == pads_.end()) pads_.push_back({.cell = r.pad});
  }
  for (const network::Face& f : faces) {
    const auto same = std::find_if(faces.begin(), faces.end(), [&f](const network::Face& other) {
      return other.cell == f.cell && other.below == f.below && other.shape == f.shape;
    });
    like_.push_back(same - faces.begin());
  }
  std::set<network::NodeId> near;
  for (const network::Face& f : faces) {
    area_[f.inboard ? 1 : 0] += f.area;
    near.insert(f.cell);
    if (f.below >= 0) near.insert(f.below);
  }
  for (const network::Rubbing& r : network.rubbings) near.insert({r.ring, r.pad});
  near_.reserve(near.size());
  for (const network::NodeId i : near) near_.emplace_back(i, &network.contents[at(network.nodes[at(i)].content)]);
}

void RubbedSurfaces::rub(const Eigen::ArrayXXd& t, const Loads& loads) {
  for (std::size_t k = 0; k < network_.rubbings.size(); ++k) {
    const network::Rubbing& r = network_.rubbings[k];
    PadFace& pad = pads_[rubbing_pad_[k]];
    for (Eigen::Index i = 0; i < t.rows(); ++i) {
      const RubbingFlow heat = rubbing_flow(r, network_.fixed_ring_share, loads[i], t.row(i), resistivity_.row(i));
      for (const Eigen::Index f : rubbing_face_[k]) heat_(i, f) += heat.to_ring;
      pad.heat[i] += heat.to_pad;
    }
    pad.conductance += 1 / (r.shape_pad * resistivity_.col(r.pad));  // bands side by side
  }
}

void RubbedSurfaces::find(const Eigen::ArrayXXd& t, const Loads& loads) {
  if (t.rows() > kMostMoments || t.rows() != loads.heat.size())
    throw std::invalid_argument("rubbed surfaces: a load for each moment needed, and not too many of them");
  const Eigen::Index moments = t.rows(), faces = static_cast<Eigen::Index>(network_.faces.size());
  resistivity_.resize(moments, network_.size());
  for (const auto& [node, content] : near_)
    resistivity_.col(node) = t.col(node).unaryExpr([&c = *content](double cell) { return c.resistivity(cell); });
  heat_.setZero(moments, faces);
  for (PadFace& p : pads_) p.heat = p.conductance = Series::Zero(moments);
  if ((loads.heat != 0 || loads.applied != 0).any()) rub(t, loads);
  face_.resize(moments, faces);
  for (Eigen::Index f = 0; f < faces; ++f) {
    const Eigen::Index like = like_[static_cast<std::size_t>(f)];
    if (like < f) {
      face_.col(f) = face_.col(like);
      continue;
    }
    const network::Face& face = network_.faces[static_cast<std::size_t>(f)];
    for (Eigen::Index i = 0; i < moments; ++i) {
      // Heat from the cell to the next one [W].
      const double onward =
          face.below >= 0 ? link_flow(network_.links[at(face.link)], loads[i], t.row(i), resistivity_.row(i)) : 0;
      face_(i, f) = t(i, face.cell) + face.shape * resistivity_(i, face.cell) * (2 * heat_(i, f) + onward) / 6;
    }
  }
  pad_.setConstant(moments, 2, std::numeric_limits<double>::quiet_NaN());
  for (const Eigen::Index side : {0, 1}) {
    const network::NodeId cell = network_.pads[at(static_cast<int>(side))];
    if (cell >= 0) pad_.col(side) = t.col(cell);
    for (const PadFace& p : pads_)
      if (p.cell == cell) pad_.col(side) += (p.conductance > 0).select(p.heat / p.conductance, 0.0);
  }
}

void RubbedSurfaces::find(const Eigen::VectorXd& t, const Load& load) {
  Loads loads;
  loads.resize(1);
  loads.set(0, load);
  find(Eigen::ArrayXXd(t.transpose()), loads);
}

Series RubbedSurfaces::side(bool inboard) const {
  Series sum = Series::Zero(face_.rows());
  for (std::size_t f = 0; f < network_.faces.size(); ++f)
    if (network_.faces[f].inboard == inboard) sum += network_.faces[f].area * face(f);
  return sum / area_[inboard ? 1 : 0];
}

}  // namespace hatring::solve
