// SPDX-License-Identifier: MIT
//! \file
//! SI inside, the driver's units on the terminal.
#pragma once

#include <string>
#include <string_view>

namespace hatring::tools {

enum class UnitSystem { si, us };

//! Formats quantities for people. Temperature differences are converted by scale only: 100 K is 180 degF.
class DisplayUnits {
 public:
  explicit DisplayUnits(UnitSystem system) : us_(system == UnitSystem::us) {}

  [[nodiscard]] std::string temperature(double kelvin) const;             //!< "612 C"
  [[nodiscard]] std::string temperature_difference(double kelvin) const;  //!< "-23 C"
  [[nodiscard]] std::string clearance(double metres) const;               //!< "0.23 mm", "9 thou"
  [[nodiscard]] std::string wear(double metres) const;                    //!< "0.013 mm", "0.51 thou"
  [[nodiscard]] std::string lap_distance(double metres) const;            //!< "1240 m", "4070 ft"
  [[nodiscard]] std::string road_distance(double metres) const;           //!< "24.3 km", "15.1 mi"
  [[nodiscard]] std::string road_speed(double metres_per_second) const;   //!< "100 km/h", "62 mph"
  [[nodiscard]] std::string temperature_step(double kelvin) const;        //!< without a sign: "100 C", "180 F"
  [[nodiscard]] const char* heat_capacity_unit() const { return us_ ? "BTU/F" : "J/K"; }
  [[nodiscard]] double heat_capacity_number(double joules_per_kelvin) const;
  [[nodiscard]] std::string energy(double joules) const;  //!< "1234 kJ"
  [[nodiscard]] std::string mass(double kilograms) const;
  [[nodiscard]] std::string pressure(double pascals) const;
  [[nodiscard]] std::string force(double newtons) const;
  //! A verdict's value or limit by its SI unit ("K", "m", "K s-1", "N", "1"), and its margin.
  [[nodiscard]] std::string value(double v, const std::string& unit) const;
  [[nodiscard]] std::string margin(double v, const std::string& unit) const;
  //! For cells of a table, whose heading names the unit: a value in "K", "K s-1", "m", "kg", "kg m2", "share" (shown as
  //! per cent) or "count", and a difference of two such values, with its sign.
  [[nodiscard]] std::string cell(double v, std::string_view unit) const;
  [[nodiscard]] std::string cell_difference(double v, std::string_view unit) const;
  [[nodiscard]] const char* cell_unit(std::string_view unit) const;  //!< "" for a count
  [[nodiscard]] const char* temperature_unit() const { return us_ ? "degF" : "degC"; }
  [[nodiscard]] double temperature_number(double kelvin) const;

 private:
  struct Shown {
    const char* unit;
    double scale, offset;
    int digits;
  };
  [[nodiscard]] Shown shown(std::string_view unit) const;

  bool us_;
};

//! "4:07" from the start of the session; hours when there are some.
[[nodiscard]] std::string clock_time(double seconds);

}  // namespace hatring::tools
