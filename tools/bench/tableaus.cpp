// SPDX-License-Identifier: MIT
#include "tools/bench/tableaus.hpp"

#include <Eigen/LU>
#include <cmath>

namespace hatring::bench {
namespace {

using solve::Tableau;

Tableau make_ros2() {
  Tableau t{.name = "ROS2", .order = 2, .order_inexact = 2, .embedded_order = 1};
  const double g = 1 - std::sqrt(0.5);
  t.gamma.diagonal().setConstant(g);
  t.gamma(1, 0) = -2 * g;
  t.alpha(1, 0) = 1;
  t.b << 0.5, 0.5, 0, 0;
  t.b_embedded << 1, 0, 0, 0;
  return solve::transformed(t);
}

Tableau make_ros4() {
  Tableau t{.name = "ROS4", .order = 4, .order_inexact = 1, .embedded_order = 3};
  // Published in transformed form; turned back.
  constexpr double g = 0.57282;
  Tableau::Matrix inverse, a;
  inverse << 0, 0, 0, 0,                              //
      7.137615036412310, 0, 0, 0,                     //
      -2.580708087951457, -0.6515950076447975, 0, 0,  //
      2.137148994382534, 0.3214669691237626, 0.6949742501781779, 0;
  inverse.diagonal().setConstant(1 / g);
  a << 0, 0, 0, 0,                                  //
      2, 0, 0, 0,                                   //
      1.867943637803922, 0.2344449711399156, 0, 0,  //
      1.867943637803922, 0.2344449711399156, 0, 0;
  const Tableau::Vector m(2.255570073418735, 0.2870493262186792, 0.4353179431840180, 1.093502252409163),
      error(-0.2815431932141155, -0.07276199124934920, -0.1082196201495311, -1.093502252409163);
  t.gamma = inverse.inverse();
  t.alpha = a * t.gamma;
  t.b = t.gamma.transpose() * m;
  t.b_embedded = t.gamma.transpose() * (m + error);
  return solve::transformed(t);
}

}  // namespace

const solve::Tableau& ros2() {
  static const solve::Tableau t = make_ros2();
  return t;
}

const solve::Tableau& ros4() {
  static const solve::Tableau t = make_ros4();
  return t;
}

}  // namespace hatring::bench
