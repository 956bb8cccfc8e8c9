// SPDX-License-Identifier: MIT
//! \file
//! How a number that is not known exactly is spread, as the quantile function that turns an even share into a value.
//! Checked by tests/sim/study/test_spread.cpp.
#pragma once

#include <variant>

namespace hatring::study {

//! Anything between the ends, evenly.
struct Uniform {
  double low = 0, high = 1;
};

//! The bell curve, without ends.
struct Normal {
  double mean = 0, deviation = 1;
};

//! Rises straight from low to likely, falls straight to high: likely is the most frequent value.
struct Triangular {
  double low = 0, likely = 0.5, high = 1;
};

//! A plausible band around a likely value, as the priors of the model are given: half of the values lie on either side
//! of `likely`, evenly spread there, none beyond the ends.
struct Band {
  double low = 0, likely = 0.5, high = 1;
};

using Spread = std::variant<Uniform, Normal, Triangular, Band>;

//! \throws std::invalid_argument when the numbers are not finite, out of order, or leave no width
void check(const Spread& spread);

//! The value that a share `u` of all values stays below. Monotonic.
//! \param u above 0 and below 1
//! \throws std::invalid_argument for another u, and what check() throws
[[nodiscard]] double quantile(const Spread& spread, double u);

}  // namespace hatring::study
