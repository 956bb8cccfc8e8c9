// SPDX-License-Identifier: MIT
//! \file
//! Brake fluid. Checked by tests/models/test_fluid.cpp.
#pragma once

namespace hatring::models {

enum class FluidClass { dot3, dot4, dot5_1 };

struct BoilingPoints {
  double dry = 0;  //!< [K]
  double wet = 0;  //!< [K]
};

//! Least equilibrium reflux boiling points that the class must reach, 49 CFR 571.116 (secondary text, regulation not
//! read): DOT 3 205/140, DOT 4 230/155, DOT 5.1 260/180 degC. A fresh good fluid lies above them.
[[nodiscard]] BoilingPoints minimum_boiling_points(FluidClass fluid_class);

//! Water content at which the wet boiling point is stated (from memory) [kg/kg].
inline constexpr double kWetWaterContent = 0.037;

//! Boiling point against water content [K]: dry at 0, wet at 3.7 %, falling fastest at first (the shape is known to be
//! convex; the exponential with constant 1.5 is our assumption).
//! \param dry, wet boiling points [K]
//! \param water_content by mass [kg/kg]
//! \throws std::invalid_argument outside 0 to 3.7 %, or when wet > dry
[[nodiscard]] double boiling_point(double dry, double wet, double water_content);

//! Water that a car's fluid takes up through hoses and reservoir: a straight line to 3.7 % at kWetAge, and no more
//! after (2 to 3 % a year, from memory, weak; climate and hoses decide). \param age since the fluid was filled in fresh
//! [s]  \throws std::invalid_argument when negative
[[nodiscard]] double water_content(double age);
inline constexpr double kWetAge = 1.5 * 365.25 * 86400;  //!< eighteen months [s]

// Glycol ether fluid at about 100 degC, middle of the usual ranges, from memory.
inline constexpr double kGlycolDensity = 1055;       //!< [kg/m3]
inline constexpr double kGlycolSpecificHeat = 2200;  //!< [J/kg/K]
inline constexpr double kGlycolConductivity = 0.17;  //!< [W/m/K]

}  // namespace hatring::models
