// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "sim/study/spread.hpp"

using namespace hatring::study;

TEST_CASE("quantiles: even between the ends") {
  CHECK(quantile(Uniform{900, 1100}, 0.25) == Approx(950).epsilon(1e-14));
  CHECK(quantile(Uniform{-2, 2}, 0.5) == Approx(0).margin(1e-14));
}

TEST_CASE("quantiles: bell curve by the usual table of the normal distribution") {
  const Normal s{10, 2};
  CHECK(quantile(s, 0.5) == Approx(10).epsilon(1e-14));
  CHECK(quantile(s, 0.975) == Approx(10 + 2 * 1.959963984540054).epsilon(1e-12));
  CHECK(quantile(s, 0.05) == Approx(10 - 2 * 1.6448536269514722).epsilon(1e-12));
}

TEST_CASE("quantiles: triangle by its closed form") {
  const Triangular s{1, 2, 5};  // F(likely) = 1/4
  CHECK(quantile(s, 0.25) == Approx(2).epsilon(1e-12));
  CHECK(quantile(s, 0.0625) == Approx(1 + std::sqrt(0.0625 * 4 * 1)).epsilon(1e-12));
  CHECK(quantile(s, 0.9) == Approx(5 - std::sqrt(0.1 * 4 * 3)).epsilon(1e-12));
  CHECK(quantile(Triangular{0, 0, 1}, 0.75) == Approx(0.5).epsilon(1e-12));
}

TEST_CASE("quantiles: a band has its likely value in the middle and nothing beyond its ends") {
  const Band s{0.67, 1, 1.5};
  CHECK(quantile(s, 0.5) == Approx(1).epsilon(1e-14));
  CHECK(quantile(s, 0.25) == Approx(0.835).epsilon(1e-14));
  CHECK(quantile(s, 0.75) == Approx(1.25).epsilon(1e-14));
  CHECK(quantile(s, 1e-12) == Approx(0.67).epsilon(1e-9));
  CHECK(quantile(s, 1 - 1e-12) == Approx(1.5).epsilon(1e-9));
}

TEST_CASE("quantiles: nonsense is refused") {
  CHECK_THROWS_AS(quantile(Uniform{0, 1}, 0), std::invalid_argument);
  CHECK_THROWS_AS(quantile(Uniform{0, 1}, 1), std::invalid_argument);
  CHECK_THROWS_AS(check(Uniform{1, 1}), std::invalid_argument);
  CHECK_THROWS_AS(check(Normal{0, 0}), std::invalid_argument);
  CHECK_THROWS_AS(check(Triangular{0, 2, 1}), std::invalid_argument);
  CHECK_THROWS_AS(check(Band{0, -1, 1}), std::invalid_argument);
  CHECK_THROWS_AS(check(Normal{std::numeric_limits<double>::quiet_NaN(), 1}), std::invalid_argument);
}
