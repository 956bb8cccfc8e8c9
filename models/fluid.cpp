// SPDX-License-Identifier: MIT
#include "models/fluid.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "models/constants.hpp"

namespace hatring::models {
namespace {
constexpr double kBoilingShape = 1.5;  // ASSUMED: how strongly the fall is front-loaded; 0 would be a straight line
}

BoilingPoints minimum_boiling_points(FluidClass fluid_class) {
  switch (fluid_class) {
    case FluidClass::dot3:
      return {205 + kZeroCelsius, 140 + kZeroCelsius};
    case FluidClass::dot4:
      return {230 + kZeroCelsius, 155 + kZeroCelsius};
    case FluidClass::dot5_1:
      return {260 + kZeroCelsius, 180 + kZeroCelsius};
  }
  throw std::invalid_argument("fluid: unknown class");
}

double boiling_point(double dry, double wet, double water_content) {
  if (!(water_content >= 0 && water_content <= kWetWaterContent)) {
    throw std::invalid_argument("fluid: water content must lie between 0 and 3.7 %");
  }
  if (!(wet <= dry)) throw std::invalid_argument("fluid: the wet boiling point must not lie above the dry one");
  const double fallen = std::expm1(-kBoilingShape * water_content / kWetWaterContent) / std::expm1(-kBoilingShape);
  return dry - (dry - wet) * fallen;
}

double water_content(double age) {
  if (!(age >= 0)) throw std::invalid_argument("fluid: the age must not be negative");
  return kWetWaterContent * std::min(1.0, age / kWetAge);
}

}  // namespace hatring::models
