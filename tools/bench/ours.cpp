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
            const solve::StepCounts n = solve::integrate(
                system, run.restarts(), run.outputs(), x, options, tableau, [&](double, const Eigen::VectorXd& state) {
                  tape.put_temperatures(system, system.lanes().temperatures(state));
                });
            return Work{n.steps + n.rejected, n.rates};
          }};
}

std::optional<Method> ours_in_lanes(int most, double absolute) {
  const solve::WheelKernel& kernel = solve::widest_kernel(most);
  if (kernel.lanes != most) return std::nullopt;
  return Method{fmt::format("ours, {} scenarios at once", most), fmt::format("{} K", absolute),
                [&kernel, absolute](const WheelRun& run, Tape& tape) {
                  std::vector<network::Network> store;
                  solve::LaneSystem lanes = run.lanes(kernel, store);
                  const solve::WheelSystem first = run.system();
                  Eigen::VectorXd x = lanes.initial_state(), own(lanes.nodes());
                  solve::StepOptions options;
                  options.tolerance.absolute = absolute;
                  const solve::StepCounts n =
                      solve::integrate(lanes, run.restarts(), run.outputs(), x, options, solve::ros34pw2(),
                                       [&](double, const Eigen::VectorXd& state) {
                                         const auto all = lanes.temperatures(state);
                                         for (Eigen::Index k = 0; k < own.size(); ++k) own[k] = all[k * kernel.lanes];
                                         tape.put_temperatures(first, own);
                                       });
                  return Work{n.steps + n.rejected, n.rates};
                },
                kernel.lanes};
}

}  // namespace hatring::bench
