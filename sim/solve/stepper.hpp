// SPDX-License-Identifier: MIT
//! \file
//! A linearly implicit adaptive stepper with dense output, written as a Boost.Odeint dense-output stepper over Eigen
//! vectors, so that odeint's integrate functions drive it.
//!
//! Error control. The state is x = [heat content H of n nodes; q running integrals of heat flows; the
//! nodes' temperatures, which only follow]. In each step the
//! local error of every node's *temperature* is estimated as the difference between the method and its embedded one;
//! the step is accepted when max_i |e_i| / (looseness_i (absolute + relative |T_i - ambient|)) <= 1. Integrals take
//! part in no norm: they follow from the same stages. The next step follows err^(-1/(embedded order + 1)), at most
//! `growth` and at least `shrink` times the last. (With the proportional-integral term of Gustafsson 1991 a session
//! took a fifth more evaluations for the same error.)
//!
//! Because the matrix has zero column sums over [H; integrals], heat in - stored - lost is a linear invariant of the
//! method and closes to the round-off of its arithmetic at any tolerance.
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <boost/numeric/odeint/stepper/stepper_categories.hpp>
#include <cmath>
#include <concepts>
#include <iterator>
#include <limits>
#include <stdexcept>
#include <string>
#include <utility>

#include "sim/solve/error.hpp"
#include "sim/solve/lane_system.hpp"
#include "sim/solve/tableau.hpp"

namespace hatring::solve {

//! What the stepper asks of a system dx/dt = f(t, x), x = [H; Q].
template <class S>
concept HeatSystem = requires(S& s, double t, const Eigen::VectorXd& x, Eigen::VectorXd& out,
                              const Tolerance& tolerance, const StepMethod& method) {
  { s.size() } -> std::convertible_to<Eigen::Index>;  // of x
  s.linearise(t, x, tolerance, out);                  // f(t, x), and all that the steps from there need
  s.add_temperatures(out, out);  // to x and to f(t, x), after linearise: they do not come out of a step
  // A step of length t from x, where it was linearised last, to out: its largest error over the tolerance.
  { s.attempt(t, method, x, out) } -> std::convertible_to<double>;
  { s.worst(method) } -> std::same_as<WorstNode>;  // after an attempt
};

struct StepOptions {
  Tolerance tolerance;          //!< of one step on a temperature; a session's error is about twice as large
  double largest_step = 60;     //!< [s]
  double smallest_step = 1e-9;  //!< [s]
  long most_steps = 50'000'000;
  double safety = 0.9, shrink = 0.2, growth = 5;
};

struct StepCounts {
  long steps = 0, rejected = 0, rates = 0, factorisations = 0;
};

template <HeatSystem System>
class LinearlyImplicitStepper {
 public:
  using state_type = Eigen::VectorXd;
  using value_type = double;
  using deriv_type = Eigen::VectorXd;
  using time_type = double;
  using stepper_category = boost::numeric::odeint::dense_output_stepper_tag;

  LinearlyImplicitStepper(Eigen::Index size, const Tableau& tableau, const StepOptions& options)
      : method_(tableau.step), exponent_(-1.0 / (tableau.embedded_order + 1)), options_(options) {
    for (Eigen::VectorXd* v : {&x_, &slope_, &old_x_, &old_slope_, &next_}) v->setZero(size);
  }

  void initialize(const state_type& x, double t, double dt) {
    // odeint shortens the last step before an end time by starting again from the stepper's own state.
    if (&x != &x_ || t != t_) {
      if (x.size() != x_.size()) throw std::invalid_argument("stepper: a state of another size");
      x_ = x;
      t_ = t;
      linearised_ = false;
      rejected_before_ = false;
      first_proposal_ = 0;
    }
    dt_ = dt;
  }

  //! Steps are to end at that time: the last two before it are made alike, so that none is a sliver.
  void aim(double end) { aim_ = end; }

