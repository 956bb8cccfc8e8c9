// SPDX-License-Identifier: MIT
//! \file
//! Which parameter matters most: variance-based indices after Sobol'. The first-order index is the share of an answer's
//! variance that goes when that parameter alone becomes known; the total index is the share that stays when everything
//! else is known. Checked by tests/sim/study/test_sobol_indices.cpp against a function whose indices are known in
//! closed form.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "sim/study/design.hpp"

namespace hatring::study {

//! The points to run: blocks of dimension + 2. Of a block, the first point is a row of the sample A, the second one of
//! B, and the others are A with one coordinate each taken from B. A and B are the two halves of one Sobol' sequence.
class IndexDesign {
 public:
  //! \param base blocks; a power of two spreads the sequence best  \param seed as SobolSequence
  //! \throws std::invalid_argument for 0 parameters or blocks
  IndexDesign(std::size_t dimension, std::uint64_t base, std::uint64_t seed = 0);

  [[nodiscard]] std::size_t dimension() const { return sequence_.dimension() / 2; }
  [[nodiscard]] std::uint64_t runs() const { return base_ * (dimension() + 2); }
  //! Any order, any thread. \param u receives the point, shares in (0, 1) \throws std::out_of_range
  void point(std::uint64_t index, std::span<double> u) const;

 private:
  SobolSequence sequence_;
  std::uint64_t base_;
};

struct SobolIndices {
  std::vector<double> first, total;              //!< by parameter [-]; NaN when the answer does not vary
  std::vector<double> first_error, total_error;  //!< standard errors as of independent blocks: on the careful side [-]
  double mean = 0, variance = 0;                 //!< of the answer
  std::uint64_t blocks = 0;                      //!< that were used; one with a run that failed (NaN) is left out
};

//! First order by Saltelli et al. 2010 (Comput. Phys. Commun. 181, 259), total by Jansen 1999 (Comput. Phys. Commun.
//! 117, 35), both from memory: S_i = mean(f(B) (f(A_B^i) - f(A))) / V, T_i = mean((f(A) - f(A_B^i))^2) / (2 V), the
//! answer taken about its mean, which leaves the first unbiased and less noisy.
//! \param answers of the points of an IndexDesign, in their order
//! \throws std::invalid_argument when there are no whole blocks
[[nodiscard]] SobolIndices sobol_indices(std::span<const double> answers, std::size_t dimension);

}  // namespace hatring::study
