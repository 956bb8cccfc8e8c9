// SPDX-License-Identifier: MIT
//! \file
//! Grey, diffuse thermal radiation. Temperatures in K. Checked by tests/models/test_radiation.cpp.
#pragma once

namespace hatring::models {

//! Net flux that leaves a small grey surface in large surroundings [W/m2]; positive when the surface is hotter.
[[nodiscard]] double grey_flux(double emissivity, double temperature, double surroundings);

//! Exchange between two diffuse grey surfaces that see only each other and a re-radiating rest left out [m2]:
//! heat from 1 to 2 = kStefanBoltzmann * factor * (T1^4 - T2^4) (Incropera, two-surface enclosure, from memory).
//! \param area1, area2 [m2]
//! \param view12 view factor from 1 to 2. Zero if any emissivity, area or the view factor is zero.
[[nodiscard]] double exchange_factor(double emissivity1, double area1, double emissivity2, double area2, double view12);

//! View factor from the inside of a cylinder (a ring's bore) to the outside of a coaxial cylinder in it (the bell),
//! both of the same length and open at the ends (Howell's catalogue, from memory; checked against numerical
//! integration).
//! \param outer_radius of the bore [m]
//! \param inner_radius of the bell [m]
//! \param length common axial length [m]
//! \throws std::invalid_argument unless 0 < inner_radius < outer_radius and length > 0
[[nodiscard]] double bore_to_bell_view(double outer_radius, double inner_radius, double length);

}  // namespace hatring::models
