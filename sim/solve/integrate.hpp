// SPDX-License-Identifier: MIT
//! \file
//! Runs a wheel, or lanes of them, through a session: odeint's integrate functions over each stretch between two jumps
//! of the load.
#pragma once

#include <Eigen/Core>
#include <functional>
#include <vector>

#include "sim/solve/stepper.hpp"
#include "sim/solve/wheel_system.hpp"

namespace hatring::solve {

template <class Real>
using WheelStepper = LinearlyImplicitStepper<LaneSystem<Real>>;
//! Is told time [s] and state; one that takes Eigen vectors gets heats, integrals and sums [J].
template <class Real>
using Observer = std::function<void(double, const DenseState<typename LaneSystem<Real>::Vector>&)>;

//! \param restarts rising times at which the load may jump, first = start, last = end [s]
//! \param outputs rising times within them at which `observe` is called [s]
//! \param x state at the start; at the end on return
//! \throws std::invalid_argument when there is no restart or the state is not one of the system
//! \throws SolveError naming time, step and node
template <class Real>
StepCounts integrate(LaneSystem<Real>& system, const std::vector<double>& restarts, const std::vector<double>& outputs,
                     Eigen::VectorXd& x, const StepOptions& options, const Tableau& tableau,
                     const Observer<Real>& observe);

//! One wheel in one scenario.
inline StepCounts integrate(WheelSystem& system, const std::vector<double>& restarts,
                            const std::vector<double>& outputs, Eigen::VectorXd& x, const StepOptions& options,
                            const Tableau& tableau, const Observer<double>& observe) {
  return integrate(system.lanes(), restarts, outputs, x, options, tableau, observe);
}

}  // namespace hatring::solve
