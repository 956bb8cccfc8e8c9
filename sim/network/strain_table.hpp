// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "models/material.hpp"

namespace hatring::network {

//! Thermal strain from 20 degC, linear between points 1 K apart: each recorded moment asks for every ring node.
//! Made once with the network, since many short runs may share it.
class StrainTable {
 public:
  //! \param constant the 20 degC coefficient at every temperature
  StrainTable(const models::Material& material, bool constant);
  [[nodiscard]] double operator()(double temperature) const;

 private:
  std::vector<double> values_;
};

}  // namespace hatring::network
