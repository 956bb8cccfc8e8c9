// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "sim/answer/places.hpp"

namespace hatring::answer {

TEST_CASE("highest and lowest are found wherever they lie, ties at the first") {
  std::mt19937 random(3);
  std::uniform_int_distribution<int> value(-5, 5);  // few values, many ties
  for (std::size_t size = 1; size < 40; ++size)
    for (std::size_t again = 0; again < 20; ++again) {
      std::vector<double> v(size + 3);
      for (double& x : v) x = value(random);
      const Rows rows{again % 3, again % 3 + size};
      const auto begin = v.begin() + static_cast<std::ptrdiff_t>(rows.first),
                 end = v.begin() + static_cast<std::ptrdiff_t>(rows.last);
      CAPTURE(size, rows.first);
      CHECK(highest(v, rows) == static_cast<std::size_t>(std::max_element(begin, end) - v.begin()));
      CHECK(lowest(v, rows) == static_cast<std::size_t>(std::min_element(begin, end) - v.begin()));
    }
}

}  // namespace hatring::answer
