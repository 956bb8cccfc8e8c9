// SPDX-License-Identifier: MIT
//! \file
//! One lap held against another of the same track, place by place. Checked by tests/tools/test_trace.py.
#pragma once

#include <optional>
#include <vector>

#include "tools/cli/trace_report.hpp"

namespace hatring::tools {

//! Both drives at the same shares of their length: two drivers' lines differ by a little.
struct Overlay {
  std::vector<double> distance;            //!< on this lap [m]
  std::vector<double> speed, other_speed;  //!< [m/s]
  std::vector<double> gap;                 //!< time of this lap up to there less that of the other [s]
};

struct BrakingPair {
  std::size_t own = 0;                 //!< index of this lap's braking
  std::optional<std::size_t> other{};  //!< of the one at the same place, if there is one
  double other_distance = 0;           //!< where it begins, on this lap's scale [m]
  double gap = 0;                      //!< where this lap's begins [s]
};

struct Against {
  std::string source, name;  //!< file and name of the other trace
  BrakingZones zones;        //!< of the other
  Overlay overlay{};
  std::vector<BrakingPair> pairs{};
  std::vector<std::size_t> others_alone{};  //!< brakings of the other that this lap does not have
};

//! \throws session::CaseError when one of them cannot be driven, or their lengths differ so much that they are not laps
//! of one track
[[nodiscard]] Against held_against(const BrakingZones& own, BrakingZones other, std::string source, std::string name);

//! At most 80 columns.
[[nodiscard]] std::string against_text(const BrakingZones& own, const Against& against, const DisplayUnits& units);
[[nodiscard]] nlohmann::json against_json(const BrakingZones& own, const Against& against);

}  // namespace hatring::tools
