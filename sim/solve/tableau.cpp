// SPDX-License-Identifier: MIT
#include "sim/solve/tableau.hpp"

#include <Eigen/LU>

namespace hatring::solve {

Tableau transformed(Tableau t) {
  const Tableau::Matrix inverse = t.gamma.inverse(), a = t.alpha * inverse;
  const Tableau::Vector m = inverse.transpose() * t.b, error = inverse.transpose() * (t.b - t.b_embedded),
                        time = t.alpha.rowwise().sum(), time_slope = t.gamma.rowwise().sum();
  StepMethod& step = t.step;
  step.diagonal = t.gamma(0, 0);
  // A W-method needs no df/dt; without it the others fall to order 1 under a load that changes with time.
  step.timed = t.order_inexact < t.order;
  for (int i = 0; i < Tableau::kStages; ++i) {
    for (int j = 0; j < Tableau::kStages; ++j) {
      step.a[i][j] = a(i, j);
      step.c[i][j] = i == j ? 0 : -inverse(i, j);
    }
    step.m[i] = m[i];
    step.b[i] = t.b[i];
    step.error[i] = error[i];
    step.time[i] = time[i];
    step.time_slope[i] = time_slope[i];
    step.at_start[i] = t.alpha.row(i).isZero(0);
  }
  while (step.m[step.stages - 1] == 0 && step.error[step.stages - 1] == 0) --step.stages;
  return t;
}

namespace {

Tableau make_ros34pw2() {
  Tableau t{.name = "ROS34PW2", .order = 3, .order_inexact = 3, .embedded_order = 2};
  constexpr double g = 4.3586652150845900e-01;
  t.alpha << 0, 0, 0, 0,                                      //
      8.7173304301691801e-01, 0, 0, 0,                        //
      8.4457060015369423e-01, -1.1299064236484185e-01, 0, 0,  //
      0, 0, 1, 0;
  t.gamma << g, 0, 0, 0,                                      //
      -8.7173304301691801e-01, g, 0, 0,                       //
      -9.0338057013044082e-01, 5.4180672388095326e-02, g, 0,  //
      2.4212380706095346e-01, -1.2232505839045147e+00, 5.4526025533510214e-01, g;
  t.b << 2.4212380706095346e-01, -1.2232505839045147e+00, 1.5452602553351020e+00, g;
  t.b_embedded << 3.7810903145819369e-01, -9.6042292212423178e-02, 0.5, 2.1793326075422950e-01;
  return transformed(t);
}

Tableau make_rodas3() {
  Tableau t{.name = "RODAS3", .order = 3, .order_inexact = 1, .embedded_order = 2};
  // Published in transformed form; turned back so that both tableaus are kept in one form.
  Tableau::Matrix inverse, a;
  inverse << 2, 0, 0, 0,  //
      -4, 2, 0, 0,        //
      -1, 1, 2, 0,        //
      -1, 1, 8.0 / 3, 2;
  a << 0, 0, 0, 0,  //
      0, 0, 0, 0,   //
      2, 0, 0, 0,   //
      2, 0, 1, 0;
  t.gamma = inverse.inverse();
  t.alpha = a * t.gamma;
  t.b = t.gamma.transpose() * Tableau::Vector(2, 0, 1, 1);
  t.b_embedded = t.gamma.transpose() * Tableau::Vector(2, 0, 1, 0);
  return transformed(t);
}

}  // namespace

const Tableau& ros34pw2() {
  static const Tableau t = make_ros34pw2();
  return t;
}

const Tableau& rodas3() {
  static const Tableau t = make_rodas3();
  return t;
}

}  // namespace hatring::solve