  //! One accepted step. \returns its begin and end [s]. \throws SolveError, after which the state is lost
  template <class S>
  std::pair<double, double> do_step(S&& wrapped) {
    System& system = unwrap(wrapped);
    if (!linearised_) relinearise(system);
    old_x_.swap(x_);  // what they hold is made anew
    old_slope_.swap(slope_);
    old_t_ = t_;
    for (;;) {
      if (counts_.steps + counts_.rejected >= options_.most_steps) fail(system, "too many steps");
      dt_ = std::min(dt_, options_.largest_step);
      const double error = system.attempt(dt_, method_, old_x_, next_);
      ++counts_.factorisations;
      counts_.rates += evaluations();
      if (error <= 1) {
        ++counts_.steps;
        t_ = old_t_ + dt_;
        x_.swap(next_);
        relinearise(system);
        dt_ *= std::clamp(wanted(error), options_.shrink, rejected_before_ ? 1.0 : options_.growth);
        rejected_before_ = false;
        if (first_proposal_ == 0) first_proposal_ = dt_;
        fit_step();
        return {old_t_, t_};
      }
      ++counts_.rejected;
      rejected_before_ = true;
      dt_ *= std::isfinite(error) ? std::clamp(wanted(error), options_.shrink, 0.9) : 0.1;
      if (!(dt_ > options_.smallest_step)) fail(system, "step too small");
    }
  }

  //! State inside the last step, by the cubic through both ends and their slopes (third order).
  void calc_state(double t, state_type& x) const {
    const double h = t_ - old_t_;
    if (!(h > 0)) {
      x = x_;
      return;
    }
    const double s = (t - old_t_) / h, s2 = s * s, s3 = s2 * s;
    x.noalias() = (1 - 3 * s2 + 2 * s3) * old_x_ + (3 * s2 - 2 * s3) * x_ + (s - 2 * s2 + s3) * h * old_slope_ +
                  (s3 - s2) * h * slope_;
  }

  [[nodiscard]] const state_type& current_state() const { return x_; }
  [[nodiscard]] double current_time() const { return t_; }
  [[nodiscard]] double current_time_step() const { return dt_; }
  //! What the first step since initialize() with a new state showed to be the right step there; 0 before it [s].
  [[nodiscard]] double first_proposal() const { return first_proposal_; }
  [[nodiscard]] const StepCounts& counts() const { return counts_; }

 private:
  template <class S>
  static System& unwrap(S& s) {
    if constexpr (requires { s.get(); })
      return s.get();  // std::reference_wrapper
    else
      return s;
  }

  // Ratio of the right step to the one that made this error.
  [[nodiscard]] double wanted(double error) const { return options_.safety * std::pow(error, exponent_); }

  void fit_step() {
    constexpr double kStretch = 1.05;  // a step a little longer than proposed, rather than one more
    const double left = aim_ - t_;
    if (left > 0 && left < 2 * kStretch * dt_) dt_ = left < kStretch * dt_ ? left : left / 2;
  }

  void relinearise(System& system) {
    system.linearise(t_, x_, options_.tolerance, slope_);
    system.add_temperatures(x_, slope_);
    ++counts_.rates;
    linearised_ = true;
  }

  // Evaluations of the rates that a step needs besides the one it begins with.
  [[nodiscard]] int evaluations() const {
    return static_cast<int>(std::count(std::begin(method_.at_start), std::end(method_.at_start), false)) +
           (method_.timed ? 1 : 0);
  }

  [[noreturn]] void fail(System& system, const char* why) const {
    const WorstNode worst = system.worst(method_);
    throw SolveError(std::string("the solver stopped: ") + why + " at " + std::to_string(old_t_) + " s, step " +
                         std::to_string(dt_) + " s, node " + worst.name + " at " +
                         std::to_string(worst.temperature - 273.15) + " degC",
                     old_t_, dt_, worst.name, old_t_);
  }

  const StepMethod& method_;
  double exponent_;
  StepOptions options_;
  Eigen::VectorXd x_, slope_, old_x_, old_slope_, next_;
  double t_ = 0, old_t_ = 0, dt_ = 0, first_proposal_ = 0, aim_ = 0;
  bool linearised_ = false, rejected_before_ = false;
  StepCounts counts_;
};

}  // namespace hatring::solve
