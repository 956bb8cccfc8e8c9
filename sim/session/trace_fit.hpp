// SPDX-License-Identifier: MIT
//! \file
//! Least-squares smoothing of an uneven, noisy speed trace into few C1 cubic pieces.
//! Checked by tests/sim/session/test_trace_fit.cpp.
#pragma once

#include <vector>

#include "sim/session/drive.hpp"

namespace hatring::session {

//! A trace on its own clock, from time 0.
struct Samples {
  std::vector<double> time;   //!< strictly rising, first 0 [s]
  std::vector<double> speed;  //!< [m/s]
  std::vector<double> grade;  //!< same length or empty [-]
  std::vector<double> brake;  //!< same length or empty
};

//! Median time between samples [s].
[[nodiscard]] double median_interval(const Samples& s);

//! Standard deviation of the jitter in the speed [m/s]: what is left of each sample after its neighbours have predicted
//! it, by the median absolute deviation, so that the few samples at brake points do not count. Held to 0.01 .. 0.25
//! m/s. Below 4 Hz the differences measure the driving instead, and the usual 0.1 m/s of a satellite speed is taken
//! (common practice, no source).
[[nodiscard]] double noise_level(const Samples& s);

struct Interval {
  double begin = 0, end = 0;  //!< [s]
};

struct FitPlan {
  double noise = 0;             //!< [m/s]
  std::vector<double> breaks;   //!< rising: the acceleration may jump here, and only here [s]
  std::vector<Interval> close;  //!< where the trace is followed to the noise or kCloseFit; elsewhere to kLooseFit
  double longest = 1e9;         //!< longest piece [s]
};

//! Residual that counts as followed, where the data are cleaner than that: on the brakes, where the speed is heat, and
//! off them, where it only feeds the cooling laws (0.1 m/s changes those by about 0.3 %) [m/s].
inline constexpr double kCloseFit = 0.03, kLooseFit = 0.1;

//! Pieces from 0 to the last sample. Knots are added only where the residual is above the noise. Speed never turns
//! negative.
[[nodiscard]] std::vector<Piece> fit_trace(const Samples& s, const FitPlan& plan);

//! Straight lines from sample to sample, for drawn traces: the acceleration is constant in between.
[[nodiscard]] std::vector<Piece> join_samples(const Samples& s);

}  // namespace hatring::session
