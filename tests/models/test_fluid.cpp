// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "models/constants.hpp"
#include "models/fluid.hpp"

using namespace hatring::models;
using Catch::WithinAbs;

TEST_CASE("least boiling points, DOT 3 205/140, DOT 4 230/155, DOT 5.1 260/180 degC (49 CFR 571.116, secondary text)",
          "[fluid]") {
  struct Row {
    FluidClass fluid_class;
    double dry, wet;
  };
  const Row row =
      GENERATE(Row{FluidClass::dot3, 205, 140}, Row{FluidClass::dot4, 230, 155}, Row{FluidClass::dot5_1, 260, 180});
  CHECK_THAT(minimum_boiling_points(row.fluid_class).dry - kZeroCelsius, WithinAbs(row.dry, 1e-9));
  CHECK_THAT(minimum_boiling_points(row.fluid_class).wet - kZeroCelsius, WithinAbs(row.wet, 1e-9));
}

TEST_CASE("boiling point against water: dry at 0, wet at 3.7 %, falling, fastest at first (assumed convex shape)",
          "[fluid]") {
  CHECK(boiling_point(500, 430, 0) == 500);
  CHECK_THAT(boiling_point(500, 430, 0.037), WithinAbs(430, 1e-9));
  double before = boiling_point(500, 430, 0), last_fall = 1e9;
  for (int i = 1; i <= 37; ++i) {
    const double here = boiling_point(500, 430, i * kWetWaterContent / 37);
    CHECK(before - here > 0);
    CHECK(before - here < last_fall);
    last_fall = before - here;
    before = here;
  }
  CHECK_THROWS_AS(boiling_point(500, 430, -0.01), std::invalid_argument);
  CHECK_THROWS_AS(boiling_point(500, 430, 0.05), std::invalid_argument);
  CHECK_THROWS_AS(boiling_point(430, 500, 0.01), std::invalid_argument);
}

TEST_CASE("water by age: none when fresh, 3.7 % at eighteen months, no more after", "[fluid]") {
  CHECK(water_content(0) == 0);
  CHECK_THAT(water_content(kWetAge / 2), WithinAbs(kWetWaterContent / 2, 1e-12));
  CHECK(water_content(kWetAge) == kWetWaterContent);
  CHECK(water_content(10 * kWetAge) == kWetWaterContent);
  CHECK_THROWS_AS(water_content(-1), std::invalid_argument);
}
