// SPDX-License-Identifier: MIT
//! \file
//! How far an answer is spread when every input of the full band varies, and on which input it hangs. Plain values,
//! part of the Answers; sim/answer/full_band.hpp fills them.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace hatring::answer {

//! Lowest and highest of a value over a band.
struct Band {
  double low = 0, high = 0;
};

//! Sobol' indices of one input: share of the variance that goes when it alone becomes known, and that stays when all
//! others are known, with their standard errors [-].
struct InputWeight {
  std::size_t input = 0;  //!< index into FullBandAnswer::inputs
  double first = 0, total = 0, first_error = 0, total_error = 0;
};

//! The spread of one verdict.
struct Doubt {
  double low = 0, likely = 0, high = 0;  //!< 5 %, median, 95 % of the value, in the verdict's unit
  double kept = 1;                       //!< share of the runs that keep the limit [-]
  std::vector<InputWeight> weights{};    //!< of the margin, heaviest first; empty when it does not vary
};

//! An input as it was spread, for people.
struct InputShown {
  struct Part {
    std::string where, unit, reason;
    double low = 0, likely = 0, high = 0;
  };
  std::string key, name, reading;
  double weight = 0;  //!< mean total index over the verdicts that matter [-]
  std::vector<Part> parts{};
};

//! The full band of a run.
struct FullBandAnswer {
  std::vector<InputShown> inputs{};
  std::vector<std::size_t> order{};  //!< of the inputs, heaviest over the verdicts that matter first
  std::uint64_t runs = 0, failed = 0;
  std::string sentence{};  //!< which reading would narrow the bands most
};

}  // namespace hatring::answer
