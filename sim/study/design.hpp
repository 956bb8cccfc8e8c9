// SPDX-License-Identifier: MIT
//! \file
//! Which points of the space of parameters are run. A point is a list of shares in (0, 1), one a parameter, which
//! quantile() or pick() turn into values. Every point follows from its index alone, so that nothing is stored and a
//! part of the runs, or what is left of them, knows its points. Checked by tests/sim/study/test_design.cpp.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace hatring::study {

//! The Sobol' sequence (Boost.Random's direction numbers), without the trivial point of zeros.
class SobolSequence {
 public:
  //! \param seed 0 for the sequence as it is; else every coordinate is shifted digit by digit (exclusive or with a
  //!        random word of its own), which keeps the evenness and gives another sample
  //! \throws std::invalid_argument when the dimension is 0 or above 3667
  explicit SobolSequence(std::size_t dimension, std::uint64_t seed = 0);

  //! \param u receives the point, one value in (0, 1) a dimension
  void point(std::uint64_t index, std::span<double> u) const;
  [[nodiscard]] std::size_t dimension() const { return shift_.size(); }

 private:
  std::vector<std::uint64_t> shift_;
};

class Design {
 public:
  //! Every combination of levels, the last parameter changing fastest. Shares are those of the middles of the levels.
  //! \throws std::invalid_argument without parameters, for 0 levels, or for more than 2^53 combinations
  [[nodiscard]] static Design factorial(std::vector<std::size_t> levels);
  //! Latin hypercube (McKay, Beckman and Conover 1979, from memory): of `runs` equal slices of every parameter each
  //! holds one point, placed at random in it; slices of different parameters are combined at random.
  //! \throws std::invalid_argument for 0 parameters or runs
  [[nodiscard]] static Design latin(std::size_t dimension, std::uint64_t runs, std::uint64_t seed);
  //! The first `runs` points of the Sobol' sequence. \throws std::invalid_argument as latin() and SobolSequence
  [[nodiscard]] static Design sobol(std::size_t dimension, std::uint64_t runs, std::uint64_t seed);

  [[nodiscard]] std::uint64_t runs() const { return runs_; }
  [[nodiscard]] std::size_t dimension() const { return dimension_; }
  //! Any order, any thread. \param u receives the point \throws std::out_of_range beyond the last run
  void point(std::uint64_t index, std::span<double> u) const;

 private:
  enum class Kind { factorial, latin, sobol };
  Design(Kind kind, std::size_t dimension, std::uint64_t runs, std::uint64_t seed);

  Kind kind_;
  std::size_t dimension_;
  std::uint64_t runs_, seed_;
  std::vector<std::size_t> levels_;
  std::vector<SobolSequence> sequence_;  // one or none
};

//! Index of one of `count` equally likely choices. \param u in (0, 1)
[[nodiscard]] std::size_t pick(double u, std::size_t count);

//! The place of `index` in a random order of 0 ... size - 1, which depends on the seed; nothing is stored. A Feistel
//! network over the next power of four, walked until it falls inside (Luby and Rackoff 1988; Black and Rogaway 2002;
//! both from memory).
[[nodiscard]] std::uint64_t shuffled(std::uint64_t index, std::uint64_t size, std::uint64_t seed);

}  // namespace hatring::study
