// SPDX-License-Identifier: MIT
//! \file
//! Convective conductances tabulated against road speed and temperature difference, so that the solver's inner
//! loop evaluates no power laws. Smooth (C1) in both, hence so is the heat flow.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <vector>

namespace hatring::network {

//! Where a speed falls on the speed axis, with its four cubic weights: found once, used by every table of a network.
struct SpeedWeights {
  int index = 0;
  std::array<double, 4> w{};
};

//! Grid shared by all tables of a network: uniform in sqrt(speed) and in signed sqrt(temperature difference), because
//! coefficients change fastest near standstill and near equal temperatures.
class ConductanceGrid {
 public:
  static constexpr int kSpeeds = 24;
  static constexpr int kDifferences = 40;

  //! \param highest_speed [m/s]; speeds above it are held
  explicit ConductanceGrid(double highest_speed);

  [[nodiscard]] double speed(int i) const;       //!< [m/s]
  [[nodiscard]] double difference(int j) const;  //!< surface minus air [K]
  [[nodiscard]] SpeedWeights locate(double speed) const;

  //! Signed square root of a difference, in grid steps from the first point.
  [[nodiscard]] static double position(double difference) {
    return (std::copysign(std::sqrt(std::abs(difference)), difference) - kLowest) * kInverseStep;
  }
  //! A position held between the first and the last point; NaN comes out as 0, so that it never becomes an index.
  [[nodiscard]] static double inside(double position, double last) { return position > 0 ? std::min(last, position) : 0; }
  //! Cubic (Catmull-Rom) weights of the points index-1 .. index+2; s in 0..1 between index and index+1.
  [[nodiscard]] static std::array<double, 4> cubic(double s) {
    const double s2 = s * s, s3 = s2 * s;
    return {0.5 * (-s + 2 * s2 - s3), 1 + 0.5 * (-5 * s2 + 3 * s3), 0.5 * (s + 4 * s2 - 3 * s3), 0.5 * (s3 - s2)};
  }
  //! Derivatives of the same weights by s.
  [[nodiscard]] static std::array<double, 4> cubic_slope(double s) {
    const double s2 = s * s;
    return {0.5 * (-1 + 4 * s - 3 * s2), 0.5 * (-10 * s + 9 * s2), 0.5 * (1 + 8 * s - 9 * s2), 0.5 * (3 * s2 - 2 * s)};
  }

  static constexpr double kLowest = -14;  // -196 K
  static constexpr double kHighest = 38;  // 1444 K
  static constexpr double kInverseStep = (kDifferences - 1) / (kHighest - kLowest);

 private:
  double inverse_step_;
};

//! Conductance [W/K] of one surface over the grid.
class ConductanceTable {
 public:
  //! \param conductance function of (speed [m/s], surface minus air temperature [K]) giving [W/K]
  ConductanceTable(const ConductanceGrid& grid, const std::function<double(double, double)>& conductance);

  struct Value {
    double conductance;  //!< [W/K]
    double slope;        //!< by temperature difference [W/K2]
  };
  [[nodiscard]] double operator()(const SpeedWeights& speed, double difference) const {
    const auto [j, s] = split(difference);
    return contract(speed, j, ConductanceGrid::cubic(s));
  }
  [[nodiscard]] Value with_slope(const SpeedWeights& speed, double difference) const;

 private:
  // One point beyond each end of both axes, so that the cubic needs no special case at the rim.
  static constexpr int kStride = ConductanceGrid::kDifferences + 2;

  [[nodiscard]] static std::pair<int, double> split(double difference) {
    const double p = ConductanceGrid::inside(ConductanceGrid::position(difference), ConductanceGrid::kDifferences - 1);
    const int j = std::min(static_cast<int>(p), ConductanceGrid::kDifferences - 2);
    return {j, p - j};
  }
  [[nodiscard]] double contract(const SpeedWeights& speed, int j, const std::array<double, 4>& w) const {
    const double* row = values_.data() + speed.index * kStride + j;
    double sum = 0;
    for (std::size_t i = 0; i < 4; ++i, row += kStride)
      sum += speed.w[i] * (w[0] * row[0] + w[1] * row[1] + w[2] * row[2] + w[3] * row[3]);
    return sum;
  }
  std::vector<double> values_;
};

}  // namespace hatring::network
