// SPDX-License-Identifier: MIT
#include "sim/network/strain_table.hpp"

namespace hatring::network {
namespace {

constexpr double kHighest = 1773.15;  // [K]

}  // namespace

StrainTable::StrainTable(const models::Material& m, bool constant) {
  const double alpha = m.mean_expansion(models::kReferenceTemperature);
  for (double t = kLowest; t <= kHighest; t += 1)
    values_.push_back(constant ? alpha * (t - models::kReferenceTemperature) : m.thermal_strain(t));
  last_ = static_cast<double>(values_.size() - 2);
}

}  // namespace hatring::network
