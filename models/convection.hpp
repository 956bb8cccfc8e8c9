// SPDX-License-Identifier: MIT
//! \file
//! Convection coefficients [W/m2/K]. Speeds may be zero; every coefficient is finite and not negative, and the heat
//! flux coefficient * (surface - air) has a continuous slope in speed and temperature: regimes are blended over a
//! stated width in ln(Re), and powers of Re below one start as Re^2 under a stated low Reynolds number where they mean
//! nothing. `film` is air at the mean of surface and air temperature. Uncalibrated convection of a brake is good to
//! about 50 %. Checked by tests/models/test_convection.cpp and tests/models/test_vanes.cpp.
#pragma once

#include "models/air.hpp"
#include "models/disc_geometry.hpp"

namespace hatring::models {

//! Local coefficient on one face of a disc that spins in still air, isothermal.
//! Laminar Nu_r = 0.33 Re^0.5, turbulent Nu_r = 0.0194 Re^0.8 (Dorfman 1963, Pr 0.71; both from memory), Re = omega r^2
//! / nu, blended between Re 1.87e5 and 3.08e5 (0.5 wide in ln Re about 2.4e5). A wheel, caliper or shield around it is
//! not included.
//! \param omega [rad/s]
//! \param radius [m]
[[nodiscard]] double disc_face(double omega, double radius, const Air& film);

//! disc_face averaged over the area of a band: closed forms where it is laminar or turbulent, Gauss points between.
[[nodiscard]] double disc_band(double omega, double inner_radius, double outer_radius, const Air& film);

//! Mean coefficient of a solid disc on a moving car, by road speed.
//! h = 0.70 (k/D) Re^0.55 below Re = V D / nu = 2.4e5, 0.04 (k/D) Re^0.8 above (Limpert, Brake Design and Safety; from
//! memory), the 1.26-fold jump blended over 0.5 in ln Re. Lies 4 to 7 times above the free disc: the upper bracket of
//! two.
//! \param speed of the car [m/s]
//! \param diameter [m]
[[nodiscard]] double solid_disc_road(double speed, double diameter, const Air& film);

//! Air pumped through the vanes [kg/s]: flow_factor * density * inlet area * omega * sqrt(Ro^2 - Ri^2).
//! The ideal head velocity (Limpert's 0.052 n sqrt(D^2-d^2) in consistent units, from memory) is an upper bound.
//! \param flow_factor calibrated share of it, about 0.3 to 1
[[nodiscard]] double vane_mass_flow(double omega, const VaneGeometry& vanes, const Air& inlet, double flow_factor);

//! Mean coefficient on the passage walls, floor included.
//! Nu = C Re^0.97 with Re = omega sqrt(Ro^2 - Ri^2) d_h / nu. Slope and level are fitted to the abstract of McPhee and
//! Johnson, Int. J. Thermal Sciences 47 (2008) 458: 27.0/52.7/78.3 W/m2/K at 342/684/1025 rpm. Their geometry was not
//! read: C assumes reference_vanes() in air at 300 K, so the level is uncertain by its own size. Floor: fully developed
//! laminar slot flow of uniform wall temperature, Nu 3.66 (Incropera, from memory), joined by cubes; the floor stays at
//! standstill, where the air stops and so carries nothing: use vane_conductance for the heat.
[[nodiscard]] double vane_coefficient(double omega, const VaneGeometry& vanes, const Air& film);

//! The vented ring assumed behind the fitted level of vane_coefficient.
[[nodiscard]] VaneGeometry reference_vanes();

//! Heat taken by the pumped air per kelvin of (wall - inlet) [W/K]: m_dot cp (1 - exp(-NTU)), NTU = h A / (m_dot cp)
//! (Incropera, heat exchanger with one uniform temperature). Goes to m_dot cp, hence linearly to 0, at standstill:
//! natural convection in the passages is to be added apart.
[[nodiscard]] double vane_conductance(double omega, const VaneGeometry& vanes, const Air& inlet, double flow_factor);

//! Published duct forms, for comparison (Limpert, from memory). They jump two-fold between each other at Re 1e4, and
//! the laminar one grows as speed^(1/3), which the measured coefficients do not.
//! \param mean_speed in the passage [m/s]
//! \param hydraulic_diameter, length [m]
[[nodiscard]] double duct_laminar(double mean_speed, double hydraulic_diameter, double length, const Air& film);
[[nodiscard]] double duct_turbulent(double mean_speed, double hydraulic_diameter, double length, const Air& film);

//! Natural convection of a vertical plate, Churchill and Chu 1975, all Rayleigh numbers (from memory), properties at
//! film temperature, expansion 1/T_film. Nu = {0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}^2, Ra with
//! |difference|.
//! \param surface_temperature, air_temperature [K]
//! \param height [m]
//! \param pressure [Pa]
[[nodiscard]] double natural_plate(double surface_temperature, double air_temperature, double height, double pressure);

//! Mean coefficient of a cylinder across a stream, Churchill and Bernstein 1977 (from memory), Re Pr > 0.2.
[[nodiscard]] double crossflow_cylinder(double speed, double diameter, const Air& film);

//! Mean coefficient of a plate along a stream: laminar Nu = 0.664 Re^0.5 Pr^(1/3), turbulent from the leading edge
//! Nu = 0.037 Re^0.8 Pr^(1/3) (Incropera, from memory), blended between Re 2.5e5 and 1e6.
[[nodiscard]] double flat_plate(double speed, double length, const Air& film);

//! Natural and forced convection together: (natural^3 + forced^3)^(1/3) (Churchill 1977, assisting flow, from memory).
[[nodiscard]] double combine(double natural, double forced);

}  // namespace hatring::models
