// SPDX-License-Identifier: MIT
//! \file
//! What `hatring lap` says of a computed lap.
#pragma once

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "sim/io/track/track.hpp"
#include "sim/session/drive.hpp"
#include "sim/session/lap_speed.hpp"
#include "tools/cli/display_units.hpp"

namespace hatring::tools {

//! A place where the speed is lowest.
struct SlowPlace {
  double distance = 0, speed = 0;  //!< [m], [m/s]
};

struct LapReport {
  const io::LapInput& input;
  session::Effort effort = {};
  session::LapSpeed lap = {};
  std::vector<SlowPlace> corners = {};
  std::vector<session::Braking> brakings = {};
  std::filesystem::path written = {};
};

//! Lowest speeds between two faster places, by at least 3 % of the top speed (our choice: what a driver calls a
//! corner).
[[nodiscard]] std::vector<SlowPlace> slow_places(const session::LapSpeed& lap, bool closed);

[[nodiscard]] std::string lap_text(const LapReport& report, const DisplayUnits& units);
[[nodiscard]] nlohmann::json lap_json(const LapReport& report);
//! For the head of the trace file.
[[nodiscard]] std::vector<std::string> remarks(const LapReport& report);

}  // namespace hatring::tools
