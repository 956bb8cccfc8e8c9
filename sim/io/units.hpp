// SPDX-License-Identifier: MIT
//! \file
//! Text with a unit ("310 mm", "64 mph", "1:30") to SI numbers. UDUNITS-2 parses; a small alias table settles
//! the spellings it reads differently from the workshop (mph, kph, C, F, gal, lb.ft, thou).
#pragma once

#include <cstddef>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace hatring::io {

//! Kinds of quantity; each has one SI unit in which numbers are handed back.
enum class Quantity {
  number,                  //!< plain number or % [-]
  length,                  //!< [m]
  area,                    //!< [m2]
  volume,                  //!< [m3]
  mass,                    //!< [kg]
  force,                   //!< [N]
  speed,                   //!< [m/s]
  acceleration,            //!< [m/s2]
  temperature,             //!< absolute [K]
  temperature_difference,  //!< [K]; a rise of 100 degC is 180 degF
  temperature_rate,        //!< [K/s]
  time,                    //!< [s]; also m:ss and h:mm:ss
  pressure,                //!< [Pa]
  power,                   //!< [W]
  energy,                  //!< [J]
  torque,                  //!< [N m]
  resistance_area,         //!< thermal resistance times area [m2 K/W]
  heat_transfer,           //!< heat transfer coefficient [W/m2/K]
  conductance,             //!< [W/K]
  conductivity,            //!< [W/m/K]
  density,                 //!< [kg/m3]
  specific_heat,           //!< [J/kg/K]
  wear,                    //!< volume lost by friction work [m3/J]
  expansion,               //!< [1/K]
  angle,                   //!< [rad]
};

inline constexpr std::size_t kQuantityKinds = static_cast<std::size_t>(Quantity::angle) + 1;

//! A quantity that cannot be read. what() is "found X, expected Y"; hint() proposes a text that would do, or is empty.
class UnitError : public std::runtime_error {
 public:
  UnitError(const std::string& message, std::string hint) : std::runtime_error(message), hint_(std::move(hint)) {}
  [[nodiscard]] const std::string& hint() const { return hint_; }

 private:
  std::string hint_;
};

//! "a length", "a temperature", ...
[[nodiscard]] std::string_view name_of(Quantity kind);
//! The SI unit as a config would write it: "m", "W/m2/K"; "1" for a plain number.
[[nodiscard]] std::string_view si_unit(Quantity kind);
//! Units to propose when one is missing, the most usual first.
[[nodiscard]] const std::vector<std::string>& usual_units(Quantity kind);

//! \param text a number and its unit, as a config writes it
//! \returns the value in the SI unit of its kind; finite, and not below 0 K for a temperature
//! \throws UnitError   Tested in tests/sim/io/test_units.cpp.
[[nodiscard]] double parse_quantity(std::string_view text, Quantity kind);

//! A plain number, no unit. \throws UnitError
[[nodiscard]] double parse_number(std::string_view text);

//! Reads the database of units now rather than for the first of them. \throws UnitError when it is not there
void read_units();

//! Converts a whole column in place, from `unit` to the SI unit of `kind`.
//! \throws UnitError when the unit is unknown or of another kind
void convert_to_si(std::span<double> values, std::string_view unit, Quantity kind);

}  // namespace hatring::io
