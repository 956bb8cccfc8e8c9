// SPDX-License-Identifier: MIT
#include "sim/answer/recorders.hpp"

namespace hatring::answer {

Eigen::Index probe_index(const network::Network& network, std::string_view name) {
  std::size_t i = 0;
  while (network.probes[i].name != name) ++i;
  return static_cast<Eigen::Index>(i);
}

TemperatureRecorder::TemperatureRecorder(const network::Network& network, Columns& columns)
    : columns_(columns),
      face_(columns.add("temperature", "ring_face_outboard", "K",
                        "Ring friction face, outboard, mean of the rubbed track")) {
  columns.add("temperature", "ring_face_inboard", "K", "Ring friction face, inboard, mean of the rubbed track");
  for (const network::Probe& p : network.probes) {
    applies_.push_back(!p.weights.empty());
    probes_.push_back(columns.add("temperature", p.name, "K", p.long_name, p.weights.empty()));
  }
  pad_ = columns.add("temperature", "pad_outboard", "K", "Pad friction surface, outboard");
  columns.add("temperature", "pad_inboard", "K", "Pad friction surface, inboard");
}

void TemperatureRecorder::observe(const Moments& rows) {
  for (const int side : {0, 1}) {
    columns_.append(face_ + static_cast<std::size_t>(side), rows.face.col(side));
    columns_.append(pad_ + static_cast<std::size_t>(side), rows.pad.col(side));
  }
  for (std::size_t i = 0; i < probes_.size(); ++i)
    if (applies_[i]) columns_.append(probes_[i], rows.part.col(static_cast<Eigen::Index>(i)));
}

}  // namespace hatring::answer
