// SPDX-License-Identifier: MIT
#include "sim/network/heat_content.hpp"

#include <cmath>
#include <utility>

#include "sim/network/kept.hpp"

namespace hatring::network {
namespace {

// How far from a cell, to one side, its parabola for T and its line for 1/k follow the table [K].
template <class Cell>
double room(const std::vector<Cell>& cells, std::size_t from, int side) {
  constexpr double kOff = 0.01, kOffResistivity = 1e-3;  // [K], [-]
  constexpr int kFar = 40;                               // cells, some 100 K
  const Cell& c = cells[from];
  const auto last = static_cast<std::ptrdiff_t>(cells.size()) - 1;
  double reached = c[1];
  for (int k = 1; k < kFar; ++k) {
    const std::ptrdiff_t there = static_cast<std::ptrdiff_t>(from) + side * k;
    if (there < 0 || there > last) return 1e9;
    const Cell& d = cells[static_cast<std::size_t>(there)];
    const double way = side * k;
    if (std::abs(c[0] + way * (c[1] + way * c[2]) - d[0]) > kOff ||
        std::abs(c[4] + way * c[5] - d[4]) > kOffResistivity * d[4])
      return reached;
    reached = std::max(reached, std::abs(d[0] - c[0]));
  }
  return reached;
}

}  // namespace

HeatContent::Table::Table(models::Curve heat, models::Curve conduction)
    : specific_heat(std::move(heat)), conductivity(std::move(conduction)) {
  const auto enthalpy = [this](double t) { return specific_heat.integral(models::kReferenceTemperature, t); };
  lowest = enthalpy(kLowest);
  step = (enthalpy(kHighest) - lowest) / kCells;

  constexpr double kResistivityStep = 1 / kInverseResistivityStep;
  for (double point = kLowest; point < kHighest + kResistivityStep; point += kResistivityStep)
    resistivity.push_back(1 / conductivity(point));
  // Invert h(T) at the grid points by Newton's method, each started from its neighbour.
  double t = kLowest;
  cells.reserve(kCells);
  double t_left = t;
  double cp_left = specific_heat(t);
  for (int i = 0; i < kCells; ++i) {
    const double h = lowest + (i + 1) * step;
    t += step / cp_left;
    for (int k = 0; k < 30; ++k) {
      const double dt = (h - enthalpy(t)) / specific_heat(t);
      t += dt;
      if (std::abs(dt) < 1e-11 * t) break;
    }
    const double cp_right = specific_heat(t);
    const double m0 = step / cp_left, m1 = step / cp_right, rise = t - t_left;
    const double r_left = 1 / conductivity(t_left), r_right = 1 / conductivity(t);
    cells.push_back({t_left, m0, 3 * rise - 2 * m0 - m1, m0 + m1 - 2 * rise, r_left, r_right - r_left, 0, 0});
    t_left = t;
    cp_left = cp_right;
  }
  for (std::size_t i = 0; i < cells.size(); ++i) cells[i][6] = std::min(room(cells, i, -1), room(cells, i, 1));
  // Straight ends, so that temperatures beyond the grid stay finite and monotone.
  for (Cell* end : {&cells.front(), &cells.back()})
    *end = {(*end)[0], (*end)[1] + (*end)[2] + (*end)[3], 0, 0, (*end)[4], (*end)[5], (*end)[6], 0};
}

HeatContent::HeatContent(const models::Material& material, bool constant) {
  const auto curve = [constant](const models::Curve& of) {
    return constant ? models::Curve(of(models::kReferenceTemperature)) : of;
  };
  const models::Curve heat = curve(material.specific_heat), conduction = curve(material.conductivity);
  thread_local Kept<Table> kept(64);  // 40 kB each
  table_ = kept.find([&](const Table& t) { return t.specific_heat == heat && t.conductivity == conduction; },
                     [&] { return Table(heat, conduction); });
  lowest_ = table_->lowest;
  inverse_step_ = 1 / table_->step;
  last_resistivity_ = static_cast<double>(table_->resistivity.size() - 2);
}

double HeatContent::enthalpy(double temperature) const {
  return table_->specific_heat.integral(models::kReferenceTemperature, temperature);
}

}  // namespace hatring::network
