// SPDX-License-Identifier: MIT
//! \file
//! Heat balances of wheels whose networks are alike but for their numbers, side by side in the lanes of a kernel: the
//! system that the stepper integrates. One lane is one wheel in one scenario.
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <boost/align/aligned_allocator.hpp>
#include <functional>
#include <string>
#include <vector>

#include "sim/network/index.hpp"
#include "sim/network/network.hpp"
#include "sim/solve/kernel.hpp"
#include "sim/solve/ldlt.hpp"

namespace hatring::solve {

//! What drives one wheel at one moment.
struct Load {
  double speed = 0;    //!< of the car [m/s]
  double heat = 0;     //!< friction power of this wheel, before the split [W]
  double applied = 0;  //!< 0 pads released .. 1 pads applied
};
using LoadFunction = std::function<Load(double)>;  //!< by time [s]

//! Largest error of one step, by node.
struct Tolerance {
  double absolute = 0.02;     //!< [K]
  double relative = 0;        //!< of the distance from `reference` [-]
  double reference = 293.15;  //!< [K]
};

//! Node and lane that need the smallest step.
struct WorstNode {
  std::string name;
  int lane = 0;
  double temperature = 0;  //!< [K]
};

//! Whether two networks have the same parts in the same order, so that they can go side by side.
[[nodiscard]] bool alike(const network::Network& x, const network::Network& y);

//! State x: heat of every node [J], then the integrals of WheelIntegral [J]; the lanes of one item side by side. The
//! stepper's own states have sums behind them (sim/solve/kernel.hpp).
//! \tparam Real double for one lane, float for several (sim/solve/kernel.hpp)
template <class Real>
class LaneSystem {
 public:
  using Vector = Eigen::Matrix<Real, Eigen::Dynamic, 1>;

  //! \param networks as many as the kernel has lanes, with the same nodes, links and surfaces; outlive the system
  //! \param loads called with times inside the current window; an empty one: as in the lane before
  //! \throws std::invalid_argument when a network is not valid or they are not alike
  LaneSystem(std::vector<const network::Network*> networks, std::vector<LoadFunction> loads,
             const WheelKernel<Real>& kernel);

  // Its arrays and lists point into one another.
  LaneSystem(const LaneSystem&) = delete;
  LaneSystem& operator=(const LaneSystem&) = delete;

  //! The loads may jump at both ends of [begin, end]: evaluate them strictly inside.
  void set_window(double begin, double end);
  //! The load of the first lane inside the current window.
  [[nodiscard]] Load load_at(double time) const;
  //! take(lane, load) for every lane at that time; a load that lanes share is worked out once.
  template <class F>
  void each_load(double time, const F& take) const {
    Load load;
    for (std::size_t lane = 0; lane < loads_.size(); ++lane) {
      if (loads_[lane]) load = loads_[lane](std::clamp(time, begin_, end_));
      take(lane, load);
    }
  }

  [[nodiscard]] int nodes() const { return plan_.nodes; }
  [[nodiscard]] int lanes() const { return kernel_.lanes; }
  //! Starting temperatures, integrals zero.
  [[nodiscard]] Eigen::VectorXd initial_state() const;

  //! Temperatures of a state, without touching the linearisation [K].
  void temperatures_of(const Eigen::VectorXd& x, Eigen::VectorXd& temperature) const;

  //! dx/dt, evaluated by the kernel. A step after it needs linearise() again.
  void rates(double t, const Eigen::VectorXd& x, Eigen::VectorXd& dxdt);

  // The HeatSystem interface of sim/solve/stepper.hpp.
  [[nodiscard]] Eigen::Index size() const { return (plan_.nodes + kBehindNodes) * kernel_.lanes; }
  [[nodiscard]] Eigen::Index temperatures() const { return plan_.nodes * kernel_.lanes; }
  //! Temperatures of a state and its sums, from the heats alone.
  void complete(Eigen::VectorXd& x, Vector& temperature) const;
  //! Expands the rates about x, unless it is near where the last expansion was made.
  void linearise(double t, const Eigen::VectorXd& x, const Tolerance& tolerance, Eigen::VectorXd& slope);
  //! The next linearise() expands anew, however near it is.
  void renew() { expanded_ = false; }
  //! What follows from the last linearise(): sums to its state and slope, temperatures [K] and their slopes [K/s].
  void follow(Eigen::VectorXd& x, Eigen::VectorXd& slope, Vector& temperature, Vector& warming) const;
  [[nodiscard]] double attempt(double h, const StepMethod& method, const Eigen::VectorXd& x, Eigen::VectorXd& next);
  [[nodiscard]] WorstNode worst(const StepMethod& method) const;

