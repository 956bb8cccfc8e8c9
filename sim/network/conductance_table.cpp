// SPDX-License-Identifier: MIT
#include "sim/network/conductance_table.hpp"

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
  constexpr int speeds = ConductanceGrid::kSpeeds, differences = ConductanceGrid::kDifferences;
  values_.resize(static_cast<std::size_t>((speeds + 2) * kStride));
  const auto value = [&](int i, int j) -> double& { return values_[static_cast<std::size_t>(i * kStride + j)]; };
  for (int i = 0; i < speeds; ++i)
    for (int j = 0; j < differences; ++j) value(i + 1, j + 1) = conductance(grid.speed(i), grid.difference(j));
  // Extend straight by one point beyond each rim.
  for (int i = 1; i <= speeds; ++i) {
    value(i, 0) = 2 * value(i, 1) - value(i, 2);
    value(i, differences + 1) = 2 * value(i, differences) - value(i, differences - 1);
  }
  for (int j = 0; j < kStride; ++j) {
    value(0, j) = 2 * value(1, j) - value(2, j);
    value(speeds + 1, j) = 2 * value(speeds, j) - value(speeds - 1, j);
  }
}

ConductanceTable::Value ConductanceTable::with_slope(const SpeedWeights& speed, double difference) const {
  const auto [j, s] = split(difference);
  // d(position)/d(difference) = 1 / (2 sqrt|difference|); bounded so that the slope stays finite at zero difference.
  const double root = std::max(std::sqrt(std::abs(difference)), 0.1);
  return {contract(speed, j, ConductanceGrid::cubic(s)),
          contract(speed, j, ConductanceGrid::cubic_slope(s)) * ConductanceGrid::kInverseStep / (2 * root)};
}

}  // namespace hatring::network
