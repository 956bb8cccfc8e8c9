// SPDX-License-Identifier: MIT
//! \file
//! Degrees to metres, for positions of logs and of tracks alike.
#pragma once

namespace hatring::io {

//! Metres on the ground of one degree, at a place: the radii of curvature of the WGS 84 ellipsoid along the meridian
//! and across it (constants and formulas from memory). On the plane that touches the earth there, distances over a
//! track are good to 1e-4. Checked by tests/sim/io/test_track.cpp.
struct DegreeLengths {
  double north = 0, east = 0;  //!< [m/degree]
};
//! \param latitude [degree]
[[nodiscard]] DegreeLengths degree_lengths(double latitude);

}  // namespace hatring::io
