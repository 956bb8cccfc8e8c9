// SPDX-License-Identifier: MIT
//! \file
//! Constants of nature and conventions that several topics share.
#pragma once

namespace hatring::models {

inline constexpr double kStefanBoltzmann = 5.670374419e-8;  //!< CODATA 2018, from memory [W/m2/K4]
inline constexpr double kZeroCelsius = 273.15;              //!< 0 degC, exact [K]
inline constexpr double kGravity = 9.80665;                 //!< standard acceleration of gravity, exact [m/s2]
inline constexpr double kMolarGasConstant = 8.314462618;    //!< CODATA 2018, from memory [J/mol/K]
inline constexpr double kDryAirGasConstant = 287.05;        //!< ISO 2533 standard atmosphere, from memory [J/kg/K]

}  // namespace hatring::models
