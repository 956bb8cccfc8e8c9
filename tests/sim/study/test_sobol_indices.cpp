// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>

#include "sim/study/sobol_indices.hpp"

using namespace hatring::study;

namespace {

constexpr double kPi = std::numbers::pi, kA = 7, kB = 0.1;

// Ishigami and Homma 1990: sin x1 + a sin^2 x2 + b x3^4 sin x1, x in (-pi, pi).
double ishigami(std::span<const double> u) {
  double x[3];
  for (std::size_t d = 0; d < 3; ++d) x[d] = kPi * (2 * u[d] - 1);
  const double s = std::sin(x[1]);
  return std::sin(x[0]) + kA * s * s + kB * std::pow(x[2], 4) * std::sin(x[0]);
}

std::vector<double> answers(const IndexDesign& design) {
  std::vector<double> out, u(design.dimension());
  for (std::uint64_t i = 0; i < design.runs(); ++i) {
    design.point(i, u);
    out.push_back(ishigami(u));
  }
  return out;
}

// Parts of the variance, by integration of the function.
const double kV1 = std::pow(1 + kB * std::pow(kPi, 4) / 5, 2) / 2;
const double kV2 = kA * kA / 8;
const double kV13 = kB * kB * std::pow(kPi, 8) * 8 / 225;
const double kV = kV1 + kV2 + kV13;

}  // namespace

TEST_CASE("sobol indices: the function of Ishigami and Homma") {
  CHECK(kV1 / kV == Approx(0.3139).margin(5e-5));
  CHECK(kV13 / kV == Approx(0.2437).margin(5e-5));
  for (const std::uint64_t seed : {0U, 5U}) {
    const IndexDesign design(3, 8192, seed);
    const SobolIndices s = sobol_indices(answers(design), 3);
    CHECK(s.blocks == 8192);
    CHECK(s.mean == Approx(kA / 2).margin(0.01));
    CHECK(s.variance == Approx(kV).epsilon(0.01));
    // The sequence does several times better than 1 / sqrt(8192) = 0.011.
    CHECK(s.first[0] == Approx(kV1 / kV).margin(0.005));
    CHECK(s.first[1] == Approx(kV2 / kV).margin(0.005));
    CHECK(s.first[2] == Approx(0).margin(0.005));
    CHECK(s.total[0] == Approx((kV1 + kV13) / kV).margin(0.005));
    CHECK(s.total[1] == Approx(kV2 / kV).margin(0.005));
    CHECK(s.total[2] == Approx(kV13 / kV).margin(0.005));
    for (std::size_t k = 0; k < 3; ++k) {
      CHECK(s.first_error[k] < 0.03);
      CHECK(s.total_error[k] < 0.03);
    }
  }
}

TEST_CASE("sobol indices: a block takes one coordinate each from its second point") {
  const IndexDesign design(3, 4);
  CHECK(design.runs() == 20);
  std::vector<std::vector<double>> u(20, std::vector<double>(3));
  for (std::uint64_t i = 0; i < 20; ++i) design.point(i, u[i]);
  for (std::size_t block = 0; block < 20; block += 5)
    for (std::size_t k = 0; k < 3; ++k)
      for (std::size_t d = 0; d < 3; ++d) CHECK(u[block + 2 + k][d] == u[block + (d == k ? 1 : 0)][d]);
}

TEST_CASE("sobol indices: a failed run takes its block with it and a constant has none") {
  const IndexDesign design(3, 256);
  std::vector<double> f = answers(design);
  f[7] = std::numeric_limits<double>::quiet_NaN();
  const SobolIndices s = sobol_indices(f, 3);
  CHECK(s.blocks == 255);
  CHECK(s.total[1] == Approx(kV2 / kV).margin(0.1));

  const SobolIndices none = sobol_indices(std::vector<double>(20, 4.0), 3);
  CHECK(none.variance == 0);
  CHECK(std::isnan(none.first[0]));
  CHECK_THROWS_AS(sobol_indices(std::vector<double>(19, 4.0), 3), std::invalid_argument);
}
