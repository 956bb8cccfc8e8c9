// SPDX-License-Identifier: MIT
//! \file
//! A linearly implicit adaptive stepper with dense output, written as a Boost.Odeint dense-output stepper over Eigen
//! vectors, so that odeint's integrate functions drive it.
//!
//! Error control. The state is x = [heat content H of n nodes; q running integrals of heat flows]. In each step the
//! local error of every node's *temperature* is estimated as the difference between the method and its embedded one;
//! the step is accepted when max_i |e_i| / (looseness_i (absolute + relative |T_i - ambient|)) <= 1. Integrals take
//! part in no norm: they follow from the same stages. The next step follows err^(-1/3), at most `growth` and at least
//! `shrink` times the last. (With the proportional-integral term of Gustafsson 1991 a session took a fifth more
//! evaluations for the same error.)
//!
//! Because the matrix has zero column sums over [H; integrals], heat in - stored - lost is a linear invariant of the
//! method and closes to round-off at any tolerance.
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <array>
#include <boost/numeric/odeint/stepper/stepper_categories.hpp>
#include <cmath>
#include <concepts>
#include <limits>
#include <string>
#include <utility>

#include "sim/solve/error.hpp"
#include "sim/solve/ldlt.hpp"
#include "sim/solve/tableau.hpp"

namespace hatring::solve {

//! What the stepper asks of a system dx/dt = f(t, x), x = [H (n); Q (q)].
template <class S>
concept HeatSystem = requires(S& s, double t, const Eigen::VectorXd& x, Eigen::VectorXd& dxdt, int i) {
  { s.nodes() } -> std::convertible_to<int>;
  { s.integrals() } -> std::convertible_to<int>;
  s.rates(t, x, dxdt);                                              // f(t, x)
  s.linearise(t, x, dxdt);                                          // f and, at (t, x), the three below
  { s.capacity() } -> std::convertible_to<const Eigen::VectorXd&>;  // dH/dT (n)
  { s.matrix() } -> std::same_as<SparseLdlt&>;                      // -df_H/dT, symmetric positive semidefinite (n x n)
  { s.integral_rows() } -> std::convertible_to<const Eigen::MatrixXd&>;  // df_Q/dT of the first integrals, others 0
  { s.temperatures() } -> std::convertible_to<const Eigen::VectorXd&>;   // at the last linearise (n)
  { s.looseness() } -> std::convertible_to<const Eigen::VectorXd&>;      // factor on each node's tolerance (n)
  { s.node_name(i) } -> std::convertible_to<std::string>;
};

struct StepOptions {
  double absolute = 0.02;     //!< tolerance of one step on a temperature; a session's error is about twice as large [K]
  double relative = 0;        //!< of its distance from `reference` [-]
  double reference = 293.15;  //!< [K]
  double largest_step = 60;   //!< [s]
  double smallest_step = 1e-9;  //!< [s]
  long most_steps = 50'000'000;
  double safety = 0.9, shrink = 0.2, growth = 5;
};

struct StepCounts {
  long steps = 0, rejected = 0, rates = 0, factorisations = 0;
};

template <class System>
class LinearlyImplicitStepper {
 public:
  using state_type = Eigen::VectorXd;
  using value_type = double;
  using deriv_type = Eigen::VectorXd;
  using time_type = double;
  using stepper_category = boost::numeric::odeint::dense_output_stepper_tag;

  LinearlyImplicitStepper(int nodes, int integrals, const Tableau& tableau, const StepOptions& options)
      : tableau_(tableau), options_(options), n_(nodes) {
    const int size = nodes + integrals;
    for (int i = 0; i < Tableau::kStages; ++i) at_start_[static_cast<std::size_t>(i)] = tableau.alpha.row(i).isZero(0);
    for (Eigen::VectorXd* v : {&x_, &slope_, &old_x_, &old_slope_, &stage_x_, &stage_f_, &time_slope_})
      v->setZero(size);
    u_.setZero(nodes, Tableau::kStages);
    for (Eigen::VectorXd* v : {&weight_, &right_, &diagonal_}) v->setZero(nodes);
    flow_.setZero(integrals);
  }

  void initialize(const state_type& x, double t, double dt) {
    // odeint shortens the last step before an end time by starting again from the stepper's own state.
    if (&x != &x_ || t != t_) {
      x_ = x;
      t_ = t;
      linearised_ = false;
      rejected_before_ = false;
      first_proposal_ = 0;
    }
    dt_ = dt;
  }

  //! Steps are to end at that time, none longer than `largest`: the last two before it are made alike, so that none is
  //! a sliver.
  void aim(double end, double largest) {
    aim_ = end;
    largest_ = largest;
  }

