// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <utility>

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
                                 [&](double, const auto& at) { tape.put_temperatures(system, at.temperature()); });
            return Work{n.steps + n.rejected, n.rates};
          }};
}

namespace {

template <class Real>
Work solve_lanes(const solve::WheelKernel<Real>& kernel, double absolute, bool load_each, const WheelRun& run,
                 Tape& tape) {
  std::vector<network::Network> store;
  solve::LaneSystem<Real> system = run.lanes(kernel, store, load_each);
  const solve::WheelSystem whole = run.system();
  Eigen::VectorXd x = system.initial_state(), all(whole.nodes());
  typename solve::LaneSystem<Real>::Vector temperatures;
  solve::StepOptions options;
  options.tolerance.absolute = absolute;
  const solve::StepCounts n = solve::integrate(system, run.restarts(), run.outputs(), x, options, solve::ros34pw2(),
                                               [&](double, const auto& at) {
                                                 temperatures = at.temperature();
                                                 for (Eigen::Index i = 0; i < all.size(); ++i)
                                                   all[i] = temperatures[run.once(static_cast<int>(i)) * kernel.lanes];
                                                 tape.put_temperatures(whole, all);
                                               });
  return Work{n.steps + n.rejected, n.rates};
}

}  // namespace

Method as_run(double absolute) {
  return {"ours, mirrored nodes once", fmt::format("{} K", absolute), [absolute](const WheelRun& run, Tape& tape) {
            return solve_lanes(solve::single_kernel(), absolute, true, run, tape);
          }};
}

Method lanes_as_run(int scenarios, double absolute, bool load_each) {
  const solve::WheelKernel<float>& kernel = *solve::lanes_kernel(scenarios);
  return {
      fmt::format("ours, mirrored nodes once, {} scenarios at once{}", kernel.lanes, load_each ? ", a load each" : ""),
      fmt::format("{} K", absolute),
      [&kernel, absolute, load_each](const WheelRun& run, Tape& tape) {
        return solve_lanes(kernel, absolute, load_each, run, tape);
      },
      kernel.lanes};
}

}  // namespace hatring::bench
