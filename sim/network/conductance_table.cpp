// SPDX-License-Identifier: MIT
#include "sim/network/conductance_table.hpp"

#include <utility>

namespace hatring::network {

ConductanceGrid::ConductanceGrid(double highest_speed)
    : inverse_step_((kSpeeds - 1) / std::sqrt(std::max(highest_speed, 1.0))) {}

double ConductanceGrid::speed(int i) const {
  const double root = i / inverse_step_;
  return root * root;
}

double ConductanceGrid::difference(int j) const {
  const double root = kLowest + j / kInverseStep;
  return root * std::abs(root);
}

SpeedWeights ConductanceGrid::locate(double speed) const {
  const double p = inside(std::sqrt(std::max(speed, 0.0)) * inverse_step_, kSpeeds - 1);
  const int i = std::min(static_cast<int>(p), kSpeeds - 2);
  return {i, cubic(p - i)};
}

ConductanceTable::ConductanceTable(const ConductanceGrid& grid,
                                   const std::function<double(double, double)>& conductance) {
  constexpr int rows = kRows, columns = ConductanceGrid::kDifferences + 2;
  std::vector<double> points(std::size_t{rows} * columns);
  const auto value = [&](int i, int j) -> double& {
    return points[static_cast<std::size_t>(i) * columns + static_cast<std::size_t>(j)];
  };
  // Speed by speed at each difference: what depends on that alone can be kept (sim/network/cooling.cpp).
  for (int j = 1; j + 1 < columns; ++j)
    for (int i = 1; i + 1 < rows; ++i) value(i, j) = conductance(grid.speed(i - 1), grid.difference(j - 1));
  // Extend straight by one point beyond each rim.
  for (int i = 1; i + 1 < rows; ++i) {
    value(i, 0) = 2 * value(i, 1) - value(i, 2);
    value(i, columns - 1) = 2 * value(i, columns - 2) - value(i, columns - 3);
  }
  for (int j = 0; j < columns; ++j) {
    value(0, j) = 2 * value(1, j) - value(2, j);
    value(rows - 1, j) = 2 * value(rows - 2, j) - value(rows - 3, j);
  }
  std::vector<Eigen::Array4d> cubics;
  cubics.reserve(std::size_t{ConductanceGrid::kDifferences - 1} * rows);
  for (int j = 0; j + 1 < ConductanceGrid::kDifferences; ++j)
    for (int i = 0; i < rows; ++i) {
      const double a = value(i, j), b = value(i, j + 1), c = value(i, j + 2), d = value(i, j + 3);
      cubics.push_back(
          {b, 0.5 * (c - a), 0.5 * (2 * a - 5 * b + 4 * c - d), 0.5 * (-a + 3 * b - 3 * c + d)});  // Catmull-Rom
    }
  cubics_ = std::make_shared<const std::vector<Eigen::Array4d>>(std::move(cubics));
}

}  // namespace hatring::network
