// SPDX-License-Identifier: MIT
#include <fmt/format.h>

// odeint's Eigen header needs its dispatcher first; without both an Eigen vector silently does not integrate.
#include <boost/numeric/odeint/algebra/algebra_dispatcher.hpp>
#include <boost/numeric/odeint/external/eigen/eigen.hpp>
#include <boost/numeric/odeint/integrate/integrate_times.hpp>
#include <boost/numeric/odeint/stepper/controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/dense_output_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>

#include <algorithm>

#include "tools/bench/wheel_run.hpp"

namespace hatring::bench {

namespace odeint = boost::numeric::odeint;
using State = Eigen::VectorXd;

// The state is heat per kelvin, so that one tolerance serves all nodes.
Method dopri5(double absolute) {
  return {"odeint dopri5", fmt::format("{} K", absolute), [absolute](const WheelRun& run, Tape& tape) {
            const solve::WheelSystem system = run.system();
            LeanWheel wheel = run.lean();
            const State scale = run.per_kelvin();
            Work work;
            State heat = wheel.initial_state(), rate = heat;
            const auto rates = [&](const State& x, State& dxdt, double t) {
              ++work.rates;
              heat = x.cwiseProduct(scale);
              wheel.rates(t, heat.data(), rate.data());
              dxdt = rate.cwiseQuotient(scale);
            };
            const auto put = [&](const State& x) {
              heat = x.cwiseProduct(scale);
              tape.put(system, heat);
            };
            using Dopri5 = odeint::runge_kutta_dopri5<State, double, State, double, odeint::vector_space_algebra>;
            State x = heat.cwiseQuotient(scale);
            auto next = run.outputs().begin();
            double guess = 0.01;
            std::vector<double> times;
            for (std::size_t i = 0; i + 1 < run.restarts().size(); ++i) {
              const double begin = run.restarts()[i], end = run.restarts()[i + 1];
              wheel.set_window(begin, end);
              times.assign(1, begin);
              for (; next != run.outputs().end() && *next < end; ++next)
                if (*next > begin)
                  times.push_back(*next);
                else
                  put(x);
              times.push_back(end);
              std::size_t seen = 0;
              auto stepper = odeint::make_dense_output(absolute, 0.0, Dopri5());
              work.steps += static_cast<long>(
                  odeint::integrate_times(std::ref(stepper), std::ref(rates), x, times.begin(), times.end(),
                                          std::min(guess, end - begin), [&](const State& state, double) {
                                            if (seen > 0 && seen + 1 < times.size()) put(state);
                                            ++seen;
                                          }));
            }
            for (; next != run.outputs().end(); ++next) put(x);
            return work;
          }};
}

Method rk4(int per_output) {
  return {"Runge-Kutta 4, equal steps", fmt::format("{:.1f} ms", 100.0 / per_output),
          [per_output](const WheelRun& run, Tape& tape) {
            const solve::WheelSystem system = run.system();
            LeanWheel wheel = run.lean();
            State x = wheel.initial_state(), k1 = x, k2 = x, k3 = x, k4 = x, y = x;
            const double h = 0.1 / per_output;
            Work work;
            wheel.set_window(0, run.duration());
            for (std::size_t i = 0; i < run.outputs().size(); ++i) {
              tape.put(system, x);
              for (int k = 0; k < per_output; ++k) {
                const double t = run.outputs()[i] + k * h;
                wheel.rates(t, x.data(), k1.data());
                y = x + h / 2 * k1;
                wheel.rates(t + h / 2, y.data(), k2.data());
                y = x + h / 2 * k2;
                wheel.rates(t + h / 2, y.data(), k3.data());
                y = x + h * k3;
                wheel.rates(t + h, y.data(), k4.data());
                x += h / 6 * (k1 + 2 * k2 + 2 * k3 + k4);
                ++work.steps;
              }
            }
            work.rates = 4 * work.steps;
            return work;
          }};
}

int stable_rk4(const WheelRun& run, const Tape& reference) {
  for (int n = 1;; ++n) {
    Tape tape(run);
    rk4(n).solve(run, tape);
    if (tape.error(reference) < 5) return n;
  }
}

}  // namespace hatring::bench
