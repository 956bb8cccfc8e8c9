// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "models/air.hpp"

using Catch::WithinRel;
using hatring::models::Air;
using hatring::models::air;

TEST_CASE("air at 300, 400, 600 and 1000 K (Incropera table A.4, from memory) within 2.5 %", "[air]") {
  struct Row {
    double temperature, density, specific_heat, viscosity, conductivity, prandtl;
  };
  const Row row =
      GENERATE(Row{300, 1.1614, 1007, 184.6e-7, 26.3e-3, 0.707}, Row{400, 0.8711, 1014, 230.1e-7, 33.8e-3, 0.690},
               Row{600, 0.5804, 1051, 305.8e-7, 46.9e-3, 0.685}, Row{1000, 0.3482, 1141, 424.4e-7, 66.7e-3, 0.726});
  const Air result = air(row.temperature, 101325);
  CHECK_THAT(result.density, WithinRel(row.density, 0.025));
  CHECK_THAT(result.specific_heat, WithinRel(row.specific_heat, 0.025));
  CHECK_THAT(result.viscosity, WithinRel(row.viscosity, 0.025));
  CHECK_THAT(result.conductivity, WithinRel(row.conductivity, 0.025));
  CHECK_THAT(result.prandtl, WithinRel(row.prandtl, 0.04));
}

TEST_CASE("air at 0 degC returns Sutherland's own reference values", "[air]") {
  CHECK_THAT(air(273.15, 101325).viscosity, WithinRel(1.716e-5, 1e-12));
  CHECK_THAT(air(273.15, 101325).conductivity, WithinRel(0.0241, 1e-12));
}

TEST_CASE("sea-level standard density is 1.225 kg/m3 (ISO 2533)", "[air]") {
  CHECK_THAT(air(288.15, 101325).density, WithinRel(1.225, 1e-4));
}

TEST_CASE("thin air: density follows pressure, viscosity does not", "[air]") {
  const Air low = air(300, 101325), high = air(300, 80000);
  CHECK_THAT(high.density / low.density, WithinRel(80000 / 101325.0, 1e-12));
  CHECK(high.viscosity == low.viscosity);
  CHECK_THAT(high.kinematic_viscosity * high.density, WithinRel(high.viscosity, 1e-14));
  CHECK_THROWS_AS(air(0, 101325), std::invalid_argument);
  CHECK_THROWS_AS(air(300, -1), std::invalid_argument);
}

TEST_CASE("pressure of the standard atmosphere at 0, 1000 and 3000 m (ISO 2533, values from memory)") {
  CHECK(hatring::models::standard_pressure(0) == Approx(101325));
  CHECK(hatring::models::standard_pressure(1000) == Approx(89875).epsilon(1e-3));
  CHECK(hatring::models::standard_pressure(3000) == Approx(70109).epsilon(1e-3));
}
