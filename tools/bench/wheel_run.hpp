// SPDX-License-Identifier: MIT
//! \file
//! What every solver in the comparison is given: one wheel, one session, one set of output times.
#pragma once

#include <Eigen/Core>
#include <functional>
#include <vector>

#include "sim/network/assemble.hpp"
#include "sim/network/symmetry.hpp"
#include "sim/session/drive.hpp"
#include "sim/solve/tableau.hpp"
#include "sim/solve/wheel_system.hpp"
#include "tools/bench/lean_wheel.hpp"

namespace hatring::bench {

//! Front wheel of an invented light car: out lap, hot laps and cool-down lap of an invented lap that was logged with
//! noise, the rest parked.
class WheelRun {
 public:
  //! As many hot laps as fit, but at least one. \param duration [s]
  explicit WheelRun(const network::MeshCounts& mesh, double duration = 1200);
  WheelRun(const WheelRun&) = delete;  // what it gives out points into it
  WheelRun& operator=(const WheelRun&) = delete;

  [[nodiscard]] solve::WheelSystem system() const;
  //! For methods that want rates and nothing else.
  [[nodiscard]] LeanWheel lean() const;
  //! What one kelvin is worth in the error of each node [J/K]: its capacity at the start, times what our stepper lets
  //! pad surfaces and air err more.
  [[nodiscard]] Eigen::VectorXd per_kelvin() const;
  //! Spectral radius of the heat balance at the start, while braking at speed [1/s].
  [[nodiscard]] double fastest_rate() const;
  //! As many scenarios as the kernel has lanes, the second and on cooled better and better; of nodes that mirror one
  //! another but one. \param load_each is worked out for every one of them, though it is the same
  template <class Real>
  [[nodiscard]] solve::LaneSystem<Real> lanes(const solve::WheelKernel<Real>& kernel,
                                              std::vector<network::Network>& store, bool load_each = false) const;
  //! The node of lanes() that stands for a node of system().
  [[nodiscard]] int once(int node) const { return symmetry_.group[static_cast<std::size_t>(node)]; }
  [[nodiscard]] int nodes() const { return network_.size(); }
  [[nodiscard]] int nodes_once() const { return static_cast<int>(symmetry_.first.size()); }
  [[nodiscard]] const std::vector<double>& restarts() const { return drive_.restarts(); }
  //! Every 0.1 s; the last is the end of the session [s].
  [[nodiscard]] const std::vector<double>& outputs() const { return outputs_; }
  [[nodiscard]] double duration() const { return drive_.duration(); }

 private:
  WheelRun(const session::Case& c, const network::MeshCounts& mesh);

  session::Drive drive_;
  network::Network network_;
  network::Symmetry symmetry_;
  std::vector<double> outputs_;
};

//! Temperatures, one column an output; the air in the wheel, which is no result, is left out.
class Tape {
 public:
  explicit Tape(const WheelRun& run)
      : values_(run.nodes(), static_cast<Eigen::Index>(run.outputs().size())), column_(run.nodes()) {}
  void put(const solve::WheelSystem& system, const Eigen::VectorXd& x);
  void put_temperatures(const solve::WheelSystem& system, Eigen::Ref<const Eigen::VectorXd> temperatures);
  //! Largest difference of any node at any output [K]; infinite when one tape is not full or not finite.
  [[nodiscard]] double error(const Tape& reference) const;

 private:
  Eigen::MatrixXd values_;
  Eigen::VectorXd column_;
  Eigen::Index next_ = 0;
};

struct Work {
  long steps = 0, rates = 0;
};

struct Method {
  std::string name;
  std::string setting;
  std::function<Work(const WheelRun&, Tape&)> solve;
  int scenarios = 1;  //!< solved at once; times are per scenario
};

//! Our stepper with a tableau and an absolute tolerance [K].
[[nodiscard]] Method ours(const solve::Tableau& tableau, double absolute);
//! ROS34PW2 as the program runs it: nodes that mirror one another solved once, one scenario alone or several at once,
//! of which the first is that of the others.
[[nodiscard]] Method as_run(double absolute);
[[nodiscard]] Method lanes_as_run(int scenarios, double absolute, bool load_each = false);

// The others, all with LeanWheel's rates and, but for rk4, with per_kelvin() times the tolerance.
enum class Linear { dense, klu };
//! SUNDIALS CVODE, BDF, analytic Jacobian, started again at every restart.
[[nodiscard]] Method cvode(Linear linear, double absolute);
//! odeint's runge_kutta_dopri5 with dense output, started again at every restart.
[[nodiscard]] Method dopri5(double absolute);
//! Classical Runge-Kutta, equal steps, `per_output` of them between two outputs.
[[nodiscard]] Method rk4(int per_output);

//! Stabilised explicit second-order method with as many stages as the step needs: RKC of Sommeijer, Shampine and
//! Verwer, J. Comput. Appl. Math. 88 (1998) 315-326, formulas from memory; started again at every restart.
[[nodiscard]] Method rkc(const WheelRun& run, double absolute);

//! Fewest equal steps between outputs with which rk4 stays stable.
[[nodiscard]] int stable_rk4(const WheelRun& run, const Tape& reference);

}  // namespace hatring::bench
