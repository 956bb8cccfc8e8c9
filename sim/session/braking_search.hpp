// SPDX-License-Identifier: MIT
//! \file
//! When the brakes are on: from the force that the speed trace demands, or from the trace's own brake channel.
//! Checked by tests/sim/session/test_trace_fit.cpp.
#pragma once

#include <vector>

#include "sim/session/road.hpp"
#include "sim/session/trace_fit.hpp"

namespace hatring::session {

//! Brakings closer than this are one, and shorter ones are none (quicker than a foot; common practice, no source) [s].
inline constexpr double kBlip = 0.2;
//! A braking found from the speed alone must take off at least this much, or it is jitter or a lifted throttle [m/s].
inline constexpr double kLeastSpeedLoss = 0.25;

//! Intervals of a smooth curve in which the demand is above `threshold` [N], tidied with kBlip and kLeastSpeedLoss.
[[nodiscard]] std::vector<Interval> demanded(const std::vector<Piece>& pieces, const Road& road, double threshold);

//! Intervals in which the brake channel is above `threshold` (its own unit), crossing times interpolated, tidied with
//! kBlip.
[[nodiscard]] std::vector<Interval> signalled(const Samples& s, double threshold);

//! Speed that the demand takes off over an interval: impulse of the positive demand over the effective mass [m/s].
[[nodiscard]] double speed_loss(const std::vector<Piece>& pieces, const Road& road, const Interval& i);

//! Moves begin and end of each braking to where the trace bends: two parabolas that meet there leave the least
//! residual. An instant stays where the trace shows no bend above the noise. \param reach how far an instant may move
//! [s]
[[nodiscard]] std::vector<Interval> sharpened(const Samples& s, std::vector<Interval> brakings, double noise,
                                              double reach);

}  // namespace hatring::session
