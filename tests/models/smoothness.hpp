// SPDX-License-Identifier: MIT
//! \file
//! Finite-difference test for a continuous slope.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

namespace hatring::tests {

//! Largest change of slope between cells that are one apart, on an even grid.
template <class Function>
double largest_slope_change(const Function& f, double from, double to, int cells) {
  const double width = (to - from) / cells;
  std::vector<double> slope(static_cast<std::size_t>(cells));
  double left = f(from);
  for (int i = 0; i < cells; ++i) {
    const double right = f(from + width * (i + 1));
    slope[static_cast<std::size_t>(i)] = (right - left) / width;
    left = right;
  }
  double largest = 0;
  for (std::size_t i = 2; i < slope.size(); ++i) largest = std::max(largest, std::abs(slope[i] - slope[i - 2]));
  return largest;
}

//! What is left of it on an eight times finer grid: about 1/8 with a bounded second derivative, 8^-p where the slope is
//! only Hoelder continuous of order p, 1 at a kink, 8 at a jump.
template <class Function>
double slope_change_left(const Function& f, double from, double to, int cells = 4000) {
  return largest_slope_change(f, from, to, 8 * cells) / largest_slope_change(f, from, to, cells);
}

}  // namespace hatring::tests
