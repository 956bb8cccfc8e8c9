// SPDX-License-Identifier: MIT
#include "sim/study/design.hpp"

#include <algorithm>
#include <bit>
#include <boost/random/sobol.hpp>

#include "sim/study/demand.hpp"

namespace hatring::study {
namespace {

constexpr double kMostRuns = 9007199254740992;  // 2^53: shares of runs stay exact

// Scrambles a word so that neighbours become unrelated: the finalizer of SplitMix64 (Steele, Lea and Flood 2014, from
// memory).
std::uint64_t scrambled(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15U;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9U;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebU;
  return x ^ (x >> 31);
}

std::uint64_t scrambled(std::uint64_t a, std::uint64_t b) {
  return scrambled(scrambled(a) ^ b);
}

// The upper 53 bits as a share, at the middle of their step: never 0, never 1.
double share(std::uint64_t word) {
  return (static_cast<double>(word >> 11) + 0.5) * 0x1p-53;
}

}  // namespace

SobolSequence::SobolSequence(std::size_t dimension, std::uint64_t seed) {
  demand(dimension > 0 && dimension <= boost::random::default_sobol_table::max_dimension,
         "expected 1 to 3667 dimensions");
  shift_.resize(dimension, 0);
  if (seed != 0)
    for (std::size_t d = 0; d < dimension; ++d) shift_[d] = scrambled(seed, d);
}

void SobolSequence::point(std::uint64_t index, std::span<double> u) const {
  // Made anew, so that threads share nothing: microseconds beside a run.
  boost::random::sobol engine(dimension());
  engine.seed(index);
  for (std::size_t d = 0; d < dimension(); ++d) u[d] = share(engine() ^ shift_[d]);
}

Design::Design(Kind kind, std::size_t dimension, std::uint64_t runs, std::uint64_t seed)
    : kind_(kind), dimension_(dimension), runs_(runs), seed_(seed) {
  demand(dimension > 0, "expected at least one parameter");
  demand(runs > 0 && static_cast<double>(runs) <= kMostRuns, "expected at least one run and not more than 2^53");
}

Design Design::factorial(std::vector<std::size_t> levels) {
  std::uint64_t runs = 1;
  double all = 1;
  for (const std::size_t n : levels) {
    all *= static_cast<double>(n);
    demand(n > 0 && all <= kMostRuns, "expected at least one level of each parameter and not more than 2^53 runs");
    runs *= n;
  }
  Design out(Kind::factorial, levels.size(), runs, 0);
  out.levels_ = std::move(levels);
  return out;
}

Design Design::latin(std::size_t dimension, std::uint64_t runs, std::uint64_t seed) {
  return {Kind::latin, dimension, runs, seed};
}

Design Design::sobol(std::size_t dimension, std::uint64_t runs, std::uint64_t seed) {
  Design out(Kind::sobol, dimension, runs, seed);
  out.sequence_.emplace_back(dimension, seed);
  return out;
}

void Design::point(std::uint64_t index, std::span<double> u) const {
  if (index >= runs_) throw std::out_of_range("no such run in the design");
  switch (kind_) {
    case Kind::factorial:
      for (std::size_t d = dimension_; d-- > 0;) {
        u[d] = (static_cast<double>(index % levels_[d]) + 0.5) / static_cast<double>(levels_[d]);
        index /= levels_[d];
      }
      return;
    case Kind::latin:
      for (std::size_t d = 0; d < dimension_; ++d) {
        const std::uint64_t seed = scrambled(seed_, d);
        const auto slice = static_cast<double>(shuffled(index, runs_, seed));
        // Rounding may lift the last slice to 1.
        u[d] = std::min((slice + share(scrambled(~seed, index))) / static_cast<double>(runs_), 1 - 0x1p-53);
      }
      return;
    case Kind::sobol:
      sequence_.front().point(index, u);
      return;
  }
}

std::size_t pick(double u, std::size_t count) {
  return std::min(static_cast<std::size_t>(u * static_cast<double>(count)), count - 1);
}

std::uint64_t shuffled(std::uint64_t index, std::uint64_t size, std::uint64_t seed) {
  constexpr std::uint64_t kRounds = 6;
  const int half = std::max((static_cast<int>(std::bit_width(size - 1)) + 1) / 2, 1);
  const std::uint64_t mask = (std::uint64_t{1} << half) - 1;
  do {
    std::uint64_t left = index >> half, right = index & mask;
    for (std::uint64_t round = 0; round < kRounds; ++round) {
      const std::uint64_t next = left ^ (scrambled(scrambled(seed, round), right) & mask);
      left = right;
      right = next;
    }
    index = (left << half) | right;
  } while (index >= size);
  return index;
}

}  // namespace hatring::study
