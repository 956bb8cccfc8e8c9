// SPDX-License-Identifier: MIT
#include "sim/network/strain_table.hpp"

#include <utility>

namespace hatring::network {

StrainTable::StrainTable(const models::Material& m, bool constant) {
  const double alpha = m.mean_expansion(models::kReferenceTemperature);
  std::vector<double> values;
  for (double t = kLowest; t <= kHighest; t += 1)
    values.push_back(constant ? alpha * (t - models::kReferenceTemperature) : m.thermal_strain(t));
  last_ = static_cast<double>(values.size() - 2);
  values_ = std::make_shared<const std::vector<double>>(std::move(values));
}

}  // namespace hatring::network
