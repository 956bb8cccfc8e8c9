// SPDX-License-Identifier: MIT
#include "sim/solve/wheel_system.hpp"

#include <utility>

#include "models/constants.hpp"
#include "sim/network/index.hpp"
#include "sim/solve/flows.hpp"

namespace hatring::solve {
namespace {

using network::at;

double fourth(double t) {
  return t * t * t * t;
}

}  // namespace

WheelSystem::WheelSystem(const network::Network& network, LoadFunction load)
    : network_(network), lanes_({&network}, {std::move(load)}, single_kernel()) {}

void WheelSystem::rates(double time, const Eigen::VectorXd& x, Eigen::VectorXd& dxdt) const {
  const Load load = load_at(time);
  const network::SpeedWeights speed = network_.grid.locate(load.speed);
  Eigen::VectorXd t(nodes()), resistivity(nodes());
  temperatures_of(x, t);
  for (int i = 0; i < nodes(); ++i)
    resistivity[i] = network_.contents[at(network_.nodes[at(i)].content)].resistivity(t[i]);
  dxdt.setZero(nodes() + kIntegrals);
  auto integral = dxdt.tail(kIntegrals);
  const auto pass = [&](network::NodeId a, network::NodeId b, double q, WheelIntegral of_brake) {
    dxdt[a] -= q;
    if (b != network::kAmbient)
      dxdt[b] += q;
    else
      integral[network_.nodes[at(a)].part == network::Part::wheel ? kWheelLoss : of_brake] += q;
  };
  for (const network::Link& l : network_.links) pass(l.a, l.b, link_flow(l, load, t, resistivity), kConvection);
  for (const network::Rubbing& r : network_.rubbings) {
    const RubbingFlow heat = rubbing_flow(r, network_.fixed_ring_share, load, t, resistivity);
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

}  // namespace hatring::solve
