// SPDX-License-Identifier: MIT
//! \file
//! Small networks built by hand, whose answers are known or can be found another way.
#pragma once

#include <string>
#include <vector>

#include "sim/network/network.hpp"
#include "sim/solve/integrate.hpp"
#include "sim/solve/wheel_system.hpp"

namespace hatring::test {

inline constexpr double kAmbientTemperature = 293.15;

//! A material whose properties do not change.
[[nodiscard]] models::Material plain_material(double specific_heat, double conductivity = 50);
//! Iron-like: heat capacity rising and conductivity falling with temperature.
[[nodiscard]] models::Material curved_material();

//! An empty network at kAmbientTemperature whose only table is 1 W/K everywhere: a surface's scale is its conductance.
[[nodiscard]] network::Network bare_network();
//! Adds a node of the given heat capacity, constant properties.
network::NodeId add_node(network::Network& net, const std::string& name, double capacity, double temperature);

//! Two nodes above ambient: C1 dT1/dt = -(G+g1) T1 + G T2, C2 dT2/dt = G T1 - (G+g2) T2.
struct TwoNodes {
  double c1 = 3500, c2 = 900, link = 25, loss1 = 9, loss2 = 4;  // [J/K], [W/K]
  double start1 = 380, start2 = 60;                             // above ambient [K]
  [[nodiscard]] network::Network network() const;
  //! Exact temperatures above ambient at a time [K].
  [[nodiscard]] std::pair<double, double> exact(double time) const;
};

//! Five nodes in a chain with constant coefficients, the first heated by friction against the last.
[[nodiscard]] network::Network linear_chain();
//! The same chain of a curved material, with radiation between nodes and to outside and a convection that depends on
//! speed and temperature.
[[nodiscard]] network::Network curved_chain();

//! Friction power that rises and falls smoothly; speed falls meanwhile.
[[nodiscard]] solve::Load smooth_load(double time);

//! Step options that never reject, so that every step is `step` long.
[[nodiscard]] solve::StepOptions fixed_step(double step);

//! Temperatures after a minute of smooth_load() at a tolerance [K].
[[nodiscard]] Eigen::VectorXd after_a_minute(const network::Network& network, double tolerance);

//! State after `steps` equal steps over `duration`.
template <class System>
[[nodiscard]] Eigen::VectorXd march(System& system, const Eigen::VectorXd& start, double duration, int steps,
                                    const solve::Tableau& tableau) {
  const double step = duration / steps;
  solve::LinearlyImplicitStepper<System> stepper(system, tableau, fixed_step(step));
  stepper.start(system, start, 0);
  stepper.initialize(stepper.current_state(), 0, step);
  for (int i = 0; i < steps; ++i) stepper.do_step(system);
  return Eigen::VectorXd(stepper.current_state()).head(start.size());
}

//! The same by the classical fourth-order Runge-Kutta method, which knows nothing of linearise().
[[nodiscard]] Eigen::VectorXd march_explicit(solve::WheelSystem& system, const Eigen::VectorXd& start, double duration,
                                             int steps);

}  // namespace hatring::test
