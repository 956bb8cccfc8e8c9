// SPDX-License-Identifier: MIT
#include "models/air.hpp"

#include <cmath>
#include <stdexcept>

#include "models/constants.hpp"

namespace hatring::models {
namespace {

// Sutherland's law, value and temperature of reference and the gas's own constant.
double sutherland(double temperature, double reference_value, double constant) {
  const double ratio = temperature / kZeroCelsius;
  return reference_value * ratio * std::sqrt(ratio) * (kZeroCelsius + constant) / (temperature + constant);
}

// White, Viscous Fluid Flow, from memory.
constexpr double kViscosityAtZeroCelsius = 1.716e-5;   // [Pa s]
constexpr double kViscosityConstant = 110.4;           // [K]
constexpr double kConductivityAtZeroCelsius = 0.0241;  // [W/m/K]
constexpr double kConductivityConstant = 194;          // [K]

constexpr double kMolarMass = 28.97;  // [kg/kmol]

// Cengel and Boles, table A-2, 273 to 1800 K, [kJ/kmol/K], from memory.
double specific_heat(double temperature) {
  const double molar = 28.11 + temperature * (0.1967e-2 + temperature * (0.4802e-5 - temperature * 1.966e-9));
  return 1000 * molar / kMolarMass;
}

}  // namespace

Air air(double temperature, double pressure) {
  if (!(temperature > 0) || !(pressure > 0)) {
    throw std::invalid_argument("air: temperature and pressure must be positive");
  }
  Air result;
  result.temperature = temperature;
  result.pressure = pressure;
  result.density = pressure / (kDryAirGasConstant * temperature);
  result.viscosity = sutherland(temperature, kViscosityAtZeroCelsius, kViscosityConstant);
  result.conductivity = sutherland(temperature, kConductivityAtZeroCelsius, kConductivityConstant);
  result.specific_heat = specific_heat(temperature);
  result.kinematic_viscosity = result.viscosity / result.density;
  result.prandtl = result.viscosity * result.specific_heat / result.conductivity;
  return result;
}

double standard_pressure(double altitude) {
  constexpr double kSeaLevelPressure = 101325, kSeaLevelTemperature = 288.15, kLapseRate = 0.0065;
  return kSeaLevelPressure *
         std::pow(1 - kLapseRate * altitude / kSeaLevelTemperature, kGravity / (kDryAirGasConstant * kLapseRate));
}

}  // namespace hatring::models
