// SPDX-License-Identifier: MIT
//! \file
//! Where friction heat goes: between ring and pad, and over the radius. A friction coefficient against temperature is a
//! Curve. Checked by tests/models/test_friction.cpp.
#pragma once

#include <span>
#include <vector>

namespace hatring::models {

//! sqrt(k rho c) [W s^0.5/m2/K].
[[nodiscard]] double effusivity(double conductivity, double density, double specific_heat);

//! Share of the friction heat that enters the ring while both bodies are still semi-infinite in time and touch
//! perfectly (Charron 1943; form from memory): A_ring e_ring / (A_ring e_ring + A_pad e_pad).
//! \param ring_area rubbed ring face
//! \param pad_area of the pad on that face [m2]
[[nodiscard]] double effusivity_share(double ring_area, double ring_effusivity, double pad_area, double pad_effusivity);

//! Heat into the ring's first cell = ring_share * P + conductance * (T_pad_cell - T_ring_cell); the pad's cell takes
//! the rest of P.
struct ContactSplit {
  double conductance = 0;  //!< [W/K]
  double ring_share = 0;   //!< [-]
};

//! Both rubbing surfaces eliminated from
//!   q_ring = P/2 + G (T_pad_surface - T_ring_surface),  q_ring + q_pad = P,
//!   T_ring_surface = T_ring_cell + q_ring R_ring,  T_pad_surface = T_pad_cell + q_pad R_pad,
//! which gives conductance = 1/(1/G + R_ring + R_pad) and ring_share = (1/(2G) + R_pad) * conductance.
//! \param contact_conductance G, 0 to infinity [W/K]
//! \param ring_half_cell_resistance, pad_half_cell_resistance [K/W]
//! \throws std::invalid_argument when one is negative, or G is infinite and both resistances are zero
[[nodiscard]] ContactSplit contact_split(double contact_conductance, double ring_half_cell_resistance,
                                         double pad_half_cell_resistance);

//! Temperature of the ring's rubbing surface for the same cut [K].
[[nodiscard]] double ring_surface_temperature(const ContactSplit& split, double power, double ring_cell,
                                              double pad_cell, double ring_half_cell_resistance);

//! Share of the friction power in each radial band; sums to 1. The pad covers the same arc fraction at every radius.
//! Uniform wear: pressure ~ 1/r, so equal power per pad area, share ~ r dr. Uniform pressure: share ~ r^2 dr.
//! \param band_edges rising radii, one more than bands [m]
//! \param swept_inner, swept_outer of the rubbed track [m]
//! \throws std::invalid_argument when edges do not rise, fewer than two, or no band lies in the track
[[nodiscard]] std::vector<double> radial_weights(std::span<const double> band_edges, double swept_inner,
                                                 double swept_outer, bool uniform_pressure);

}  // namespace hatring::models
