// SPDX-License-Identifier: MIT
#include "sim/answer/recorders.hpp"

namespace hatring::answer {

HeatRecorder::HeatRecorder(const network::Network& network, const Eigen::VectorXd& start, Columns& columns)
    : start_(start.head(network.size())),
      columns_(columns),
      first_(columns.add("heat", "friction", "J", "Friction heat of this wheel")) {
  columns.add("heat", "to_ring", "J",
              "Friction heat that entered the ring, net of what the pads gave back while applied");
  columns.add("heat", "to_pads", "J", "Friction heat that entered the pads, likewise");
  columns.add("heat", "stored", "J",
              "Heat stored in ring, hat, joint, hub, pads, caliper, fluid and the air in the wheel");
  columns.add("heat", "convection", "J", "Heat lost by convection");
  columns.add("heat", "radiation", "J", "Heat lost by radiation");
  columns.add("heat", "to_wheel", "J", "Heat passed on beyond the hub, to wheel and upright");
  columns.add("heat", "residual", "J", "Friction less all the others: what the balance does not explain");
  for (network::NodeId i = 0; i < network.size(); ++i)
    if (network.nodes[static_cast<std::size_t>(i)].part == network::Part::wheel) beyond_.push_back(i);
}

void HeatRecorder::observe(const Snapshot& now) {
  const double all = (now.state.head(start_.size()) - start_).sum();
  double beyond = 0;
  for (const network::NodeId i : beyond_) beyond += now.state[i] - start_[i];
  const double stored = all - beyond;
  const auto integral = [&](solve::WheelIntegral which) { return now.state[start_.size() + which]; };
  const double friction = integral(solve::kFriction), to_ring = integral(solve::kToRing),
               convection = integral(solve::kConvection), radiation = integral(solve::kRadiation),
               to_wheel = beyond + integral(solve::kWheelLoss);
  std::size_t k = first_;
  for (const double v : {friction, to_ring, friction - to_ring, stored, convection, radiation, to_wheel,
                         friction - stored - convection - radiation - to_wheel})
    columns_.push(k++, v);
}

}  // namespace hatring::answer
