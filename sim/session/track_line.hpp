// SPDX-License-Identifier: MIT
//! \file
//! A track from points along it: curvature by a smoothing spline. Checked by tests/sim/session/test_track_line.cpp.
#pragma once

#include <string>
#include <vector>

#include "sim/session/track.hpp"

namespace hatring::session {

//! Points in driving order; of a closed track once round, and the last one may be the first again.
struct LinePoints {
  std::vector<double> x, y;    //!< on a flat map [m]
  std::vector<double> height;  //!< as many, or none [m]
};

//! Wiggles shorter than this are taken for noise, if nothing else is said: hairpins of 10 m radius still show, and the
//! jitter of positions does not (our choice, tests/sim/session/test_track_line.cpp) [m].
inline constexpr double kLineSmoothing = 40;
//! Heights are noisier than positions and slopes of roads change slowly: they are smoothed over this many times more
//! (our choice).
inline constexpr double kHeightSmoothing = 5;

struct SmoothLine {
  Track track;
  double gap = 0;       //!< closed: from the last point to the first, where the line was drawn in [m]
  double residual = 0;  //!< root mean square distance of the points from the line [m]
};

//! A cubic B-spline in x, y and height over the length along the points that minimises
//!   sum of w (spline - point)^2 + (smoothing / 2 pi)^6 * integral of (third derivative)^2,   w = length per point
//! so that a wave of length L keeps the share 1 / (1 + (smoothing / L)^6) of its height: penalised regression with
//! B-splines (Eilers and Marx 1996, from memory), with the penalty of a quintic smoothing spline. Knots lie
//! smoothing / 8 apart. The third derivative is penalised, not the second, because bends of constant radius are what
//! tracks are made of. Curvature and grade are those of the spline, in stretches of kLineStep.
//! \throws CaseError when there are too few points, or those of a closed track do not close: the gap is wider than
//! kWidestGap
[[nodiscard]] SmoothLine smooth_line(const LinePoints& points, double smoothing, std::string name, bool closed = true);

inline constexpr double kLineStep = 2;     //!< [m]
inline constexpr double kWidestGap = 0.1;  //!< between last point and first, over the length (our choice)

}  // namespace hatring::session
