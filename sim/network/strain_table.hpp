// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "models/material.hpp"

namespace hatring::network {

//! Thermal strain from 20 degC, linear between points 1 K apart: each recorded moment asks for every ring node.
//! Made once with the network, since many short runs may share it.
class StrainTable {
 public:
  //! \param constant the 20 degC coefficient at every temperature
  StrainTable(const models::Material& material, bool constant);
  [[nodiscard]] double operator()(double temperature) const {
    const double u = std::clamp(temperature - kLowest, 0.0, last_);
    const auto i = static_cast<std::size_t>(u);
    return values_[i] + (temperature - kLowest - static_cast<double>(i)) * (values_[i + 1] - values_[i]);
  }

 private:
  static constexpr double kLowest = 173.15;  // [K]
  double last_ = 0;
  std::vector<double> values_;
};

}  // namespace hatring::network
