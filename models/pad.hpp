// SPDX-License-Identifier: MIT
//! \file
//! Brake pads: friction coefficient and wear. Checked by tests/models/test_pad.cpp.
#pragma once

#include "models/material.hpp"

namespace hatring::models {

//! Friction coefficient as a product, mu(T, v, p) = mu_T(T) f_v(v) f_p(p). The product form is an assumption: it keeps
//! what a maker's temperature chart says and scales it; makers seldom publish more. Every curve is shape-preserving and
//! held at its ends.
struct PadFriction {
  Curve temperature;  //!< mu_T against the temperature of the disc's rubbed face [K]
  Curve speed;        //!< f_v against the rubbing speed at the effective radius [m/s]; empty: 1
  Curve pressure;     //!< f_p against force over pad area [Pa]; empty: 1

  [[nodiscard]] double operator()(double face_temperature, double rubbing_speed, double pad_pressure) const;
};

//! One wheel's caliper as seen from the line: torque = 2 mu p A r.
struct Clamp {
  PadFriction friction;
  double piston_area = 0;  //!< of one side [m2]
  double radius = 0;       //!< effective radius of the pads [m]
  double pad_area = 0;     //!< of one pad [m2]

  //! \param line_pressure [Pa]  \returns [N m]
  [[nodiscard]] double torque(double line_pressure, double face_temperature, double rubbing_speed) const;
  //! Line pressure for a torque; closed form without a pressure factor, bisection with one (torque must rise with
  //! pressure). Infinite when kHighestPressure does not reach it [Pa].
  [[nodiscard]] double pressure(double torque, double face_temperature, double rubbing_speed) const;
};
inline constexpr double kHighestPressure = 1e9;  //!< far above any brake line [Pa]

//! Wear by friction work: volume lost = w(T) E, with w(T) = cold (1 + exp(a (1/T_on - 1/T))). Archard's law
//! (volume ~ force times sliding distance) for E = mu F s, with a part that grows as Arrhenius' law and is as large as
//! the cold part at T_on; `a` makes that part grow by 2 over the first `doubling` above T_on. Form from memory; the
//! numbers of the trade (wear doubles every 100 to 150 K above 300 to 350 degC) are weak, from memory.
struct Wear {
  double cold = 0;      //!< volume per friction work while cool [m3/J]
  double onset = 0;     //!< T_on [K]
  double doubling = 0;  //!< [K]

  [[nodiscard]] double operator()(double temperature) const;
};

}  // namespace hatring::models
