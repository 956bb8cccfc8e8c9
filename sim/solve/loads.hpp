// SPDX-License-Identifier: MIT
//! \file
//! Some moments that follow one another, looked at together so that each quantity is an array in the cache.
#pragma once

#include <Eigen/Core>

#include "sim/solve/lane_system.hpp"

namespace hatring::solve {

//! So many at once, at most: an odd number of lines of a cache, so that columns beside one another do not push one
//! another out of it.
inline constexpr int kMostMoments = 72;
//! One quantity at each of them; takes no memory from the heap.
using Series = Eigen::Array<double, Eigen::Dynamic, 1, Eigen::ColMajor, kMostMoments, 1>;

//! The load at each moment.
struct Loads {
  Series speed, heat, applied;  //!< as in Load

  void resize(Eigen::Index moments) {
    for (Series* const series : {&speed, &heat, &applied}) series->conservativeResize(moments);
  }
  [[nodiscard]] Load operator[](Eigen::Index i) const { return {speed[i], heat[i], applied[i]}; }
  void set(Eigen::Index i, const Load& load) {
    speed[i] = load.speed;
    heat[i] = load.heat;
    applied[i] = load.applied;
  }
};

}  // namespace hatring::solve
