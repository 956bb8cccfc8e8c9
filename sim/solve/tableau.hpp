// SPDX-License-Identifier: MIT
//! \file
//! Coefficients of linearly implicit (Rosenbrock and W) methods, in the textbook form of Hairer and Wanner,
//! "Solving Ordinary Differential Equations II", sec. IV.7, turned into the transformed form that needs no product with
//! the Jacobian. tests/sim/solve checks every order condition of each tableau and the order observed.
#pragma once

#include <Eigen/Core>

#include "sim/solve/kernel.hpp"

namespace hatring::solve {

//! A method of up to four stages with an embedded one of lower order.
struct Tableau {
  static constexpr int kStages = StepMethod::kStages;
  using Matrix = Eigen::Matrix4d;
  using Vector = Eigen::Vector4d;

  const char* name = "";
  int order = 0;          //!< with the exact Jacobian
  int order_inexact = 0;  //!< with any matrix in its place
  int embedded_order = 0;
  Matrix alpha = Matrix::Zero(), gamma = Matrix::Zero();  //!< as published; gamma carries its diagonal
  Vector b = Vector::Zero(), b_embedded = Vector::Zero();

  //! Transformed, U = Gamma k: a = alpha Gamma^-1, c = diag(1/gamma) - Gamma^-1, m = b Gamma^-1,
  //! error = (b - b_embedded) Gamma^-1, time and time_slope the row sums of alpha and gamma.
  StepMethod step{};
};

//! Fills in `step` from the published form. Stages at the end that neither weights nor later stages use are not made;
//! their gamma carries the diagonal all the same.
[[nodiscard]] Tableau transformed(Tableau t);

//! ROS34PW2 of Rang and Angermann, BIT 45 (2005) 761-787: order 3 with any matrix in place of the Jacobian,
//! stiffly accurate. Coefficients from memory, confirmed by the order conditions.
[[nodiscard]] const Tableau& ros34pw2();

//! RODAS3 of Sandu, Verwer and others, Atmospheric Environment 31 (1997) 3459-3472: order 3 with the exact Jacobian,
//! one evaluation fewer a step. Coefficients from memory, confirmed by the order conditions.
[[nodiscard]] const Tableau& rodas3();

}  // namespace hatring::solve
