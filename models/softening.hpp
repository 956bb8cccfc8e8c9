// SPDX-License-Identifier: MIT
//! \file
//! Heat-treated aluminium that softens for good: over-ageing adds up over all hours that a hat has ever been hot. An
//! estimate from two measured points; a hardness test of the hat says more. Checked by tests/models/test_softening.cpp.
#pragma once

#include <span>

namespace hatring::models {

//! Two points at which an alloy fell below its least allowed strength; empty for alloys that do not over-age.
struct Overageing {
  double temperature = 0, time = 0;                //!< [K], [s]
  double hotter_temperature = 0, hotter_time = 0;  //!< [K], [s]

  [[nodiscard]] bool known() const { return time > 0; }
};

//! Time to fall below the least allowed strength at a temperature held: Arrhenius's law through both points,
//! ln t_f = A + Q/(R T) [s]. 6061-T6, 199 degC 16 h and 218 degC 4 h (a student's senior project of 2015, secondary
//! text), gives Q = 141 kJ/mol and 92 h at 177 degC, where 64 h had not been enough. Measured between 177 and 218 degC;
//! outside the law is extended. \throws std::invalid_argument when the hotter point is not hotter and shorter
[[nodiscard]] double overageing_time(const Overageing& alloy, double temperature);
//! Q of that law [J/mol]. Throws the same.
[[nodiscard]] double activation_energy(const Overageing& alloy);

//! Integral of dt/t_f(T) by trapezoids [-]: shares of sessions add up; 1 is the least allowed strength. Trapezoids read
//! high where steps are long against the temperature's change (1.5 % at 5 K a step).
//! \param time rising [s]  \param temperature as many [K]  \throws std::invalid_argument when lengths differ
[[nodiscard]] double overageing_share(const Overageing& alloy, std::span<const double> time,
                                      std::span<const double> temperature);

//! Proof strength left, cold, over that of the fresh alloy [-], against log10 of the share: 1 up to a share of 0.01
//! (our assumption), 240/276 (least over typical, 6061-T6) at 1, then what 10,000 h at 149, 204 and 260 degC leave
//! (handbook type data, from memory), which that law puts at shares of 9, 900 and 4e4. Those were tested hot, so it is
//! a lower bound there; held beyond. One curve for alloys of this kind, made for 6061-T6. Monotone. \throws
//! std::invalid_argument when share < 0
[[nodiscard]] double overaged_strength_left(double share);

//! Time that a series spends above a temperature, straight lines between its points [s]: for hours above 150, 175, 200
//! and 220 degC, which drivers can add up themselves. \throws std::invalid_argument when lengths differ
[[nodiscard]] double time_above(double threshold, std::span<const double> time, std::span<const double> temperature);

}  // namespace hatring::models
