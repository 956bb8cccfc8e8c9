// SPDX-License-Identifier: MIT
//! \file
//! How sure an answer is. Convection is the least known number of the model, so the case is run again with every
//! convection coefficient at the low and at the high end of its prior (network::assumed::kConvection, about 0.67 to
//! 1.5), on both axles together: it is the same air. Other uncertainties are not in this band.
//! Checked by tests/sim/answer/test_band.cpp.
#pragma once

#include <optional>

#include "sim/answer/run.hpp"

namespace hatring::answer {

//! The same case in air that cools as little and as much as it plausibly may.
struct BandEnds {
  Answers little, much;
};

//! A run in the likely air, and the ends of its band; none when the case pins convection: then there is no doubt to
//! show.
struct BandedRun {
  Run likely;
  std::optional<BandEnds> ends{};
};

//! All three at once. The likely answers are not widened yet. \throws what run() throws
[[nodiscard]] BandedRun run_with_band(const session::Case& c, const RunOptions& options = {});

//! Gives every verdict and peak its band. A verdict that keeps its limit in the likely air, but not at an end of the
//! band, is 'near the limit' at best; `sure` says so in words. Draws level and sentence anew.
void widen(Answers& likely, const BandEnds& ends);

//! The verdict on the same quantity of the same axle in another answer, or nullptr.
[[nodiscard]] const Verdict* counterpart(const Answers& answers, const Verdict& v);

}  // namespace hatring::answer
