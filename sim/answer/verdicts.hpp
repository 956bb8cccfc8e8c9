// SPDX-License-Identifier: MIT
//! \file
//! Verdicts: each limit of the case held against the history. A new verdict is one more rule in the verdicts_*.cpp of
//! its part.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "sim/answer/answers.hpp"

namespace hatring::answer {

//! \param answers of the axle, as far as they are filled: damage and softening are judged
//! \returns the verdicts of one axle, in the order of the parts from the ring outward
[[nodiscard]] std::vector<Verdict> judge(const session::Case& c, const session::Drive& drive,
                                         const std::vector<double>& time, const AxleHistory& history,
                                         session::Axle axle, const AxleAnswers& answers);

//! The keys that verdicts may have, in the order of the parts from the ring outward. One that is missing here is found
//! by the sweep of tests/tools/test_sweep.py.
[[nodiscard]] std::span<const char* const> verdict_keys();

//! One or two sentences that a tired driver reads first. \param verdicts worst first
[[nodiscard]] std::string first_sentence(const std::vector<Verdict>& verdicts);

}  // namespace hatring::answer
