// SPDX-License-Identifier: MIT
#include "sim/answer/axle_recorder.hpp"

#include <utility>

namespace hatring::answer {

AxleRecorder::AxleRecorder(const Wheel& wheel, session::Axle axle, const network::Network& solved,
                           const network::Symmetry& symmetry, std::size_t rows)
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
      heat_(columns_) {
  for (const network::Probe& probe : solved.probes) parts_.add(probe.weights);
  if (const AxleState* before = wheel.passage != nullptr ? wheel.passage->start : nullptr) {
    loads_.remember(before->joint);
    stresses_.remember(before->ring);
  }
}

void AxleRecorder::observe(Moments& rows) {
  parts_.find(rows.node, rows.part);
  surfaces_.find(rows.node, rows.load);
  rows.face.resize(rows.size(), 2);
  rows.pad.resize(rows.size(), 2);
  for (const bool inboard : {false, true}) {
    rows.face.col(inboard ? 1 : 0) = surfaces_.side(inboard);
    rows.pad.col(inboard ? 1 : 0) = surfaces_.pad(inboard);
  }
  temperatures_.observe(rows);
  loads_.observe(rows, joint_.observe(rows));
  stresses_.observe(rows);
  pedal_.observe(rows);
  heat_.observe(rows);
}

bool AxleRecorder::due(double time) const {
  const Passage* passage = wheel_.passage;
  if (passage == nullptr) return false;
  const std::size_t next = passage->kept.size();
  return next < passage->marks.size() && time >= passage->marks[next];
}

void AxleRecorder::keep(const Eigen::VectorXd& state) {
  wheel_.passage->kept.push_back({symmetry_.spread(state), stresses_.memory(), loads_.memory()});
}

AxleHistory AxleRecorder::finish(const std::vector<double>& times) {
  add_rates(wheel_.c, times, columns_.list);
  return {axle_ == session::Axle::front ? "front" : "rear", std::move(columns_.list)};
}

}  // namespace hatring::answer
