// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <cstddef>
#include <memory>
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
    const double* at = values_->data() + i;
    return at[0] + (temperature - kLowest - static_cast<double>(i)) * (at[1] - at[0]);
  }

 private:
  static constexpr double kLowest = 173.15, kHighest = 1773.15;  // [K]
  double last_ = 0;
  std::shared_ptr<const std::vector<double>> values_;  // copies share them
};

}  // namespace hatring::network
