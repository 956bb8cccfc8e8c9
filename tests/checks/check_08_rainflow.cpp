// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <map>

#include "models/fatigue.hpp"

using namespace hatring::models;

TEST_CASE(
    "check 8: rainflow of the history -2 1 -3 5 -1 3 -4 4 -2 counts range 3: 0.5 and 4: 1.5 and 6: 0.5 and 8: 1.0 and "
    "9: 0.5 (ASTM E1049-85 section 5.4.4: original not read and history from a secondary text)") {
  const std::vector<double> history{-2, 1, -3, 5, -1, 3, -4, 4, -2};
  CHECK(turning_points(history, 0) == history);
  std::map<double, double> counts;
  for (const LoadCycle& cycle : rainflow(history)) counts[cycle.range] += cycle.count;
  CHECK(counts == std::map<double, double>{{3, 0.5}, {4, 1.5}, {6, 0.5}, {8, 1}, {9, 0.5}});
}
