// SPDX-License-Identifier: MIT
//! \file
//! Heat through pressed joints. Real bolted joints conduct less than clean flat laboratory surfaces: treat the results
//! as a prior that is wide by a factor of three. Checked by tests/models/test_contact.cpp.
#pragma once

namespace hatring::models {

//! Contact coefficient of two clean, flat, rough metal faces [W/m2/K]: 1.25 k_s (m/sigma) (P/H)^0.95, k_s = 2 k1
//! k2/(k1+k2) (Cooper, Mikic and Yovanovich 1969; the exponent and factor as later written by Yovanovich; from memory).
//! \param conductivity1, conductivity2 [W/m/K]
//! \param roughness combined rms height, sqrt(s1^2+s2^2) [m]
//! \param slope combined mean asperity slope [-]
//! \param pressure [Pa]
//! \param hardness micro-hardness of the softer face [Pa]
//! \throws std::invalid_argument when roughness, hardness or a conductivity is not positive or pressure is negative
[[nodiscard]] double contact_coefficient(double conductivity1, double conductivity2, double roughness, double slope,
                                         double pressure, double hardness);

//! Coefficient of the air between the faces [W/m2/K]: k_air / (gap + jump) (Yovanovich's form, from memory).
//! \param gap mean distance [m]
//! \param jump temperature-jump distance of the gas, about 0.4 um in air [m]
[[nodiscard]] double gap_coefficient(double air_conductivity, double gap, double jump);

enum class JointSurface { dry, corroded, pasted, gasketed };

//! What the state of the faces does to the conductance of a bolted disc joint, as a factor on the dry one: corroded 0.5
//! (resistance about doubled), pasted or with a thin aluminium gasket 5 (resistance cut by more than 80 %). Effect
//! sizes from the abstract of Voller and Tirovic 2007, paper not read.
[[nodiscard]] double joint_surface_factor(JointSurface surface);

//! Area that one fastener presses together [m2]: a circle of 1.75 head diameters less the hole. The pressure under a
//! bolt head fades out at 1.5 to 2 head diameters (from memory). Cap it with the area that is there.
//! \throws std::invalid_argument when the hole is not smaller than the circle
[[nodiscard]] double bolted_contact_pressure_area(double head_diameter, double hole_diameter);

}  // namespace hatring::models
