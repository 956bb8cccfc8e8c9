// SPDX-License-Identifier: MIT
#include "tools/cli/display_units.hpp"

#include <fmt/format.h>

#include <cmath>

#include "models/constants.hpp"
#include "sim/answer/answers.hpp"

namespace hatring::tools {
namespace {

constexpr double kFahrenheitPerKelvin = 1.8;
// Exact, international yard and pound.
constexpr double kInch = 0.0254, kFoot = 0.3048, kMile = 1609.344, kPound = 0.45359237;
constexpr double kPoundForce = 4.4482216152605;
constexpr double kBtu = 1055.05585262;   // International Table BTU [J]
constexpr double kPsi = 6894.757293168;  // [Pa]

}  // namespace

double DisplayUnits::temperature_number(double kelvin) const {
  const double celsius = kelvin - models::kZeroCelsius;
  return us_ ? celsius * kFahrenheitPerKelvin + 32 : celsius;
}

std::string DisplayUnits::temperature(double kelvin) const {
  return fmt::format("{:.0f} {}", temperature_number(kelvin), us_ ? "F" : "C");
}

std::string DisplayUnits::temperature_difference(double kelvin) const {
  return fmt::format("{:+.0f} {}", us_ ? kelvin * kFahrenheitPerKelvin : kelvin, us_ ? "F" : "C");
}

std::string DisplayUnits::clearance(double metres) const {
  const double least = us_ ? 0.05e-3 * kInch : 0.005e-3;
  if (std::abs(metres) < least) metres = 0;  // not "-0.00 mm"
  const double thou = metres / kInch * 1e3;
  return us_ ? fmt::format("{:.{}f} thou", thou, std::abs(thou) < 100 ? 1 : 0) : fmt::format("{:.2f} mm", metres * 1e3);
}

std::string DisplayUnits::wear(double metres) const {
  return us_ ? fmt::format("{:.2f} thou", metres / kInch * 1e3) : fmt::format("{:.3f} mm", metres * 1e3);
}

std::string DisplayUnits::lap_distance(double metres) const {
  return us_ ? fmt::format("{:.0f} ft", metres / kFoot) : fmt::format("{:.0f} m", metres);
}

std::string DisplayUnits::road_distance(double metres) const {
  return us_ ? fmt::format("{:.2f} mi", metres / kMile) : fmt::format("{:.2f} km", metres / 1e3);
}

std::string DisplayUnits::road_speed(double metres_per_second) const {
  return us_ ? fmt::format("{:.0f} mph", metres_per_second * 3600 / kMile)
             : fmt::format("{:.0f} km/h", metres_per_second * 3.6);
}

std::string DisplayUnits::temperature_step(double kelvin) const {
  return fmt::format("{:.0f} {}", us_ ? kelvin * kFahrenheitPerKelvin : kelvin, us_ ? "F" : "C");
}

double DisplayUnits::heat_capacity_number(double joules_per_kelvin) const {
  return us_ ? joules_per_kelvin / kBtu / kFahrenheitPerKelvin : joules_per_kelvin;
}

std::string DisplayUnits::energy(double joules) const {
  return us_ ? fmt::format("{:.0f} BTU", joules / kBtu) : fmt::format("{:.0f} kJ", joules / 1e3);
}

std::string DisplayUnits::mass(double kilograms) const {
  return us_ ? fmt::format("{:.1f} lb", kilograms / kPound) : fmt::format("{:.2f} kg", kilograms);
}

std::string DisplayUnits::pressure(double pascals) const {
  return us_ ? fmt::format("{:.0f} psi", pascals / kPsi) : fmt::format("{:.0f} bar", pascals / 1e5);
}

std::string DisplayUnits::force(double newtons) const {
  return us_ ? fmt::format("{:.0f} lbf", newtons / kPoundForce) : fmt::format("{:.1f} kN", newtons / 1e3);
}

std::string DisplayUnits::value(double v, const std::string& unit) const {
  if (unit == "m") return clearance(v);
  if (unit == "N") return us_ ? fmt::format("{:.0f} lbf", v / kPoundForce) : fmt::format("{:.0f} N", v);
  if (unit == "K s-1") return fmt::format("{:.0f} {}/s", us_ ? v * kFahrenheitPerKelvin : v, us_ ? "F" : "C");
  if (unit == "share") return fmt::format("{:.0f} %", 100 * v);
  if (unit == "sessions")
    return v < answer::kManySessions ? fmt::format("{:.0f}", v) : fmt::format(">{:.0f}", answer::kManySessions);
  return temperature(v);
}

std::string DisplayUnits::margin(double v, const std::string& unit) const {
  if (unit == "K") return temperature_difference(v);
  if (unit == "sessions" && !(v < answer::kManySessions)) return value(v, unit);
  return fmt::format("{}{}", v >= 0 ? "+" : "", value(v, unit));
}

DisplayUnits::Shown DisplayUnits::shown(std::string_view unit) const {
  if (unit == "K") return {us_ ? "F" : "C", us_ ? kFahrenheitPerKelvin : 1, temperature_number(0), 0};
  if (unit == "K s-1") return {us_ ? "F/s" : "C/s", us_ ? kFahrenheitPerKelvin : 1, 0, 0};
  if (unit == "m") return {us_ ? "thou" : "mm", us_ ? 1e3 / kInch : 1e3, 0, us_ ? 1 : 2};
  if (unit == "kg") return {us_ ? "lb" : "kg", us_ ? 1 / kPound : 1, 0, 2};
  if (unit == "kg m2") return {us_ ? "lb in2" : "kg cm2", us_ ? 1 / (kPound * kInch * kInch) : 1e4, 0, 0};
  if (unit == "share") return {"%", 100, 0, 0};
  if (unit == "N") return {us_ ? "lbf" : "N", us_ ? 1 / kPoundForce : 1, 0, 0};
  return {"", 1, 0, 0};
}

std::string DisplayUnits::cell(double v, std::string_view unit) const {
  if (std::isnan(v)) return "-";
  if (unit == "sessions") return value(v, std::string(unit));
  const Shown s = shown(unit);
  // Adding zero turns "-0" into "0".
  const double rounding = std::pow(10, s.digits);
  return fmt::format("{:.{}f}", std::round((v * s.scale + s.offset) * rounding) / rounding + 0.0, s.digits);
}

std::string DisplayUnits::cell_difference(double v, std::string_view unit) const {
  // A life that can be wrong ten-fold has no difference worth printing.
  if (std::isnan(v) || unit == "sessions") return "";
  const Shown s = shown(unit);
  const double rounding = std::pow(10, s.digits);
  return fmt::format("{:+.{}f}", std::round(v * s.scale * rounding) / rounding + 0.0, s.digits);
}

const char* DisplayUnits::cell_unit(std::string_view unit) const {
  return shown(unit).unit;
}

std::string clock_time(double seconds) {
  const long s = std::lround(seconds);
  if (s >= 3600) return fmt::format("{}:{:02}:{:02}", s / 3600, s / 60 % 60, s % 60);
  return fmt::format("{}:{:02}", s / 60, s % 60);
}

}  // namespace hatring::tools
