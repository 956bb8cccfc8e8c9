// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "sim/study/design.hpp"

using namespace hatring::study;

namespace {

std::vector<double> point(const Design& design, std::uint64_t index) {
  std::vector<double> u(design.dimension());
  design.point(index, u);
  return u;
}

}  // namespace

TEST_CASE("factorial: every combination once and the last parameter fastest") {
  const Design design = Design::factorial({2, 1, 3});
  REQUIRE(design.runs() == 6);
  std::vector<std::vector<std::size_t>> found;
  for (std::uint64_t i = 0; i < design.runs(); ++i) {
    const std::vector<double> u = point(design, i);
    found.push_back({pick(u[0], 2), pick(u[1], 1), pick(u[2], 3)});
  }
  CHECK(found ==
        std::vector<std::vector<std::size_t>>{{0, 0, 0}, {0, 0, 1}, {0, 0, 2}, {1, 0, 0}, {1, 0, 1}, {1, 0, 2}});
}

TEST_CASE("factorial: the middle of every level is picked as that level whatever their number") {
  for (const std::size_t levels : {1U, 2U, 3U, 7U, 10U, 49U, 1000U, 9999U}) {
    const Design design = Design::factorial({levels});
    for (std::uint64_t i = 0; i < levels; ++i) REQUIRE(pick(point(design, i)[0], levels) == i);
  }
}

TEST_CASE("latin hypercube: each slice of each parameter holds one point") {
  for (const std::uint64_t runs : {1U, 2U, 5U, 64U, 1000U}) {
    const Design design = Design::latin(4, runs, 7);
    std::vector<std::set<std::size_t>> slices(4);
    for (std::uint64_t i = 0; i < runs; ++i) {
      const std::vector<double> u = point(design, i);
      for (std::size_t d = 0; d < 4; ++d) {
        REQUIRE((u[d] > 0 && u[d] < 1));
        slices[d].insert(pick(u[d], runs));
      }
    }
    for (const auto& s : slices) CHECK(s.size() == runs);
  }
}

TEST_CASE("latin hypercube: parameters are not tied to each other and the seed decides") {
  constexpr std::uint64_t kRuns = 4096;
  const Design one = Design::latin(3, kRuns, 1), again = Design::latin(3, kRuns, 1), other = Design::latin(3, kRuns, 2);
  double products[3] = {0, 0, 0};
  std::size_t alike = 0;
  for (std::uint64_t i = 0; i < kRuns; ++i) {
    const std::vector<double> u = point(one, i);
    CHECK(u == point(again, i));
    if (u == point(other, i)) ++alike;
    products[0] += (u[0] - 0.5) * (u[1] - 0.5);
    products[1] += (u[0] - 0.5) * (u[2] - 0.5);
    products[2] += (u[1] - 0.5) * (u[2] - 0.5);
  }
  CHECK(alike == 0);
  // Correlation of unrelated columns scatters by 1 / sqrt(runs) = 0.016; four times that.
  for (const double p : products) CHECK(std::abs(p * 12 / kRuns) < 0.0625);
}

TEST_CASE("shuffled is a permutation of any size") {
  for (const std::uint64_t size : {1U, 2U, 3U, 4U, 5U, 16U, 17U, 1000U}) {
    std::set<std::uint64_t> seen;
    for (std::uint64_t i = 0; i < size; ++i) seen.insert(shuffled(i, size, 3));
    CHECK(seen.size() == size);
    CHECK(*seen.rbegin() == size - 1);
  }
  CHECK(shuffled(123456789012, 1000000000000, 5) < 1000000000000);
}

TEST_CASE("sobol: first points as Boost documents them for two dimensions") {
  const SobolSequence s(2);
  const double known[][2] = {{0.5, 0.5}, {0.75, 0.25}, {0.25, 0.75}, {0.375, 0.375}, {0.875, 0.875}};
  for (std::uint64_t i = 0; i < 5; ++i) {
    double u[2];
    s.point(i, u);
    CHECK(u[0] == Approx(known[i][0]).margin(1e-15));
    CHECK(u[1] == Approx(known[i][1]).margin(1e-15));
  }
}

TEST_CASE("sobol: a block of a power of two fills equal slices evenly with and without a shift") {
  for (const std::uint64_t seed : {0U, 11U}) {
    const SobolSequence s(5, seed);
    // 64 whole points of the sequence, numbers 64 to 127; ours lack number 0.
    for (std::size_t d = 0; d < 5; ++d) {
      std::set<std::size_t> slices;
      for (std::uint64_t i = 63; i < 127; ++i) {
        std::vector<double> u(5);
        s.point(i, u);
        slices.insert(pick(u[d], 64));
      }
      CHECK(slices.size() == 64);
    }
  }
}

TEST_CASE("designs refuse what cannot be run") {
  CHECK_THROWS_AS(Design::factorial({}), std::invalid_argument);
  CHECK_THROWS_AS(Design::factorial({3, 0}), std::invalid_argument);
  CHECK_THROWS_AS(Design::factorial(std::vector<std::size_t>(8, 1000000)), std::invalid_argument);
  CHECK_THROWS_AS(Design::latin(2, 0, 1), std::invalid_argument);
  CHECK_THROWS_AS(Design::sobol(0, 5, 1), std::invalid_argument);
  CHECK_THROWS_AS(SobolSequence(4000), std::invalid_argument);
  CHECK_NOTHROW(SobolSequence(3667));
  double u[1];
  CHECK_THROWS_AS(Design::sobol(1, 5, 1).point(5, u), std::out_of_range);
}
