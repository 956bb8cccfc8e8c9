// SPDX-License-Identifier: MIT
//! \file
//! A wet patch on hot discs: how far a film of water can chill the face where it lands, for a caution with a band, not
//! a verdict. Properties of water at 1 atm. Checked by tests/models/test_water_film.cpp.
#pragma once

#include <array>

namespace hatring::models {

//! Largest heat flux of nucleate boiling, 0.131 h_fg rho_v^1/2 (sigma g (rho_l - rho_v))^1/4 = 1.11 MW/m2 (Zuber 1959,
//! from memory). For a pool on a large flat face; a film that is thrown along can do more or less.
[[nodiscard]] double critical_heat_flux();
//! Least heat flux of film boiling, 0.09 rho_v h_fg (sigma g (rho_l - rho_v)/(rho_l + rho_v)^2)^1/4 = 19 kW/m2 (Zuber
//! 1959 with Berenson's factor, from memory): what remains when the water rides on its own vapour.
[[nodiscard]] double least_film_boiling_flux();

//! How wet it is and how the water boils.
struct WaterFilm {
  double thickness = 0;     //!< of water that reaches the face each turn [m]
  double leidenfrost = 0;   //!< above it the water begins to ride on vapour [K]
  double film_boiling = 0;  //!< flux far above it [W/m2]
  double water = 293.15;    //!< its temperature [K]
};

//! Least, likely and most quenching. All ours, weak: spray that passes the wheel wets 10 to 200 um; Leidenfrost points
//! of water on rough metal are given as 200 to 350 degC (from memory); thrown drops that break the vapour take more
//! than the least flux of film boiling.
inline constexpr std::array<WaterFilm, 3> kWaterFilmBand = {
    {{10e-6, 473.15, 19e3}, {50e-6, 543.15, 100e3}, {200e-6, 623.15, 500e3}}};

//! Flux that boiling can take from a face [W/m2]: none below 100 degC, the critical flux above (an upper bound up to
//! about 130 degC), sinking over 100 K above the Leidenfrost temperature to that of film boiling.
[[nodiscard]] double boiling_flux(const WaterFilm& film, double surface);
//! Flux that warms and evaporates all the water that comes, rho thickness (c dT + h_fg) turns [W/m2].
//! \param turns of the wheel per second [1/s]
[[nodiscard]] double supplied_flux(const WaterFilm& film, double turns);
//! The smaller of the two.
[[nodiscard]] double quench_flux(const WaterFilm& film, double surface, double turns);

//! Fall of the face's temperature under a constant flux, 2 q sqrt(t/pi)/effusivity (semi-infinite solid; Carslaw and
//! Jaeger, from memory), not below 100 degC, where boiling ends [K].
//! \param time that the face is in the water; while t < L^2/(4 alpha), about 1 s for a 7 mm cheek [s]
//! \param effusivity sqrt(k rho c) [W s^0.5/m2/K]  \throws std::invalid_argument when time < 0 or effusivity <= 0
[[nodiscard]] double face_drop(double flux, double time, double effusivity, double surface);
//! Tension that the drop adds, E alpha dT/(1-nu) [Pa]: the chilled skin is held in both directions.
[[nodiscard]] double quench_stress(double modulus, double expansion, double poisson, double drop);

}  // namespace hatring::models