  //! Rates of the expansion for temperature increments w from where it was made [K], `ahead` of the last linearise(),
  //! as a step of length h sees them.
  void local_rates(double h, double ahead, const Eigen::VectorXd& w, Eigen::VectorXd& rates);
  //! The whole matrix of the expansion: -d(rates)/dT of the nodes where it was made, in the slots of factor().
  [[nodiscard]] Eigen::Map<const Vector> matrix();
  [[nodiscard]] const SparseLdlt& factor() const { return matrices_.back().factor; }
  //! d(loss)/dT, nodes by kLossRows.
  [[nodiscard]] auto loss_rows() const {
    return Eigen::Map<const Eigen::Matrix<Real, Eigen::Dynamic, kLossRows>>(arrays_.loss_rows, plan_.nodes * lanes(),
                                                                            kLossRows);
  }
  //! All that matrices and loss rows are made of.
  [[nodiscard]] Eigen::Map<Vector> derivatives();
  //! dH/dT of the nodes where the expansion was made [J/K].
  [[nodiscard]] Eigen::Map<const Vector> capacity() const { return {arrays_.factor.capacity, plan_.nodes * lanes()}; }

 private:
  struct LoadArrays {
    std::vector<double> heat, applied, speed, progress;
  };
  void gather();
  void lay_out();
  void fill();
  void begin_at(double t);
  void rates_at_begin(Eigen::VectorXd& dxdt);
  void take_rates(const Real* from, Eigen::VectorXd& dxdt) const;
  void put_end(double t);
  void set_reach(double tolerance);
  void set_scale(const Tolerance& tolerance);
  [[nodiscard]] bool within_reach(const Eigen::VectorXd& x);
  void expand_about(const Eigen::VectorXd& x);
  void set_progress(LoadArrays& moment) const;
  [[nodiscard]] bool moves_as_before(int lane, const std::vector<double>& speed) const;
  void look_ahead();
  [[nodiscard]] SpeedPlace place_of(double speed, int lane) const;
  void put_load(std::size_t which, double time);
  [[nodiscard]] std::size_t slot(int item, int lane) const { return network::at(item * kernel_.lanes + lane); }

  std::vector<const network::Network*> networks_;
  std::vector<LoadFunction> loads_;
  const WheelKernel<Real>& kernel_;
  double begin_ = -1e300, end_ = 1e300, time_ = 0;

  // A matrix of the couplings that are faster than a rate: the others are too slow to need it within a short step.
  struct Matrix {
    SparseLdlt factor;
    std::vector<MatrixEntry> entries;
    double longest_step = 0;  //!< with it [s]
    MatrixPlan plan;
  };
  [[nodiscard]] Matrix matrix_of(double slowest) const;
  void assemble(const Matrix& matrix);
  [[nodiscard]] std::vector<double> coupling_rates() const;
  std::vector<Matrix> matrices_;  // of rising longest step; the last has all couplings
  const Matrix* assembled_ = nullptr;
  WheelPlan plan_;
  std::vector<Ends> conductors_, rubbings_, exchanges_, pairs_;
  std::vector<int> link_of_;  // of each conductor
  std::vector<int> losses_, wheels_;
  std::vector<Cooled> surfaces_;
  std::vector<int> surface_of_;                       // of each in the network
  std::vector<double> looseness_;                     // by node: of its tolerance [-]
  std::vector<double> reach_;                         // by node: of an expansion at the usual tolerance [K]
  std::vector<const double*> cells_, tables_;         // by node or surface and lane: where tables lie
  double scale_tolerance_ = 0, reach_tolerance_ = 0;  // that these are set for [K]

  template <class Number>
  using Store = std::vector<Number, boost::alignment::aligned_allocator<Number, 64>>;
  WheelArrays<Real> arrays_;
  Store<Real> store_;
  Store<double> state_store_;
  std::vector<int> intervals_;
  // The stages, a moment ahead of the begin, the end and the begin.
  static constexpr std::size_t kEnd = StepMethod::kStages + 1, kBegin = kEnd + 1, kMoments = kBegin + 1;
  std::vector<LoadArrays> moments_;
  std::vector<LaneLoad> lane_loads_;
  std::vector<SpeedPlace> speeds_;  // by lane: where the expansion was made
  std::vector<SpeedChange> changes_;
  static constexpr double kNever = -1e300;
  double load_known_at_ = kNever;  // time of the end [s]
  // Of the expansion, by lane: speed, and how far off that is to which changes with speed are taken [m/s].
  std::vector<double> base_speed_, way_;
  std::vector<double> highest_speed_;    // by lane: of its tables [m/s]
  std::vector<double> derived_applied_;  // by lane: that the derivatives are at; empty: they are of another expansion
  double speed_reach_ = 0;               // largest change of speed of an expansion, a part of it
  bool expanded_ = false, looked_ahead_ = false;
};

extern template class LaneSystem<double>;
extern template class LaneSystem<float>;

}  // namespace hatring::solve
