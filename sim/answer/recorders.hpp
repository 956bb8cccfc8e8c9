// SPDX-License-Identifier: MIT
//! \file
//! Recorders turn the solver's states at the recorded moments into columns, one recorder a topic. Each adds its columns
//! when made and fills them in observe(). A new column goes into the recorder of its topic.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <string_view>
#include <vector>

#include "sim/answer/columns.hpp"
#include "sim/answer/moments.hpp"
#include "sim/answer/pedal_line.hpp"
#include "sim/network/network.hpp"
#include "sim/session/case.hpp"
#include "sim/solve/wheel_system.hpp"

namespace hatring::answer {

//! Torque of the brake of this wheel; it turns a little slower than the road by the tyre's slip. 0 off the brakes and
//! below walking pace [N m].
[[nodiscard]] double brake_torque(const session::Car& car, const solve::Load& load);

//! Index of a probe of the network, which must exist.
[[nodiscard]] Eigen::Index probe_index(const network::Network& network, std::string_view name);

//! Faces, pads and every probe.
class TemperatureRecorder {
 public:
  TemperatureRecorder(const network::Network& network, Columns& columns);
  void observe(const Moments& rows);

 private:
  Columns& columns_;
  std::size_t face_, pad_;
  std::vector<std::size_t> probes_;
  std::vector<bool> applies_;
};

//! What the trace's deceleration asks of pads and foot.
class PedalRecorder {
 public:
  PedalRecorder(const session::Case& c, session::Axle axle, Columns& columns);
  void observe(const Moments& rows);

 private:
  Columns& columns_;
  PedalLine line_;
  std::size_t friction_coefficient_, pressure_;
};

//! Where the friction heat went.
class HeatRecorder {
 public:
  explicit HeatRecorder(Columns& columns);
  void observe(const Moments& rows);

 private:
  // In the first row, from which heat is counted.
  struct Start {
    double heat, beyond;  // as in Moments [J]
  };
  std::optional<Start> start_;
  Columns& columns_;
  std::size_t first_;
};

}  // namespace hatring::answer
