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

  [[nodiscard]] double speed(int i) const;       //!< [m/s]
  [[nodiscard]] double difference(int j) const;  //!< surface minus air [K]
  [[nodiscard]] SpeedWeights locate(double speed) const;

  //! Signed square root of a difference, whose unsigned root is given, in grid steps from the first point.
  [[nodiscard]] static double position(double difference, double root) {
    return (std::copysign(root, difference) - kLowest) * kInverseStep;
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

  //! Where a temperature difference falls: interval of the grid, 0..1 in it, and the difference's square root.
  struct Place {
    int interval = -1;
    double s = 0;
    double root = 0;  //!< of |difference| [K^0.5]
  };
  //! The table at one speed over one interval of differences: a cubic in s.
  class Curve {
   public:
    Curve() = default;
    explicit Curve(const Eigen::Array4d& c) : c_(c) {}
    [[nodiscard]] double operator()(const Place& at) const {
      return c_[0] + at.s * (c_[1] + at.s * (c_[2] + at.s * c_[3]));
    }
    [[nodiscard]] double slope(const Place& at) const {
      // d(position)/d(difference) = 1 / (2 sqrt|difference|); bounded so that the slope stays finite at no difference.
      return (c_[1] + at.s * (2 * c_[2] + at.s * 3 * c_[3])) * ConductanceGrid::kInverseStep /
             (2 * std::max(at.root, 0.1));
    }
    //! Second derivative by the difference, bounded as the slope is.
    [[nodiscard]] double bend(const Place& at, double difference) const {
      const double root = std::max(at.root, 1.0), by_difference = ConductanceGrid::kInverseStep / (2 * root);
      return (2 * c_[2] + at.s * 6 * c_[3]) * by_difference * by_difference -
             (difference < 0 ? -1 : 1) * slope(at) / (2 * root * root);
    }

   private:
    Eigen::Array4d c_ = Eigen::Array4d::Zero();
  };
  [[nodiscard]] static Place locate(double difference) { return locate(difference, std::sqrt(std::abs(difference))); }
  //! The same with sqrt|difference| given: the caller may have it for many differences at once.
  [[nodiscard]] static Place locate(double difference, double root) {
    const double p =
        ConductanceGrid::inside(ConductanceGrid::position(difference, root), ConductanceGrid::kDifferences - 1);
    const int j = std::min(static_cast<int>(p), ConductanceGrid::kDifferences - 2);
    return {j, p - j, root};
  }
  // By Eigen because compilers leave the plain loops scalar.
  [[nodiscard]] Curve at_speed(const SpeedWeights& speed, int interval) const {
    const Eigen::Array4d* row = cubics_.data() + interval * kRows + speed.index;
    return Curve((speed.w[0] * row[0] + speed.w[1] * row[1]) + (speed.w[2] * row[2] + speed.w[3] * row[3]));
  }
  [[nodiscard]] double operator()(const SpeedWeights& speed, double difference) const {
    const Place at = locate(difference);
    return at_speed(speed, at.interval)(at);
  }

 private:
  // One row beyond each end of the speed axis, so that the cubic needs no special case at the rim.
  static constexpr int kRows = ConductanceGrid::kSpeeds + 2;

  std::vector<Eigen::Array4d> cubics_;  // coefficients in s; interval by interval, rows of rising speed
};

}  // namespace hatring::network
