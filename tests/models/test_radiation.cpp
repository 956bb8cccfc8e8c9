// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "models/constants.hpp"
#include "models/radiation.hpp"

using namespace hatring::models;
using Catch::WithinAbs;
using Catch::WithinRel;

TEST_CASE("black radiation at 100, 200, 400, 600 degC in 20 degC: 8.5, 13.5, 29.5, 56 W/m2/K (separate calculation)",
          "[radiation]") {
  const auto h = [](double celsius) { return grey_flux(1, celsius + 273.15, 293.15) / (celsius - 20); };
  CHECK_THAT(h(100), WithinRel(8.5, 0.01));
  CHECK_THAT(h(200), WithinRel(13.5, 0.01));
  CHECK_THAT(h(400), WithinRel(29.5, 0.01));
  CHECK_THAT(h(600), WithinRel(56, 0.01));
}

TEST_CASE("grey flux is sigma eps (T^4 - Ts^4), zero between equals and changes sign", "[radiation]") {
  CHECK_THAT(grey_flux(0.55, 800, 300),
             WithinRel(0.55 * kStefanBoltzmann * (std::pow(800, 4) - std::pow(300, 4)), 1e-13));
  CHECK(grey_flux(0.55, 400, 400) == 0);
  CHECK(grey_flux(0.55, 300, 400) == -grey_flux(0.55, 400, 300));
}

TEST_CASE("exchange of infinite parallel plates is A / (1/e1 + 1/e2 - 1) (Incropera)", "[radiation]") {
  CHECK_THAT(exchange_factor(0.8, 2, 0.5, 2, 1), WithinRel(2 / (1 / 0.8 + 1 / 0.5 - 1), 1e-14));
}

TEST_CASE(
    "exchange of a small body in large surroundings is e1 A1, of black bodies A1 F12, of a mirror nothing (Incropera)",
    "[radiation]") {
  CHECK_THAT(exchange_factor(0.6, 1, 0.3, 1e9, 1), WithinRel(0.6, 1e-8));
  CHECK_THAT(exchange_factor(1, 0.02, 1, 0.05, 0.4), WithinRel(0.008, 1e-14));
  CHECK(exchange_factor(0, 1, 0.5, 1, 1) == 0);
  CHECK(exchange_factor(0.5, 1, 0.5, 1, 0) == 0);
}

TEST_CASE("exchange is the same seen from either side when A1 F12 = A2 F21", "[radiation]") {
  CHECK_THAT(exchange_factor(0.7, 0.018, 0.3, 0.015, 0.5),
             WithinRel(exchange_factor(0.3, 0.015, 0.7, 0.018, 0.6), 1e-14));
}

TEST_CASE("bore-to-bell view factor against numerical integration of the kernel", "[radiation]") {
  // Integrated apart with 100 by 200 by 200 Gauss points.
  CHECK_THAT(bore_to_bell_view(2, 1, 1), WithinRel(0.232274498, 1e-8));
  CHECK_THAT(bore_to_bell_view(0.095, 0.080, 0.030), WithinRel(0.541981777, 1e-8));
  CHECK_THAT(bore_to_bell_view(1.1, 1, 0.2), WithinRel(0.577171296, 1e-8));
}

TEST_CASE("bore-to-bell view factor tends to r1/r2 for long cylinders and to 0 for short ones", "[radiation]") {
  CHECK_THAT(bore_to_bell_view(2, 1, 1e3), WithinRel(0.5, 1e-3));
  CHECK_THAT(bore_to_bell_view(2, 1, 1e-3), WithinAbs(0, 1e-3));
  CHECK_THROWS_AS(bore_to_bell_view(1, 1, 1), std::invalid_argument);
}
