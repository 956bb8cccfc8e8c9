// SPDX-License-Identifier: MIT
#include "sim/io/earth.hpp"

#include <cmath>
#include <numbers>

namespace hatring::io {

DegreeLengths degree_lengths(double latitude) {
  constexpr double kRadian = std::numbers::pi / 180;
  constexpr double kEquator = 6378137;              // semi-major axis [m]
  constexpr double kEccentricity2 = 0.00669437999;  // first eccentricity squared [-]
  const double s = std::sin(latitude * kRadian), w = 1 - kEccentricity2 * s * s;
  return {.north = kEquator * (1 - kEccentricity2) / (w * std::sqrt(w)) * kRadian,
          .east = kEquator / std::sqrt(w) * std::cos(latitude * kRadian) * kRadian};
}

}  // namespace hatring::io
