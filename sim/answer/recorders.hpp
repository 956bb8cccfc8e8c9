// SPDX-License-Identifier: MIT
//! \file
//! Recorders turn the solver's state at each recorded moment into columns, one recorder a topic. Each adds its columns
//! when made and fills them in observe(). A new column goes into the recorder of its topic.
#pragma once

#include <Eigen/Core>
#include <string_view>
#include <vector>

#include "sim/answer/columns.hpp"
#include "sim/answer/pedal_line.hpp"
#include "sim/network/network.hpp"
#include "sim/session/case.hpp"
#include "sim/solve/wheel_system.hpp"

namespace hatring::answer {

//! One wheel at one moment.
struct Snapshot {
  double time = 0;               //!< [s]
  const Eigen::VectorXd& state;  //!< heat of every node, then solve::WheelIntegral [J]
  const Eigen::VectorXd& node;   //!< temperature of every node [K]
  solve::Load load;
  double face[2] = {0, 0};          //!< mean of the rubbed track's surface, outboard and inboard [K]
  double pad[2] = {0, 0};           //!< rubbing surface of the pads, outboard and inboard [K]
  const std::vector<double>& part;  //!< value of every probe of the network; NaN where it does not apply [K]

  [[nodiscard]] double mean_face() const { return 0.5 * (face[0] + face[1]); }
};

//! Torque of the brake of this wheel; it turns a little slower than the road by the tyre's slip. 0 off the brakes and
//! below walking pace [N m].
[[nodiscard]] double brake_torque(const session::Car& car, const solve::Load& load);

//! Index of a probe of the network, which must exist.
[[nodiscard]] std::size_t probe_index(const network::Network& network, std::string_view name);

//! Faces, pads and every probe.
class TemperatureRecorder {
 public:
  TemperatureRecorder(const network::Network& network, Columns& columns);
  void observe(const Snapshot& now);

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
  void observe(const Snapshot& now);

 private:
  Columns& columns_;
  PedalLine line_;
  std::size_t friction_coefficient_, pressure_;
};

//! Where the friction heat went.
class HeatRecorder {
 public:
  HeatRecorder(const network::Network& network, const Eigen::VectorXd& start, Columns& columns);
  void observe(const Snapshot& now);

 private:
  std::vector<network::NodeId> beyond_;  // nodes that count as the wheel's
  Eigen::VectorXd start_;                // of every node [J]
  Columns& columns_;
  std::size_t first_;
};

}  // namespace hatring::answer
