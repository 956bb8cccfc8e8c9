// SPDX-License-Identifier: MIT
//! \file
//! The heat balance of one wheel's network as a system that the stepper can integrate.
#pragma once

#include <Eigen/Core>
#include <functional>
#include <string>
#include <vector>

#include "sim/network/network.hpp"
#include "sim/solve/ldlt.hpp"

namespace hatring::solve {

//! What drives one wheel at one moment.
struct Load {
  double speed = 0;    //!< of the car [m/s]
  double heat = 0;     //!< friction power of this wheel, before the split [W]
  double applied = 0;  //!< 0 pads released .. 1 pads applied
};

//! dH/dt of every node and the running integrals of the heat flows. State x = [H (n) [J]; integrals (kIntegrals) [J]].
class WheelSystem {
 public:
  //! Running integrals that follow the node heats in the state.
  enum Integral { kConvection, kRadiation, kWheelLoss, kFriction, kToRing, kIntegrals };

  //! \param network outlives the system  \param load called with times inside the current window
  //! \throws std::invalid_argument when the network is not valid
  WheelSystem(const network::Network& network, std::function<Load(double)> load);

  //! The load may jump at both ends of [begin, end]: evaluate it strictly inside.
  void set_window(double begin, double end);

  //! State at the start: the nodes' starting temperatures, all integrals zero.
  [[nodiscard]] Eigen::VectorXd initial_state() const;

  // The HeatSystem interface of sim/solve/stepper.hpp.
  [[nodiscard]] int nodes() const { return n_; }
  [[nodiscard]] int integrals() const { return kIntegrals; }
  void rates(double t, const Eigen::VectorXd& x, Eigen::VectorXd& dxdt) { evaluate<false>(t, x, dxdt); }
  void linearise(double t, const Eigen::VectorXd& x, Eigen::VectorXd& dxdt) { evaluate<true>(t, x, dxdt); }
  [[nodiscard]] const Eigen::VectorXd& capacity() const { return capacity_; }
  [[nodiscard]] SparseLdlt& matrix() { return ldlt_; }
  [[nodiscard]] const Eigen::MatrixXd& integral_rows() const { return rows_; }
  [[nodiscard]] const Eigen::VectorXd& temperatures() const { return temperature_; }
  //! The rubbed pad layers and the air swing by hundreds of kelvin in moments; nothing is judged on them as finely as
  //! on the rest, so they are held looser.
  [[nodiscard]] const Eigen::VectorXd& looseness() const { return looseness_; }
  [[nodiscard]] std::string node_name(int i) const { return network_.nodes[static_cast<std::size_t>(i)].name; }

  //! The load inside the current window.
  [[nodiscard]] Load load_at(double time) const;

  //! Temperatures of a state, without touching the linearisation [K].
  void temperatures_of(const Eigen::VectorXd& x, Eigen::VectorXd& temperature) const;
  //! Surface temperature of one friction face (network().faces) for node temperatures t under a load [K].
  //! A parabola through the first cell that has the cell's mean and the flux at both its ends.
  [[nodiscard]] double face_temperature(std::size_t face, const Eigen::VectorXd& t, const Load& load) const;
  //! Surface temperature of one pad, whose first cell is given, by the heat that enters it [K].
  [[nodiscard]] double pad_surface_temperature(network::NodeId first_cell, const Eigen::VectorXd& t,
                                               const Load& load) const;
  [[nodiscard]] const network::Network& network() const { return network_; }

 private:
  template <bool kLinearise>
  void evaluate(double time, const Eigen::VectorXd& x, Eigen::VectorXd& dxdt);
  void gather();

  // Heat into the ring cell of one rubbing and into its pad cell [W], and the conductance between the two cells [W/K].
  struct RubbingFlow {
    double to_ring, to_pad, conductance;
  };
  [[nodiscard]] double resistivity_of(network::NodeId i, const Eigen::VectorXd& t) const;
  [[nodiscard]] RubbingFlow rub(const network::Rubbing& r, const Load& load, double t_ring, double t_pad,
                                double resistivity_ring, double resistivity_pad) const;

  const network::Network& network_;
  std::function<Load(double)> load_;
  int n_;
  double begin_ = -1e300, end_ = 1e300;

  std::vector<double> inverse_mass_;
  std::vector<const network::HeatContent*> content_;
  struct Ends {
    int aa, bb, ab;  // slots of the two diagonals and of the off-diagonal entry
  };
  // What the inner loops need of a link, surface or radiation, side by side.
  struct Conductor {
    int a, b;
    double shape_a, shape_b, resistance;
    const network::Link* pressed;  // set where the contact depends on the brake's pressure
    Ends slots;
  };
  struct Cooled {
    int node;
    const network::ConductanceTable* table;
    double scale;
    Ends slots;
  };
  // Cooled surfaces that give their heat to one air, table by table.
  struct Stream {
    int air;                  // kAmbient outside
    Integral loss;            // that takes the heat when it goes outside
    Eigen::Index begin, end;  // in cooled_
  };
  struct Radiant {
    int a, b;
    double factor;  // sigma included [W/K4]
    Ends slots;
    Integral loss;
  };
  std::vector<Conductor> conductors_;
  std::vector<Cooled> cooled_;
  std::vector<Stream> streams_;
  std::vector<Radiant> radiants_;
  std::vector<Ends> rubbing_slots_;

  SparseLdlt ldlt_;
  Eigen::VectorXd looseness_, temperature_, capacity_, scratch_t_, scratch_r_;
  Eigen::ArrayXd difference_, root_;  // by surface: warmer than its air by [K], and the square root
  Eigen::MatrixXd rows_;
};

}  // namespace hatring::solve
