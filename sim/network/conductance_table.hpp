// SPDX-License-Identifier: MIT
//! \file
//! Convective conductances tabulated against road speed and temperature difference, so that the solver's inner
//! loop evaluates no power laws. Smooth (C1) in both, hence so is the heat flow.
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <memory>
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
  static constexpr int kSpeeds = 36;
  static constexpr int kDifferences = 40;

  //! \param highest_speed [m/s]; speeds above it are held
  explicit ConductanceGrid(double highest_speed);

  [[nodiscard]] double speed(int i) const;                                   //!< [m/s]
  [[nodiscard]] double highest_speed() const { return speed(kSpeeds - 1); }  //!< [m/s]
  [[nodiscard]] double difference(int j) const;                              //!< surface minus air [K]
  [[nodiscard]] SpeedWeights locate(double speed) const;

  //! Signed square root of a difference, in grid steps from the first point.
  [[nodiscard]] static double position(double difference) {
    return (std::copysign(std::sqrt(std::abs(difference)), difference) - kLowest) * kInverseStep;
  }
  //! A position held between the first and the last point; NaN comes out as 0, so that it never becomes an index.
  [[nodiscard]] static double inside(double position, double last) {
    return position > 0 ? std::min(last, position) : 0;
  }
  //! Cubic (Catmull-Rom) weights of the points index-1 .. index+2; s in 0..1 between index and index+1.
  [[nodiscard]] static std::array<double, 4> cubic(double s) {
    const double s2 = s * s, s3 = s2 * s;
    return {0.5 * (-s + 2 * s2 - s3), 1 + 0.5 * (-5 * s2 + 3 * s3), 0.5 * (s + 4 * s2 - 3 * s3), 0.5 * (s3 - s2)};
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
  //! The same table, all of it times a factor.
  ConductanceTable(const ConductanceTable& table, double factor)
      : cubics_(table.cubics_), factor_(table.factor_ * factor) {}

  [[nodiscard]] double operator()(const SpeedWeights& speed, double difference) const {
    const double p = ConductanceGrid::inside(ConductanceGrid::position(difference), ConductanceGrid::kDifferences - 1);
    const int j = std::min(static_cast<int>(p), ConductanceGrid::kDifferences - 2);
    const Eigen::Array4d* row = cubics_->data() + j * kRows + speed.index;
    const Eigen::Array4d c = (speed.w[0] * row[0] + speed.w[1] * row[1]) + (speed.w[2] * row[2] + speed.w[3] * row[3]);
    const double s = p - j;
    return factor_ * (c[0] + s * (c[1] + s * (c[2] + s * c[3])));
  }

  // One row beyond each end of the speed axis, so that the cubic needs no special case at the rim.
  static constexpr int kRows = ConductanceGrid::kSpeeds + 2;
  //! For loops of their own, which multiply by factor(): the four coefficients of each cubic, in the place between two
  //! differences; interval by interval, kRows of rising speed in each.
  [[nodiscard]] const double* cubics() const { return cubics_->front().data(); }
  [[nodiscard]] double factor() const { return factor_; }

 private:
  std::shared_ptr<const std::vector<Eigen::Array4d>> cubics_;  // copies share them
  double factor_ = 1;
};

}  // namespace hatring::network
