// SPDX-License-Identifier: MIT
#include "sim/network/heat_content.hpp"

#include <cmath>
#include <utility>

namespace hatring::network {
namespace {

constexpr double kHighest = 1773.15;  // [K]; beyond iron's melting point

}  // namespace

HeatContent::HeatContent(const models::Material& material, bool constant)
    : specific_heat_(constant ? models::Curve(material.specific_heat(models::kReferenceTemperature))
                              : material.specific_heat) {
  lowest_ = enthalpy(kLowest);
  const double step = (enthalpy(kHighest) - lowest_) / kCells;
  inverse_step_ = 1 / step;

  const auto conductivity = [&](double t) {
    return material.conductivity(constant ? models::kReferenceTemperature : t);
  };
  const auto smooth_around = [&](double t) {
    double room = 1e9;
    for (const models::Curve* c : {&material.specific_heat, &material.conductivity})
      if (!constant) room = std::min({room, std::abs(t - c->lowest()), std::abs(t - c->highest())});
    return room;
  };
  constexpr double kResistivityStep = 1 / kInverseResistivityStep;
  for (double point = kLowest; point < kHighest + kResistivityStep; point += kResistivityStep)
    resistivity_.push_back(1 / conductivity(point));
  last_resistivity_ = static_cast<double>(resistivity_.size() - 2);
  // Invert h(T) at the grid points by Newton's method, each started from its neighbour.
  double t = kLowest;
  std::vector<Cell> cells;
  cells.reserve(kCells);
  double t_left = t;
  double cp_left = specific_heat_(t);
  for (int i = 0; i < kCells; ++i) {
    const double h = lowest_ + (i + 1) * step;
    t += step / cp_left;
    for (int k = 0; k < 30; ++k) {
      const double dt = (h - enthalpy(t)) / specific_heat_(t);
      t += dt;
      if (std::abs(dt) < 1e-11 * t) break;
    }
    const double cp_right = specific_heat_(t);
    const double m0 = step / cp_left, m1 = step / cp_right, rise = t - t_left;
    const double r_left = 1 / conductivity(t_left), r_right = 1 / conductivity(t);
    cells.push_back({t_left, m0, 3 * rise - 2 * m0 - m1, m0 + m1 - 2 * rise, r_left, r_right - r_left,
                     std::max(smooth_around(t_left + rise / 2), rise)});
    t_left = t;
    cp_left = cp_right;
  }
  // Straight ends, so that temperatures beyond the grid stay finite and monotone.
  for (Cell* end : {&cells.front(), &cells.back()})
    *end = {(*end)[0], (*end)[1] + (*end)[2] + (*end)[3], 0, 0, (*end)[4], (*end)[5], (*end)[6]};
  cells_ = std::make_shared<const std::vector<Cell>>(std::move(cells));
}

double HeatContent::enthalpy(double temperature) const {
  return specific_heat_.integral(models::kReferenceTemperature, temperature);
}

}  // namespace hatring::network