  //! One accepted step. \returns its begin and end [s]. \throws SolveError
  template <class S>
  std::pair<double, double> do_step(S&& wrapped) {
    System& system = unwrap(wrapped);
    if (!linearised_) relinearise(system);
    old_x_ = x_;
    old_slope_ = slope_;
    old_t_ = t_;
    for (;;) {
      if (counts_.steps + counts_.rejected >= options_.most_steps) fail(system, "too many steps");
      dt_ = std::min({dt_, options_.largest_step, largest_});
      const double error = try_step(system);
      if (error <= 1) {
        ++counts_.steps;
        t_ = old_t_ + dt_;
        x_ = stage_x_;
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
  [[nodiscard]] double wanted(double error) const { return options_.safety * std::pow(error, -1.0 / 3); }

  void fit_step() {
    constexpr double kStretch = 1.05;  // a step a little longer than proposed, rather than one more
    dt_ = std::min(dt_, largest_);
    const double left = aim_ - t_;
    if (left > 0 && left < 2 * kStretch * dt_) dt_ = left < kStretch * dt_ ? left : left / 2;
  }

  void relinearise(System& system) {
    system.linearise(t_, x_, slope_);
    ++counts_.rates;
    linearised_ = true;
  }

  // Leaves the new state in stage_x_. \returns the scaled error; infinity when the matrix cannot be factorised
  double try_step(System& system) {
    const double h = dt_, per_hg = 1 / (h * tableau_.diagonal);
    const Eigen::Index n = n_;
    weight_ = system.capacity();
    diagonal_ = per_hg * weight_;
    ++counts_.factorisations;
    if (!system.matrix().factorise(diagonal_)) return std::numeric_limits<double>::infinity();
    // A W-method needs no df/dt; without it the others fall to order 1 under a load that changes with time.
    const bool timed = tableau_.order_inexact < tableau_.order;
    if (timed) {
      const double ahead = 1e-5 * h;
      system.rates(old_t_ + ahead, old_x_, time_slope_);
      ++counts_.rates;
      time_slope_ = (time_slope_ - old_slope_) / ahead;
    }

    flow_.setZero();
    for (int i = 0; i < Tableau::kStages; ++i) {
      const Eigen::VectorXd* f = &old_slope_;
      if (!at_start_[static_cast<std::size_t>(i)]) {
        blend(old_x_, tableau_.a.row(i), i, stage_x_);
        system.rates(old_t_ + tableau_.time[i] * h, stage_x_, stage_f_);
        ++counts_.rates;
        f = &stage_f_;
      }
      flow_ += tableau_.b[i] * f->tail(flow_.size());
      blend(*f, tableau_.c.row(i) / h, i, right_);
      if (timed) {
        right_ += (tableau_.time_slope[i] * h) * time_slope_.head(n);
        flow_ += (tableau_.b[i] * tableau_.time_slope[i] * h) * time_slope_.tail(flow_.size());
      }
      system.matrix().solve(right_);
      u_.col(i) = right_;
    }
    blend(old_x_, tableau_.m, Tableau::kStages, stage_x_);
    // No rate depends on an integral and m = b Gamma^-1, so the integrals need no stages of their own.
    right_.noalias() = u_ * tableau_.b;
    const Eigen::MatrixXd& rows = system.integral_rows();
    flow_.head(rows.cols()).noalias() += rows.transpose() * right_;
    stage_x_.tail(flow_.size()) = old_x_.tail(flow_.size()) + h * flow_;
    return scaled_error(system);
  }

  double scaled_error(System& system) {
    const Eigen::VectorXd& temperature = system.temperatures();
    const Eigen::VectorXd& loose = system.looseness();
    const Tableau::Vector& w = tableau_.error;
    double worst = 0;
    for (Eigen::Index k = 0; k < n_; ++k) {
      const double e = std::abs(w[0] * u_(k, 0) + w[1] * u_(k, 1) + w[2] * u_(k, 2) + w[3] * u_(k, 3));
      const double scale =
          loose[k] * (options_.absolute + options_.relative * std::abs(temperature[k] - options_.reference));
      if (e <= worst * scale) continue;
      worst = e / scale;
      worst_node_ = static_cast<int>(k);
      if (!std::isfinite(worst)) return std::numeric_limits<double>::infinity();
    }
    return worst;
  }

  // Nodes of out = base + weight_ * (sum of the first `count` stages times w); one sweep, no temporaries.
  template <class Row>
  void blend(const Eigen::VectorXd& base, const Row& w, int count, Eigen::VectorXd& out) const {
    const auto u = [this](int j) { return u_.col(j).array(); };
    const auto weight = weight_.array();
    const auto from = base.head(n_).array();
    auto to = out.head(n_).array();
    switch (count) {
      case 0:
        to = from;
        return;
      case 1:
        to = from + weight * (w[0] * u(0));
        return;
      case 2:
        to = from + weight * (w[0] * u(0) + w[1] * u(1));
        return;
      case 3:
        to = from + weight * (w[0] * u(0) + w[1] * u(1) + w[2] * u(2));
        return;
      default:
        to = from + weight * (w[0] * u(0) + w[1] * u(1) + w[2] * u(2) + w[3] * u(3));
    }
  }

  [[noreturn]] void fail(System& system, const char* why) const {
    const auto k = static_cast<Eigen::Index>(worst_node_);
    const std::string node = system.node_name(worst_node_);
    throw SolveError(std::string("the solver stopped: ") + why + " at " + std::to_string(old_t_) + " s, step " +
                         std::to_string(dt_) + " s, node " + node + " at " +
                         std::to_string(system.temperatures()[k] - 273.15) + " degC",
                     old_t_, dt_, node, old_t_);
  }

  const Tableau& tableau_;
  StepOptions options_;
  Eigen::Index n_;
  Eigen::VectorXd x_, slope_, old_x_, old_slope_, stage_x_, stage_f_, time_slope_, diagonal_, right_;
  Eigen::VectorXd weight_;                         // capacities of the nodes [J/K]
  Eigen::VectorXd flow_;                           // mean rates of the integrals over the step [W]
  Eigen::MatrixXd u_;                              // stages: temperature increments of the nodes [K]
  std::array<bool, Tableau::kStages> at_start_{};  // stages that need no evaluation of their own
  double t_ = 0, old_t_ = 0, dt_ = 0, first_proposal_ = 0, aim_ = 0;
  double largest_ = std::numeric_limits<double>::infinity();
  bool linearised_ = false, rejected_before_ = false;
  int worst_node_ = 0;
  StepCounts counts_;
};

}  // namespace hatring::solve
