// SPDX-License-Identifier: MIT
#include "sim/network/strain_table.hpp"

#include <algorithm>

namespace hatring::network {
namespace {

constexpr double kLowest = 173.15, kHighest = 1773.15;  // [K]

}  // namespace

StrainTable::StrainTable(const models::Material& m, bool constant) {
  const double alpha = m.mean_expansion(models::kReferenceTemperature);
  for (double t = kLowest; t <= kHighest; t += 1)
    values_.push_back(constant ? alpha * (t - models::kReferenceTemperature) : m.thermal_strain(t));
}

double StrainTable::operator()(double t) const {
  const double u = std::clamp(t - kLowest, 0.0, static_cast<double>(values_.size() - 2));
  const auto i = static_cast<std::size_t>(u);
  return values_[i] + (t - kLowest - static_cast<double>(i)) * (values_[i + 1] - values_[i]);
}

}  // namespace hatring::network
