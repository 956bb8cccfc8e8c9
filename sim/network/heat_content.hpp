// SPDX-License-Identifier: MIT
//! \file
//! Temperature and conductivity against heat content: the solver's state is heat, not temperature.
#pragma once

#include <algorithm>
#include <array>
#include <memory>
#include <vector>

#include "models/material.hpp"

namespace hatring::network {

//! T(h) and 1/k(h) of one material, tabulated on a uniform grid of specific enthalpy h (above 20 degC).
//! Cubic Hermite in T with the exact slope 1/cp, linear in 1/k; beyond the grid cp and k are held.
class HeatContent {
 public:
  //! Equal materials share their tables (Kept). \param constant every property at its 20 degC value
  explicit HeatContent(const models::Material& material, bool constant = false);

  struct Value {
    double temperature;  //!< [K]
    double slope;        //!< dT/dh = 1/cp [K kg/J]
    double resistivity;  //!< 1/k [m K/W]
  };
  //! \param h specific enthalpy above 20 degC [J/kg]
  [[nodiscard]] Value at(double h) const {
    const double u = (h - lowest_) * inverse_step_;
    // Written so that NaN never becomes an index: it comes out as temperature NaN, with a resistivity that can be used.
    const auto i = static_cast<std::size_t>(u > 0 ? std::min(kCells - 1.0, u) : 0.0);
    const Cell& c = table_->cells[i];
    const double s = u - static_cast<double>(i);
    return {c[0] + s * (c[1] + s * (c[2] + s * c[3])), (c[1] + s * (2 * c[2] + s * 3 * c[3])) * inverse_step_,
            c[4] + (s > 0 ? std::min(1.0, s) : 0.0) * c[5]};
  }
  //! Temperature alone [K].
  [[nodiscard]] double temperature(double h) const { return at(h).temperature; }
  //! 1/k at a temperature, linear between points 5 K apart [m K/W]
  [[nodiscard]] double resistivity(double temperature) const {
    const double u = (temperature - kLowest) * kInverseResistivityStep;
    const double p = u > 0 ? std::min(u, last_resistivity_) : 0.0;
    const auto i = static_cast<std::size_t>(p);
    const double* at = table_->resistivity.data() + i;
    return at[0] + (p - static_cast<double>(i)) * (at[1] - at[0]);
  }
  //! \returns specific enthalpy above 20 degC of a temperature [J/kg]
  [[nodiscard]] double enthalpy(double temperature) const;

  static constexpr int kCells =
      640;  //!< 2.5 K each: T(h) is exact to 3e-4 K where a property table has a point, 1e-7 K between
  //! For loops of their own: in cell floor((h - lowest()) inverse_step()), held between 0 and kCells - 1, with s what
  //! is left over, T = c0 + c1 s + c2 s^2 + c3 s^3 and 1/k = c4 + c5 (s held in 0..1); c6 is how far [K] to both
  //! sides the parabola and the line about the cell's begin follow T and 1/k closely. Each cell is a line of the
  //! cache and can be read four numbers at a time.
  static constexpr int kCellNumbers = 8;
  [[nodiscard]] const double* cells() const { return table_->cells.front().data(); }
  [[nodiscard]] double lowest() const { return lowest_; }              //!< [J/kg]
  [[nodiscard]] double inverse_step() const { return inverse_step_; }  //!< [kg/J]

 private:
  static constexpr double kLowest = 173.15;               // [K]; -100 degC
  static constexpr double kHighest = 1773.15;             // [K]; beyond iron's melting point
  static constexpr double kInverseResistivityStep = 0.2;  // [1/K]
  struct alignas(64) Cell : std::array<double, kCellNumbers> {};
  struct Table {
    Table(models::Curve heat, models::Curve conduction);

    models::Curve specific_heat, conductivity;
    double lowest, step;  // of the cells [J/kg]
    std::vector<Cell> cells;
    std::vector<double> resistivity;  // on a uniform grid of temperature
  };

  std::shared_ptr<const Table> table_;
  double lowest_, inverse_step_, last_resistivity_;
};

}  // namespace hatring::network
