// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/study/parameter.hpp"

using namespace hatring::study;

TEST_CASE("settings: choices by their index and numbers by their spread") {
  const std::vector<Parameter> all{{.name = "pads", .labels = {"a", "b", "c"}},
                                   {.name = "duct", .unit = "m2", .labels = {"0", "1"}, .values = {0, 1e-4}}};
  const Design design = make_design(DesignKind::factorial, all, 0, 0);
  REQUIRE(design.runs() == 6);
  const std::vector<Setting> s = settings(design, all, 3);
  CHECK(s[0].choice == 1);
  CHECK(std::isnan(s[0].number));
  CHECK(s[1].choice == 1);
  CHECK(s[1].number == 1e-4);
  CHECK(setting({.name = "mass", .unit = "kg", .spread = Uniform{900, 1100}}, 0.25).number == Approx(950));
}

TEST_CASE("settings: levels are met equally often by the designs that sample") {
  const std::vector<Parameter> all{{.name = "pads", .labels = {"a", "b", "c"}}};
  for (const DesignKind kind : {DesignKind::latin, DesignKind::sobol}) {
    const Design design = make_design(kind, all, 300, 1);
    int counts[3] = {0, 0, 0};
    for (std::uint64_t i = 0; i < 300; ++i) ++counts[settings(design, all, i)[0].choice];
    for (const int n : counts) CHECK(std::abs(n - 100) <= 3);
  }
}

TEST_CASE("a spread has no levels for a factorial design") {
  const std::vector<Parameter> all{{.name = "mass", .unit = "kg", .spread = Uniform{900, 1100}}};
  CHECK_THROWS_AS(make_design(DesignKind::factorial, all, 0, 0), std::invalid_argument);
}
