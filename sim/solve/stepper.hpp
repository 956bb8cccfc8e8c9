// SPDX-License-Identifier: MIT
//! \file
//! A linearly implicit adaptive stepper with dense output, written as a Boost.Odeint dense-output stepper, so that
//! odeint's integrate functions drive it. Its state is within; odeint passes on moments of it.
//!
//! Error control. The state is x = [heat content H of n nodes; q running integrals of heat flows; sums over the nodes,
//! which only follow]. In each step the local error of every node's *temperature* is estimated as the difference
//! between the method and its embedded one; the step is accepted when max_i |e_i| / (looseness_i (absolute + relative
//! |T_i - ambient|)) <= 1. Integrals take part in no norm: they follow from the same stages. The next step follows
//! err^(-1/(embedded order + 1)), at most `growth` and at least `shrink` times the last. (With the
//! proportional-integral term of Gustafsson 1991 a session took a fifth more evaluations for the same error.)
//!
//! Because the matrix has zero column sums over [H; integrals], heat in - stored - lost is a linear invariant of the
//! method and closes to the round-off of its arithmetic at any tolerance.
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <array>
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

//! What the stepper asks of a system dx/dt = f(t, x), x = [H; Q; sums].
template <class S>
concept HeatSystem = requires(S& s, double t, const Eigen::VectorXd& x, Eigen::VectorXd& out,
                              typename S::Vector& temperature, const Tolerance& tolerance, const StepMethod& method) {
  { s.size() } -> std::convertible_to<Eigen::Index>;  // of x
  { s.temperatures() } -> std::convertible_to<Eigen::Index>;
  s.complete(out, temperature);       // sums and temperatures of a state, at the start
  s.linearise(t, x, tolerance, out);  // f(t, x), and all that the steps from there need
  // After it: sums of x and f(t, x), temperatures and their slopes.
  s.follow(out, out, temperature, temperature);
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

//! What is known at one end of a step.
template <class Vector>
struct StepEnd {
  double time = 0;              //!< [s]
  Eigen::VectorXd x, slope;     //!< state [J] and its slope [W]
  Vector temperature, warming;  //!< of the nodes [K] and their slopes [K/s]
};

//! A moment inside a step, by the cubics through both ends and their slopes (third order). What is asked of it is
//! worked out then, as an Eigen expression, so that an output costs no more than what it takes. All of it holds until
//! the next step.
template <class Vector>
class DenseState {
 public:
  //! \param begin, end outlive it
  DenseState(const StepEnd<Vector>& begin, const StepEnd<Vector>& end, double time) : begin_(&begin), end_(&end) {
    const double h = end.time - begin.time;
    if (!(h > 0)) return;
    const double s = (time - begin.time) / h, s2 = s * s, s3 = s2 * s;
    weights_ = {1 - 3 * s2 + 2 * s3, 3 * s2 - 2 * s3, (s - 2 * s2 + s3) * h, (s3 - s2) * h};
  }

  //! State as the stepper has it [J].
  [[nodiscard]] auto x() const { return cubic<double>(begin_->x, end_->x, begin_->slope, end_->slope); }
  //! Its last items alone: integrals and sums.
  [[nodiscard]] auto x_tail(Eigen::Index items) const {
    return cubic<double>(begin_->x.tail(items), end_->x.tail(items), begin_->slope.tail(items),
                         end_->slope.tail(items));
  }
  //! Temperatures of the nodes [K]. To look up those of the heats took as long as a third of the steps.
  [[nodiscard]] auto temperature() const {
    return cubic<typename Vector::Scalar>(begin_->temperature, end_->temperature, begin_->warming, end_->warming);
  }
  //! For observers of whole states.
  operator Eigen::VectorXd() const { return x(); }  // NOLINT(google-explicit-constructor): any state will do

 private:
  template <class Scalar, class V>
  [[nodiscard]] auto cubic(const V& a, const V& b, const V& da, const V& db) const {
    const auto w = [this](std::size_t i) { return static_cast<Scalar>(weights_[i]); };
    return w(0) * a + w(1) * b + w(2) * da + w(3) * db;
  }

  const StepEnd<Vector>*begin_ = nullptr, *end_ = nullptr;
  std::array<double, 4> weights_{0, 1, 0, 0};
};

template <HeatSystem System>
class LinearlyImplicitStepper {
 public:
  using Vector = typename System::Vector;
  using state_type = DenseState<Vector>;  // the stepper's own state stays within
  using time_type = double;
  using stepper_category = boost::numeric::odeint::dense_output_stepper_tag;

  LinearlyImplicitStepper(const System& system, const Tableau& tableau, const StepOptions& options)
      : method_(tableau.step), exponent_(-1.0 / (tableau.embedded_order + 1)), options_(options) {
    for (StepEnd<Vector>* end : {&begin_, &end_}) {
      for (Eigen::VectorXd* v : {&end->x, &end->slope}) v->setZero(system.size());
      for (Vector* v : {&end->temperature, &end->warming}) v->setZero(system.temperatures());
    }
  }

  //! Goes to a state. \param x without what follows from it will do
  void start(const System& system, const Eigen::VectorXd& x, double t) {
    if (x.size() > end_.x.size()) throw std::invalid_argument("stepper: a state of another size");
    end_.x.setZero();
    end_.x.head(x.size()) = x;
    system.complete(end_.x, end_.temperature);
    begin_.time = t;
    restart(t);
  }

  //! From here on it may be driven otherwise. \param t where it is, but for rounding
  void restart(double t) {
    end_.time = t;
    linearised_ = false;
    rejected_before_ = false;
    first_proposal_ = 0;
  }

  //! By odeint, which begins a stretch by it and shortens the last step before its end: the stepper is there already.
  void initialize(const state_type&, double t, double dt) {
    if (t != end_.time) throw std::invalid_argument("stepper: another time is gone to by start()");
    dt_ = dt;
  }

  //! Steps are to end at that time: the last two before it are made alike, so that none is a sliver.
  void aim(double end) { aim_ = end; }

  //! One accepted step. \returns its begin and end [s]. \throws SolveError, after which the state is lost
  template <class S>
  std::pair<double, double> do_step(S&& wrapped) {
    System& system = unwrap(wrapped);
    if (!linearised_) relinearise(system);
    std::swap(begin_, end_);  // what the end holds is made anew
    for (;;) {
      if (counts_.steps + counts_.rejected >= options_.most_steps) fail(system, "too many steps");
      dt_ = std::min(dt_, options_.largest_step);
      const double error = system.attempt(dt_, method_, begin_.x, end_.x);
      ++counts_.factorisations;
      counts_.rates += evaluations();
      if (error <= 1) {
        ++counts_.steps;
        end_.time = begin_.time + dt_;
        relinearise(system);
        dt_ *= std::clamp(wanted(error), options_.shrink, rejected_before_ ? 1.0 : options_.growth);
        rejected_before_ = false;
        if (first_proposal_ == 0) first_proposal_ = dt_;
        fit_step();
        return {begin_.time, end_.time};
      }
      ++counts_.rejected;
      rejected_before_ = true;
      dt_ *= std::isfinite(error) ? std::clamp(wanted(error), options_.shrink, 0.9) : 0.1;
      if (!(dt_ > options_.smallest_step)) fail(system, "step too small");
    }
  }

  void calc_state(double t, state_type& out) const { out = {begin_, end_, t}; }
  [[nodiscard]] state_type current_state() const { return {begin_, end_, end_.time}; }
  [[nodiscard]] double current_time() const { return end_.time; }
  [[nodiscard]] double current_time_step() const { return dt_; }
  //! What the first step since restart() showed to be the right step there; 0 before it [s].
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
    const double left = aim_ - end_.time;
    if (left > 0 && left < 2 * kStretch * dt_) dt_ = left < kStretch * dt_ ? left : left / 2;
  }

  void relinearise(System& system) {
    system.linearise(end_.time, end_.x, options_.tolerance, end_.slope);
    system.follow(end_.x, end_.slope, end_.temperature, end_.warming);
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
    throw SolveError(std::string("the solver stopped: ") + why + " at " + std::to_string(begin_.time) + " s, step " +
                         std::to_string(dt_) + " s, node " + worst.name + " at " +
                         std::to_string(worst.temperature - 273.15) + " degC",
                     begin_.time, dt_, worst.name, begin_.time);
  }

  const StepMethod& method_;
  double exponent_;
  StepOptions options_;
  StepEnd<Vector> begin_, end_;  // of the last step; the end is where it is
  double dt_ = 0, first_proposal_ = 0, aim_ = 0;
  bool linearised_ = false, rejected_before_ = false;
  StepCounts counts_;
};

}  // namespace hatring::solve
