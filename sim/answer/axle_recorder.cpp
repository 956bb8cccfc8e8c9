// SPDX-License-Identifier: MIT
#include "sim/answer/axle_recorder.hpp"

#include <limits>
#include <utility>

namespace hatring::answer {

AxleRecorder::AxleRecorder(const Wheel& wheel, session::Axle axle, const Eigen::VectorXd& start, std::size_t rows)
    : wheel_(wheel),
      axle_(axle),
      surfaces_(wheel.network),
      part_(wheel.network.probes.size(), std::numeric_limits<double>::quiet_NaN()),
      pads_{wheel.network.find("pad.outboard.layer1"), wheel.network.find("pad.inboard.layer1")},
      columns_(rows),
      temperatures_(wheel.network, columns_),
      joint_(wheel.c, axle, wheel.network, columns_),
      loads_(wheel.c, axle, wheel.network, columns_),
      stresses_(wheel.c, axle, wheel.network, columns_),
      pedal_(wheel.c, axle, columns_),
      heat_(wheel.network, start, columns_) {
  if (const AxleState* before = wheel.passage != nullptr ? wheel.passage->start : nullptr) {
    loads_.remember(before->joint);
    stresses_.remember(before->ring);
  }
}

Snapshot AxleRecorder::look(double time, const Eigen::VectorXd& state, const Eigen::VectorXd& node,
                            const solve::Load& load) {
  for (std::size_t i = 0; i < part_.size(); ++i) {
    const network::Weights& weights = wheel_.network.probes[i].weights;
    if (weights.empty()) continue;
    part_[i] = 0;
    for (const auto& [n, weight] : weights) part_[i] += weight * node[n];
  }
  surfaces_.find(node, load);
  return {.time = time,
          .state = state,
          .node = node,
          .load = load,
          .face = {surfaces_.side(false), surfaces_.side(true)},
          .pad = {surfaces_.pad(pads_[0], node), surfaces_.pad(pads_[1], node)},
          .part = part_};
}

void AxleRecorder::observe(double time, const Eigen::VectorXd& state, const Eigen::VectorXd& node,
                           const solve::Load& load) {
  const Snapshot now = look(time, state, node, load);
  temperatures_.observe(now);
  loads_.observe(now, joint_.observe(now));
  stresses_.observe(now);
  pedal_.observe(now);
  heat_.observe(now);
  if (wheel_.passage == nullptr) return;
  Passage& passage = *wheel_.passage;
  const std::size_t next = passage.kept.size();
  if (next < passage.marks.size() && time >= passage.marks[next])
    passage.kept.push_back({state.head(node.size()), stresses_.memory(), loads_.memory()});
}

AxleHistory AxleRecorder::finish(const std::vector<double>& times) {
  add_rates(wheel_.c, times, columns_.list);
  return {axle_ == session::Axle::front ? "front" : "rear", std::move(columns_.list)};
}

}  // namespace hatring::answer
