// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "sim/solve/integrate.hpp"
#include "tools/bench/wheel_run.hpp"

namespace hatring::bench {

Method ours(const solve::Tableau& tableau, double absolute) {
  return {fmt::format("ours, {}", tableau.name), fmt::format("{} K", absolute),
          [&tableau, absolute](const WheelRun& run, Tape& tape) {
            solve::WheelSystem system = run.system();
            Eigen::VectorXd x = system.initial_state();
            solve::StepOptions options;
            options.tolerance.absolute = absolute;
            const solve::StepCounts n =
                solve::integrate(system, run.restarts(), run.outputs(), x, options, tableau,
                                 [&](double, const Eigen::VectorXd& state) { tape.put(system, state); });
            return Work{n.steps + n.rejected, n.rates};
          }};
}

}  // namespace hatring::bench
