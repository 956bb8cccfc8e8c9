// SPDX-License-Identifier: MIT
//! \file
//! Properties of dry air.
#pragma once

namespace hatring::models {

struct Air {
  double temperature = 0;          //!< [K]
  double pressure = 0;             //!< [Pa]
  double density = 0;              //!< [kg/m3]
  double viscosity = 0;            //!< dynamic [Pa s]
  double conductivity = 0;         //!< [W/m/K]
  double specific_heat = 0;        //!< at constant pressure [J/kg/K]
  double kinematic_viscosity = 0;  //!< [m2/s]
  double prandtl = 0;              //!< [-]
};

//! Dry air as an ideal gas; Sutherland's law for viscosity and conductivity (constants as in White, Viscous Fluid Flow,
//! from memory), cubic molar heat capacity (Cengel and Boles, Thermodynamics, appendix table A-2, from memory).
//! \param temperature [K], 200 to 1400
//! \param pressure [Pa]
//! Within 2.5 % of handbook values from 300 to 1000 K. Checked by tests/models/test_air.cpp.
//! \throws std::invalid_argument when either is not positive
[[nodiscard]] Air air(double temperature, double pressure);

//! Pressure of the standard atmosphere at an altitude [Pa]: p0 (1 - L h / T0)^(g / (R L)), ISO 2533 below 11 km
//! (constants from memory). Checked by tests/models/test_air.cpp. \param altitude above sea level [m], -500 to 11000
[[nodiscard]] double standard_pressure(double altitude);

}  // namespace hatring::models
