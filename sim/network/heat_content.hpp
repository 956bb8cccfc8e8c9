// SPDX-License-Identifier: MIT
//! \file
//! Temperature and conductivity against heat content: the solver's state is heat, not temperature.
#pragma once

#include <algorithm>
#include <vector>

#include "models/material.hpp"

namespace hatring::network {

//! T(h) and 1/k(h) of one material, tabulated on a uniform grid of specific enthalpy h (above 20 degC).
//! Cubic Hermite in T with the exact slope 1/cp, linear in 1/k; beyond the grid cp and k are held.
class HeatContent {
 public:
  //! \param constant every property at its 20 degC value
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
    const auto i = static_cast<std::size_t>(u > 0 ? std::min(last_, u) : 0.0);
    const Cell& c = cells_[i];
    const double s = u - static_cast<double>(i);
    return {c.t0 + s * (c.t1 + s * (c.t2 + s * c.t3)), (c.t1 + s * (2 * c.t2 + s * 3 * c.t3)) * inverse_step_,
            c.r0 + (s > 0 ? std::min(1.0, s) : 0.0) * c.r1};
  }
  //! Value and how it goes on: T(h + dh) = temperature + w (1 + bend w) with w = slope dh, to third order.
  struct Local {
    double temperature, slope;  //!< as in Value
    double bend;                //!< [1/K]
    double resistivity;         //!< 1/k [m K/W]
    double resistivity_slope;   //!< by temperature [m/W]
  };
  [[nodiscard]] Local local(double h) const {
    const double u = (h - lowest_) * inverse_step_;
    const auto i = static_cast<std::size_t>(u > 0 ? std::min(last_, u) : 0.0);
    const Cell& c = cells_[i];
    const double s = u - static_cast<double>(i);
    const bool inside = s >= 0 && s <= 1;
    const double slope = c.t1 + s * (2 * c.t2 + s * 3 * c.t3);
    return {c.t0 + s * (c.t1 + s * (c.t2 + s * c.t3)), slope * inverse_step_, (c.t2 + 1.5 * c.t3) / (slope * slope),
            c.r0 + (inside  ? s
                    : s > 1 ? 1.0
                            : 0.0) *
                       c.r1,
            inside ? c.r1 / slope : 0.0};
  }
  //! Temperature alone [K].
  [[nodiscard]] double temperature(double h) const { return at(h).temperature; }
  //! 1/k at a temperature, linear between points 5 K apart [m K/W]
  [[nodiscard]] double resistivity(double temperature) const;
  //! \returns specific enthalpy above 20 degC of a temperature [J/kg]
  [[nodiscard]] double enthalpy(double temperature) const;

 private:
  struct Cell {
    double t0, t1, t2, t3, r0, r1;
  };
  std::vector<Cell> cells_;
  std::vector<double> resistivity_;  // on a uniform grid of temperature
  models::Curve specific_heat_;
  double lowest_ = 0, inverse_step_ = 0, last_ = 0;
};

}  // namespace hatring::network
