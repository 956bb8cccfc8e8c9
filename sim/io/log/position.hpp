// SPDX-License-Identifier: MIT
//! \file
//! Positions of a log: degrees to metres, and passes of a line. Checked by tests/sim/io/test_log_laps.cpp.
#pragma once

#include <vector>

namespace hatring::io {

struct LatLon {
  double latitude = 0, longitude = 0;  //!< [degree]
};

//! Whether two numbers are a place on earth: within the globe, and not 0, 0, which loggers write for 'no fix'.
[[nodiscard]] bool is_place(double latitude, double longitude);

//! Metres between two places, on the plane that touches the earth halfway (earth.hpp).
[[nodiscard]] double metres_between(double latitude_a, double longitude_a, double latitude_b, double longitude_b);

//! How close to the start line's place a pass must come: half a wide start straight and the error of a cheap receiver
//! (common practice, no source) [m].
inline constexpr double kPassReach = 40;

//! Times at which the path passes a place the way it is passed fastest: where it crosses the line through the place at
//! right angles to that way. Times between points are interpolated.
//! \param time rising  \param position NaN where there is none  \param speed same length
[[nodiscard]] std::vector<double> passes_of(const std::vector<double>& time, const std::vector<LatLon>& position,
                                            const std::vector<double>& speed, const LatLon& place);

}  // namespace hatring::io
