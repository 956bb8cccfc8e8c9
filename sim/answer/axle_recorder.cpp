// SPDX-License-Identifier: MIT
#include "sim/answer/axle_recorder.hpp"

#include <utility>

namespace hatring::answer {

AxleRecorder::AxleRecorder(const Wheel& wheel, session::Axle axle, const network::Network& solved,
                           const network::Symmetry& symmetry, const Eigen::VectorXd& start, std::size_t rows)
    : wheel_(wheel),
      axle_(axle),
      symmetry_(symmetry),
      surfaces_(solved),
      columns_(rows),
      temperatures_(solved, columns_),
      joint_(wheel.c, axle, solved, columns_),
      loads_(wheel.c, axle, solved, columns_),
      stresses_(wheel.c, axle, solved, columns_),
      pedal_(wheel.c, axle, columns_),
      heat_(solved, start, columns_) {
  for (const network::Probe& probe : solved.probes) parts_.add(probe.weights);
  if (const AxleState* before = wheel.passage != nullptr ? wheel.passage->start : nullptr) {
    loads_.remember(before->joint);
    stresses_.remember(before->ring);
  }
}

Snapshot AxleRecorder::look(double time, const Eigen::VectorXd& state, const Eigen::VectorXd& node,
                            const solve::Load& load) {
  parts_.find(node);
  surfaces_.find(node, load);
  return {.time = time,
          .state = state,
          .node = node,
          .load = load,
          .face = {surfaces_.side(false), surfaces_.side(true)},
          .pad = {surfaces_.pad(false), surfaces_.pad(true)},
          .part = parts_.values()};
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
    passage.kept.push_back({symmetry_.spread(state), stresses_.memory(), loads_.memory()});
}

AxleHistory AxleRecorder::finish(const std::vector<double>& times) {
  add_rates(wheel_.c, times, columns_.list);
  return {axle_ == session::Axle::front ? "front" : "rear", std::move(columns_.list)};
}

}  // namespace hatring::answer
