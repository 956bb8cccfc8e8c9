// SPDX-License-Identifier: MIT
//! \file
//! Material properties against temperature. SI: temperatures in K.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "models/fatigue.hpp"
#include "models/softening.hpp"

namespace hatring::models {

//! Reference temperature of enthalpies and mean expansion coefficients, 20 degC [K].
inline constexpr double kReferenceTemperature = 293.15;

//! A property against temperature: shape-preserving piecewise cubic (Fritsch and Carlson 1980, with the
//! three-point end slopes limited to keep the shape), held at its end values outside the table.
class Curve {
 public:
  Curve() = default;
  //! One value at every temperature.
  explicit Curve(double constant);
  //! \param temperature strictly rising [K]  \param values same length, at least one
  //! \throws std::invalid_argument when lengths differ, a number is not finite, or temperatures do not rise
  Curve(std::vector<double> temperature, std::vector<double> values);

  [[nodiscard]] double operator()(double temperature) const;
  //! The same for one after the other, quickest where they lie close together.
  //! \throws std::invalid_argument when there are not as many values as temperatures
  void follow(std::span<const double> temperature, std::span<double> values) const;
  [[nodiscard]] double derivative(double temperature) const;
  //! Exact integral of the curve from `from` to `to` (negative when to < from).
  [[nodiscard]] double integral(double from, double to) const;
  [[nodiscard]] bool empty() const { return values_.empty(); }
  [[nodiscard]] bool constant() const { return values_.size() == 1; }
  //! Of the same points.
  [[nodiscard]] friend bool operator==(const Curve& a, const Curve& b) {
    return a.temperature_ == b.temperature_ && a.values_ == b.values_;
  }
  //! Table range [K]; infinite for a constant.
  [[nodiscard]] double lowest() const;
  [[nodiscard]] double highest() const;

 private:
  // Cubic of one interval in the local coordinate s = T - T_i: y + s (d + s (c + s b)).
  struct Piece {
    double y, d, c, b;
    [[nodiscard]] double value(double s) const { return y + s * (d + s * (c + s * b)); }
    [[nodiscard]] double slope(double s) const { return d + s * (2 * c + s * 3 * b); }
    [[nodiscard]] double area(double s) const { return s * (y + s * (d / 2 + s * (c / 3 + s * b / 4))); }
  };
  std::vector<double> temperature_, values_, integral_;
  std::vector<Piece> pieces_;
};

//! One material. Curves that a material does not need (strength of a pad) stay empty.
struct Material {
  std::string name;
  double density = 0;         //!< at 20 degC; mass does not change with temperature [kg/m3]
  Curve conductivity{};       //!< [W/m/K]
  Curve specific_heat{};      //!< instantaneous [J/kg/K]
  Curve mean_expansion{};     //!< mean coefficient from 20 degC to T [1/K]
  Curve youngs_modulus{};     //!< [Pa]
  Curve proof_strength{};     //!< 0.2 % proof, short exposure [Pa]
  Curve ultimate_strength{};  //!< tensile [Pa]
  Curve
      soaked_proof_strength{};  //!< what is left after 10,000 h at temperature, tested hot; not for short exposure [Pa]
  Curve soaked_ultimate_strength{};  //!< the same [Pa]
  double poisson = 0.3;              //!< [-]
  double compressive_ratio = 1;      //!< proof strength in compression over that in tension [-]
  FatigueConstants fatigue{};        //!< smooth specimens at 20 degC
  Overageing overageing{};           //!< of heat-treated aluminium
  double emissivity = 0.5;           //!< of the surface as usually found [-]
  double highest_service = 0;        //!< short-time temperature limit used when a config sets none; 0 = none known [K]
  std::string highest_service_reason{};

  //! Specific enthalpy above 20 degC [J/kg].
  [[nodiscard]] double enthalpy(double temperature) const {
    return specific_heat.integral(kReferenceTemperature, temperature);
  }
  //! Thermal strain from 20 degC [-].
  [[nodiscard]] double thermal_strain(double temperature) const {
    return mean_expansion(temperature) * (temperature - kReferenceTemperature);
  }
};

}  // namespace hatring::models
