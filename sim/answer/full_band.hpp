// SPDX-License-Identifier: MIT
//! \file
//! The full band: every uncertain input varied at once by the design of sim/study/sobol_indices.hpp, and what it does
//! to every verdict and peak. Verdicts are spread by value; their indices are those of the margin, since age of the
//! fluid moves the limit and not the temperature. Quantiles are taken over the two independent points of each block.
//! Checked by tests/sim/answer/test_full_band.cpp.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "sim/answer/answers.hpp"
#include "sim/answer/inputs.hpp"
#include "sim/study/sobol_indices.hpp"

namespace hatring::answer {

inline constexpr std::uint64_t kBandRuns = 288;  //!< 32 blocks of seven inputs
//! Share of the runs that must keep a limit for it to be surely kept, and the ends of what is reported [-].
inline constexpr double kSurely = 0.95;

//! What is kept of one run.
struct BandRow {
  std::vector<double> value, margin;  //!< by verdict; NaN where the run has no such verdict
  std::vector<double> other;          //!< peaks of front and rear, float needed in front and rear
  std::vector<std::string> advice;    //!< by verdict, of a limit that is passed; empty otherwise
  [[nodiscard]] bool failed() const { return value.empty(); }
};

class FullBand {
 public:
  //! \param c, likely the case and its answers; both must outlive this
  //! \param inputs at least one  \param runs at most so many; the blocks are the power of two below, two at the least
  //! \throws std::invalid_argument without inputs
  FullBand(const session::Case& c, const Answers& likely, std::vector<UncertainInput> inputs,
           std::uint64_t runs = kBandRuns);

  [[nodiscard]] std::uint64_t runs() const { return design_.runs(); }
  //! Runs that differ in few inputs stand together, so many of them; there are whole blocks.
  [[nodiscard]] std::size_t block() const { return inputs_.size() + 2; }
  //! The case of a run. Any order, any thread.
  [[nodiscard]] session::Case at(std::uint64_t run) const;
  //! What is kept of its answers. Any thread. A run that failed is an empty BandRow.
  [[nodiscard]] BandRow row(const Answers& answers) const;
  //! Gives every verdict and peak its band, draws level and sentence anew. \param rows of all runs, by number
  //! \param answers a copy of `likely` \throws session::CaseError when no block of runs is whole
  void widen(Answers& answers, const std::vector<BandRow>& rows) const;

 private:
  const session::Case& case_;
  const Answers& likely_;
  std::vector<UncertainInput> inputs_;
  study::IndexDesign design_;
};

//! The spread of one quantity, by run; NaN where a run failed or has no such quantity.
//! \param margins what the indices are of, and the limit is kept where it is not below 0 or NaN in a run that has a row
[[nodiscard]] Doubt spread(std::span<const double> values, std::span<const double> margins, std::size_t inputs);

//! How surely a limit is kept, as a phrase. \param kept share of the runs [-]
[[nodiscard]] std::string how_sure(double kept);

}  // namespace hatring::answer
