// SPDX-License-Identifier: MIT
//! \file
//! Many cases in one go. Those that go over the same moments with the same parts (other materials, cooling, shares, age
//! of the fluid) are solved side by side in the lanes of a kernel, in less time than one after the other; the rest, and
//! those beside which one fails, by themselves. Side by side the steps are those of the neediest, so the answers differ
//! from those of answer::run() by the tolerance of a step, and hang on which cases are given together, not on the order
//! of events.
//! Checked by tests/sim/answer/test_run_many.cpp.
#pragma once

#include <exception>
#include <functional>
#include <span>
#include <vector>

#include "sim/answer/run.hpp"

namespace hatring::answer {

//! Cases that the program hands over together where it has many. Answers hang on it in their last digits.
inline constexpr std::size_t kTogether = 8;

//! Takes one run, in any order. \param i index of its case
using TakeRun = std::function<void(std::size_t i, Run run)>;

//! \returns by case why it could not be run, null for those that were taken
//! \throws std::bad_alloc, and what `take` throws
[[nodiscard]] std::vector<std::exception_ptr> run_many(std::span<const session::Case> cases, const TakeRun& take,
                                                       const RunOptions& options = {});

//! One case with each of some factors on every convection coefficient, both axles; what hangs on no convection is made
//! once. The first factor is 1. \throws what answer::run() throws
void run_in_airs(const session::Case& c, std::span<const double> factors, const TakeRun& take,
                 const RunOptions& options = {});

}  // namespace hatring::answer
