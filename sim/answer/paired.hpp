// SPDX-License-Identifier: MIT
//! \file
//! Set-ups held against the first in common random numbers: every run gives all of them the same air, mass and so on,
//! at the same share of each input's prior. What they share cancels in the difference, however wide their own bands
//! are. Checked by tests/sim/answer/test_paired.cpp.
#pragma once

#include <cstdint>
#include <set>
#include <string>
#include <vector>

#include "sim/answer/comparison.hpp"
#include "sim/answer/inputs.hpp"
#include "sim/study/design.hpp"

namespace hatring::answer {

inline constexpr std::uint64_t kPairedRuns = 64;

class Paired {
 public:
  //! \param setups at least one; must outlive this  \param runs of each set-up  \param known as uncertain_inputs()
  Paired(const std::vector<session::Case>& setups, std::uint64_t runs, const std::set<std::string>& known = {});

  [[nodiscard]] std::uint64_t runs() const { return design_.runs(); }
  //! Any order, any thread.
  [[nodiscard]] session::Case at(std::size_t setup, std::uint64_t run) const;

 private:
  const std::vector<session::Case>& setups_;
  std::vector<std::vector<UncertainInput>> inputs_;  // by set-up
  study::Design design_;                             // one coordinate for each of input_keys()
};

//! The rows of a comparison in one run, NaN where there is no such thing. \param c, answers of the run
[[nodiscard]] std::vector<double> row_values(const Comparison& comparison, const session::Case& c,
                                             const Answers& answers);

//! Fills Cell::same_sign. \param values by set-up and run, what row_values() gave; empty for a run that failed
void hold_against_first(Comparison& comparison, const std::vector<std::vector<std::vector<double>>>& values);

}  // namespace hatring::answer
