// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "models/water_film.hpp"

using namespace hatring::models;
using Catch::WithinAbs;
using Catch::WithinRel;

TEST_CASE("water: critical flux 1.11 MW/m2 and least film boiling 19 kW/m2 (Zuber by hand)", "[water]") {
  CHECK_THAT(critical_heat_flux(), WithinRel(1.109e6, 2e-3));
  CHECK_THAT(least_film_boiling_flux(), WithinRel(19.0e3, 5e-3));
}

TEST_CASE("water: boiling ends at 100 degC and sinks to film boiling above the Leidenfrost temperature", "[water]") {
  for (const WaterFilm& film : kWaterFilmBand) {
    CHECK(boiling_flux(film, 373.15) == 0);
    CHECK_THAT(boiling_flux(film, film.leidenfrost), WithinRel(critical_heat_flux(), 1e-12));
    CHECK_THAT(boiling_flux(film, film.leidenfrost + 300), WithinRel(film.film_boiling, 1e-12));
    double before = critical_heat_flux();
    for (double t = 374; t < 1100; t += 1) {
      const double now = boiling_flux(film, t);
      REQUIRE(now <= before * (1 + 1e-12));
      before = now;
    }
  }
}

TEST_CASE("water: 10 um a turn at 15 turns a second carry away 0.37 MW/m2 (by hand)", "[water]") {
  // 958 * 10e-6 * (4200 * 80 + 2.257e6) * 15
  CHECK_THAT(supplied_flux(kWaterFilmBand[0], 15), WithinRel(372.6e3, 1e-3));
  CHECK(quench_flux(kWaterFilmBand[0], 450, 15) == supplied_flux(kWaterFilmBand[0], 15));
  CHECK(quench_flux(kWaterFilmBand[0], 900, 15) == boiling_flux(kWaterFilmBand[0], 900));
  CHECK(supplied_flux(kWaterFilmBand[0], 0) == 0);
}

TEST_CASE("water: the band is ordered at every temperature and speed", "[water]") {
  for (const double t : {380.0, 480.0, 560.0, 640.0, 800.0})
    for (const double turns : {1.0, 10.0, 30.0}) {
      CHECK(quench_flux(kWaterFilmBand[0], t, turns) <= quench_flux(kWaterFilmBand[1], t, turns));
      CHECK(quench_flux(kWaterFilmBand[1], t, turns) <= quench_flux(kWaterFilmBand[2], t, turns));
    }
}

TEST_CASE("water: half a megawatt for 0.3 s chills iron by 23 K and never below 100 degC (by hand)", "[water]") {
  // 2 * 5e5 * sqrt(0.3/pi)/13400 = 23.06
  CHECK_THAT(face_drop(5e5, 0.3, 13400, 800), WithinRel(23.06, 1e-3));
  CHECK_THAT(face_drop(5e6, 3, 13400, 473.15), WithinAbs(100, 1e-9));
  CHECK(face_drop(5e5, 1, 13400, 350) == 0);
  CHECK_THAT(quench_stress(100e9, 12e-6, 0.25, 23.06), WithinRel(36.9e6, 1e-3));
  CHECK_THROWS_AS(face_drop(1, -1, 13400, 800), std::invalid_argument);
}
