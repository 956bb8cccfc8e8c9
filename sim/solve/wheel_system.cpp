// SPDX-License-Identifier: MIT
#include "sim/solve/wheel_system.hpp"

#include <utility>

#include "models/constants.hpp"
#include "models/friction.hpp"

namespace hatring::solve {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

double fourth(double t) {
  return t * t * t * t;
}

}  // namespace

WheelSystem::WheelSystem(const network::Network& network, LoadFunction load)
    : network_(network), lanes_({&network}, {std::move(load)}, widest_kernel(1)) {}

WheelSystem::RubbingFlow WheelSystem::rub(const network::Rubbing& r, const Load& load, const Eigen::VectorXd& t) const {
  const double power = load.heat * r.share;
  const models::ContactSplit split = models::contact_split(r.contact, r.shape_ring * resistivity_of(r.ring, t),
                                                           r.shape_pad * resistivity_of(r.pad, t));
  // While the pads come on or lift, that part of their area bears which the brake is applied by.
  const double across = load.applied * split.conductance * (t[r.pad] - t[r.ring]);
  const double share = network_.fixed_ring_share >= 0 ? network_.fixed_ring_share : split.ring_share;
  return {share * power + across, (1 - share) * power - across};
}

double WheelSystem::flow(const network::Link& l, const Load& load, const Eigen::VectorXd& t) const {
  return (t[l.a] - t[l.b]) / (l.shape_a * resistivity_of(l.a, t) + network::Network::contact(l, load.applied) +
                              l.shape_b * resistivity_of(l.b, t));
}

void WheelSystem::rates(double time, const Eigen::VectorXd& x, Eigen::VectorXd& dxdt) const {
  const Load load = load_at(time);
  const network::SpeedWeights speed = network_.grid.locate(load.speed);
  Eigen::VectorXd t(nodes());
  temperatures_of(x, t);
  dxdt.setZero(nodes() + kIntegrals);
  auto integral = dxdt.tail(kIntegrals);
  const auto pass = [&](network::NodeId a, network::NodeId b, double q, WheelIntegral of_brake) {
    dxdt[a] -= q;
    if (b != network::kAmbient)
      dxdt[b] += q;
    else
      integral[network_.nodes[at(a)].part == network::Part::wheel ? kWheelLoss : of_brake] += q;
  };
  for (const network::Link& l : network_.links) pass(l.a, l.b, flow(l, load, t), kConvection);
  for (const network::Rubbing& r : network_.rubbings) {
    const RubbingFlow heat = rub(r, load, t);
    dxdt[r.ring] += heat.to_ring;
    dxdt[r.pad] += heat.to_pad;
    integral[kToRing] += heat.to_ring;
    integral[kFriction] += heat.to_ring + heat.to_pad;
  }
  for (const network::Surface& s : network_.surfaces) {
    const double over = t[s.node] - (s.air == network::kAmbient ? network_.ambient : t[s.air]);
    pass(s.node, s.air, network_.tables[at(s.table)](speed, over) * s.scale * over, kConvection);
  }
  for (const network::Radiation& r : network_.radiations) {
    const double other = r.b == network::kAmbient ? network_.ambient : t[r.b];
    pass(r.a, r.b, models::kStefanBoltzmann * r.factor * (fourth(t[r.a]) - fourth(other)), kRadiation);
  }
}

double WheelSystem::face_temperature(std::size_t face, const Eigen::VectorXd& t, const Load& load) const {
  const network::Face& fc = network_.faces[face];
  double inward = 0;  // heat through the face into the cell [W]
  for (const network::Rubbing& r : network_.rubbings)
    if (r.ring == fc.cell) inward += rub(r, load, t).to_ring;
  // Heat from the cell to the next one [W].
  const double onward = fc.below >= 0 ? flow(network_.links[at(fc.link)], load, t) : 0;
  return t[fc.cell] + fc.shape * resistivity_of(fc.cell, t) * (2 * inward + onward) / 6;
}

double WheelSystem::pad_surface_temperature(network::NodeId first_cell, const Eigen::VectorXd& t,
                                            const Load& load) const {
  const double own = resistivity_of(first_cell, t);
  double inward = 0, conductance = 0;  // bands side by side
  for (const network::Rubbing& r : network_.rubbings) {
    if (r.pad != first_cell) continue;
    inward += rub(r, load, t).to_pad;
    conductance += 1 / (r.shape_pad * own);
  }
  return conductance > 0 ? t[first_cell] + inward / conductance : t[first_cell];
}

}  // namespace hatring::solve
