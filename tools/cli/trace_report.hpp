// SPDX-License-Identifier: MIT
//! \file
//! What `hatring trace` has to tell, as text and as JSON.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "sim/io/log/reading.hpp"
#include "sim/session/drive.hpp"
#include "tools/cli/display_units.hpp"

namespace hatring::tools {

//! The drive at even moments.
struct Way {
  std::vector<double> time, distance, speed;  //!< [s], [m], [m/s]
};

//! Brakings of the trace, driven once.
struct BrakingZones {
  //! What their energy stands for: heat of the brakes of a known car, kinetic energy of a known mass (drag, engine and
  //! hills still in it), or that of one kilogram.
  enum class Basis { car, mass, kilogram } basis = Basis::kilogram;
  std::vector<session::Braking> brakings;
  std::vector<double> lengths;        //!< [m]
  double energy = 0;                  //!< of all of them [J], or [J/kg]
  double duration = 0, distance = 0;  //!< of the trace [s] [m]
  Way way;
  std::string failure;  //!< why the trace cannot be driven; empty when it can
};

//! \param car with its air; nothing: only the speed counts  \param mass instead of the car's [kg]
[[nodiscard]] BrakingZones braking_zones(const session::Trace& trace, const std::optional<session::Case>& car,
                                         std::optional<double> mass);

//! At most 80 columns.
[[nodiscard]] std::string trace_text(const io::LogReading& reading, const BrakingZones& zones,
                                     const DisplayUnits& units);
//! SI units.
[[nodiscard]] nlohmann::json trace_json(const io::LogReading& reading, const BrakingZones& zones);

}  // namespace hatring::tools
