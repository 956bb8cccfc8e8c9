// SPDX-License-Identifier: MIT
#include "sim/answer/recorders.hpp"

namespace hatring::answer {

std::size_t probe_index(const network::Network& network, std::string_view name) {
  std::size_t i = 0;
  while (network.probes[i].name != name) ++i;
  return i;
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

void TemperatureRecorder::observe(const Snapshot& now) {
  for (const std::size_t side : {0U, 1U}) {
    columns_.push(face_ + side, now.face[side]);
    columns_.push(pad_ + side, now.pad[side]);
  }
  for (std::size_t i = 0; i < probes_.size(); ++i)
    if (applies_[i]) columns_.push(probes_[i], now.part[i]);
}

}  // namespace hatring::answer
