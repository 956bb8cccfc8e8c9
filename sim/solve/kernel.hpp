// SPDX-License-Identifier: MIT
//! \file
//! The arithmetic of a solver step over plain arrays, for one scenario or for several side by side in SIMD lanes. It is
//! compiled once for each instruction set (kernel_set.cpp) from one source (kernel_impl.hpp), and chosen at run
//! time for the machine at hand. Everything here is plain data, so that no code of one instruction set can be shared
//! with another; the ctest `kernel symbols` looks.
//!
//! Real is double for one scenario and float for several: twice as many go into a vector, and half as much memory is
//! moved. What needs more is in double precision for both: the state, its integrals, and where an expansion is made.
//! All else follows differences of a few kelvin from there. On a session of 20 minutes rounding moves a temperature by
//! 0.002 K, and the heat balance closes to 2e-8 (tests/sim/answer/test_run_many.cpp has bounds).
//!
//! The heat balance is followed by its expansion about the begin of a step, for as many steps as stay near it:
//! temperatures by the increments w = dH/C as w (1 + bend w), conductances by 1/(1 + e) = 1 - e + e^2, convection by
//! its flow, slope and change with speed; friction, contact and T^4 as they are. What is left out is of third order in
//! w (of second in the curvature of convection over temperature and speed). tests/sim/solve/test_wheel_system.cpp holds
//! it against rates().
#pragma once

namespace hatring::solve {

//! Two nodes.
struct Ends {
  int a = 0, b = 0;
};

//! What a pivot takes from the rest of the matrix: the product of two entries of its column.
struct FactorUpdate {
  int target = 0;    //!< index into the factor
  int i = 0, j = 0;  //!< entries
};

//! Lists of operations of a sparse L D L' factorisation; sim/solve/ldlt.hpp makes them. Flat, because short inner loops
//! cost more than what they do; level by level, because the pivots of a level do not wait for one another.
struct FactorPlan {
  int size = 0, entries = 0, levels = 0;
  const int* pivot = nullptr;   //!< in the order of elimination
  const Ends* entry = nullptr;  //!< of L by level: column a, row b
  const FactorUpdate* update = nullptr;
  // By level, one more at the end: where pivots, entries and updates begin.
  const int *pivot_start = nullptr, *entry_start = nullptr, *update_start = nullptr;
};

//! One coupling of two nodes in a matrix.
struct MatrixEntry {
  int coupling = 0;            //!< which: conductors, rubbings, exchanges, pairs, one after the other
  int aa = 0, bb = 0, ab = 0;  //!< slots of the two diagonals and of the off-diagonal entry
};

//! A matrix that stands for the derivative of the rates: some of the couplings, or all.
struct MatrixPlan {
  int entries = 0;
  const MatrixEntry* entry = nullptr;
  FactorPlan factor;
};

//! A cooled surface: of which node, in which air (-1: outside), and part of which flow.
struct Cooled {
  int node = 0, air = -1, flow = 0;
};

//! How tables of conductance lie in memory (sim/network/conductance_table.hpp): intervals of the signed root of the
//! difference, in each rows of rising speed, in each the coefficients of a cubic.
struct TableShape {
  int intervals = 0, rows = 0;
  double lowest = 0, inverse_step = 0;  //!< of the signed root [K^0.5]
};

//! What is alike in all lanes: index lists of one wheel's network.
struct WheelPlan {
  int nodes = 0;
  int plain = 0, conductors = 0;  //!< conductors from `plain` on depend on the brake's pressure
  int rubbings = 0, exchanges = 0, pairs = 0, losses = 0;
  const Ends* conductor = nullptr;
  const Ends* rubbing = nullptr;   //!< ring, pad
  const Ends* exchange = nullptr;  //!< surface, air in the wheel
  const Ends* pair = nullptr;      //!< nodes that radiate to each other
  const int* loss = nullptr;       //!< nodes with convection to outside
  int wheels = 0;
  const int* wheel = nullptr;  //!< nodes whose losses count as the wheel's, all others' as the brake's
  int surfaces = 0;
  const Cooled* surface = nullptr;
  TableShape table;
  int last_cell = 0, cell = 0;  //!< of the tables of heat content: the last one, and numbers in each
  [[nodiscard]] int couplings() const { return conductors + rubbings + exchanges + pairs; }
  [[nodiscard]] int flows() const { return losses + exchanges; }  //!< by convection, in this order
};

//! What drives a step at one moment, lane by lane.
struct LaneLoad {
  const double* heat = nullptr;      //!< friction power of the wheel [W]
  const double* applied = nullptr;   //!< 0 pads released .. 1 applied
  const double* progress = nullptr;  //!< of the speed, 0 where the expansion was made, 1 at the speed of `by_speed`
};

//! Place of a speed on the tables: the first of four rows, and their weights.
struct SpeedPlace {
  int row = 0;
  double weight[4] = {};
};

//! How far speeds go from where the expansion was made, in one lane.
struct SpeedChange {
  SpeedPlace end, half;  //!< the speed at progress 1 and half way there
};

//! Running integrals behind the nodes in the state.
enum WheelIntegral { kConvection, kRadiation, kWheelLoss, kFriction, kToRing, kIntegrals };
inline constexpr int kLossRows = kWheelLoss + 1;  //!< the other integrals follow from the load and the stages alone

//! The stepper's own states have two sums behind the integrals [J]: the heat of all nodes, and of those whose losses
//! count as the wheel's.
inline constexpr int kAllHeat = kIntegrals, kWheelHeat = kAllHeat + 1, kBehindNodes = kWheelHeat + 1;

//! Flow [W], its slope [W/K] and half its second derivative [W/K2] over temperature, and how flow and slope change
//! while the speed goes the whole way of `progress`.
template <class Real>
struct LaneFlow {
  Real* flow = nullptr;
  Real* slope = nullptr;
  Real* curvature = nullptr;
  Real* flow_by_speed = nullptr;
  Real* slope_by_speed = nullptr;
  Real* bend_by_speed = nullptr;  //!< of the flow: times progress (progress - 1) [W]
};

//! A matrix over a FactorPlan, diagonal first, then off-diagonals with the fill; and its factors.
template <class Real>
struct FactorArrays {
  Real *matrix = nullptr, *capacity = nullptr;  //!< what is factorised: matrix + diag(capacity) * per_step
  Real* factor = nullptr;                       //!< inverse pivots, then the columns, L times its pivot
  Real* lower = nullptr;                        //!< L
};

//! Arrays of the lanes: item after item, the lanes of one item side by side.
template <class Real>
struct WheelArrays {
  // By node: tables of heat content (sim/network/heat_content.hpp), cell = heat * cell_scale + cell_offset.
  const double** cells = nullptr;
  double *cell_scale = nullptr, *cell_offset = nullptr;
  Real* inverse_cell_scale = nullptr;
  // By surface: tables of conductance and areas over that of the table; then, by cool(), warmer than its air by [K],
  // root of that, interval of its table and place in it, and conductance, slope [W/K] and curvature [W/K2] of its flow;
  // and the part by which they change with speed, all the way and half way. The cubic is that of the interval at the
  // speed looked at last.
  const double** table = nullptr;
  Real* area = nullptr;
  Real *difference = nullptr, *root = nullptr, *place = nullptr;
  int* interval = nullptr;
  Real* cubic = nullptr;
  Real *surface_conductance = nullptr, *surface_slope = nullptr, *surface_curvature = nullptr;
  Real *part = nullptr, *half_part = nullptr;
  // By node: how far an expansion may reach at most [K]; where it is made [J] and 1 / how far it reaches [1/K], set by
  // warm(); increments from there to the begin of the step [K], by depart().
  double* base = nullptr;
  Real *farthest = nullptr, *inverse_reach = nullptr, *moved = nullptr;
  // By node, set by warm().
  Real *temperature = nullptr, *bend = nullptr;               //!< [K], [1/K]; and factor.capacity [J/K]
  Real* warming = nullptr;                                    //!< 1 / capacity [K/J]
  Real *resistivity = nullptr, *resistivity_slope = nullptr;  //!< [m K/W], [m/W]
  // By node, the same throughout.
  Real* radiance = nullptr;   //!< sigma times factor to outside [W/K4]
  Real* unscale = nullptr;    //!< 1 / tolerance [1/K]
  LaneFlow<Real> convection;  //!< by flow: losses and then exchanges
  // By conductor: half cells [1/m], contact [K/W], what pressed pads add [W/K]; then what expand() makes of them.
  Real *shape_a = nullptr, *shape_b = nullptr, *contact = nullptr, *pressed = nullptr;
  Real *conductance = nullptr, *change_a = nullptr, *change_b = nullptr;
  // By rubbing: share of the power, contact resistance [K/W], half cells [1/m]; then half-cell resistances [K/W].
  Real *share = nullptr, *rub_contact = nullptr, *shape_ring = nullptr, *shape_pad = nullptr;
  Real *ring_half = nullptr, *pad_half = nullptr, *ring_change = nullptr, *pad_change = nullptr;
  Real* factor_pair = nullptr;  //!< by pair: sigma times factor [W/K4]
  Real* ambient = nullptr;      //!< of each lane [K]
  Real* fixed_share = nullptr;  //!< into the ring, of each lane; negative: by contact
  FactorArrays<Real> factor;
  Real* coupling = nullptr;   //!< conductance of every coupling [W/K]
  Real* outward = nullptr;    //!< by node: to outside [W/K]
  Real* loss_rows = nullptr;  //!< d(loss)/dT, kLossRows one after the other
  // Room for a step.
  Real *flow_now = nullptr, *slope_now = nullptr;             //!< by flow
  Real *now = nullptr, *change = nullptr, *fourth = nullptr;  //!< by node
  Real* start = nullptr;                                      //!< rates at its begin
  Real *increment = nullptr, *rates = nullptr, *right = nullptr, *stages = nullptr, *time_slope = nullptr,
       *flow = nullptr;
};

//! Coefficients of a linearly implicit method in the transformed form of sim/solve/tableau.hpp.
struct StepMethod {
  static constexpr int kStages = 4;
  double diagonal = 0;
  double a[kStages][kStages] = {}, c[kStages][kStages] = {};
  double m[kStages] = {}, b[kStages] = {}, error[kStages] = {}, time[kStages] = {}, time_slope[kStages] = {};
  bool at_start[kStages] = {};  //!< stages that need no evaluation of their own
  bool timed = false;           //!< the method needs df/dt
  int stages = kStages;         //!< that are made; the weights of the others are zero
};

//! One width of lanes on one instruction set.
template <class Real>
struct WheelKernel {
  int lanes = 1;
  //! \returns whether all pivots are positive and finite
  bool (*factorise)(const FactorPlan&, const FactorArrays<Real>&, double per_step) = nullptr;
  //! Solves in place.
  void (*solve)(const FactorPlan&, const FactorArrays<Real>&, Real* x) = nullptr;
  //! Temperatures and all that follows from them at the heats of a state: the expansion is made here.
  void (*warm)(const WheelPlan&, const WheelArrays<Real>&, const double* x) = nullptr;
  //! Goes to the begin of another step. \returns the largest increment over its reach, infinity for what is no number
  double (*depart)(const WheelPlan&, const WheelArrays<Real>&, const double* x) = nullptr;
  //! Temperatures [K] and how fast they change [K/s], after rates() at warm() or depart() into `start`.
  void (*follow)(const WheelPlan&, const WheelArrays<Real>&, Real* temperature, Real* warming) = nullptr;
  //! The sums behind the integrals of one of the stepper's states, or of its slope.
  void (*add_up)(const WheelPlan&, double* x) = nullptr;
  //! Convection at the temperatures and, lane by lane, a speed.
  void (*cool)(const WheelPlan&, const WheelArrays<Real>&, const SpeedPlace*) = nullptr;
  //! How convection changes up to other speeds, after cool(). \param straight what is half way follows from the ends
  void (*look_ahead)(const WheelPlan&, const WheelArrays<Real>&, const SpeedChange*, bool straight) = nullptr;
  //! Conductances and their changes at the temperatures.
  void (*expand)(const WheelPlan&, const WheelArrays<Real>&) = nullptr;
  //! Derivatives: couplings, outward and loss rows, after expand().
  void (*derive)(const WheelPlan&, const WheelArrays<Real>&, const LaneLoad&) = nullptr;
  //! The matrix, after derive().
  void (*assemble)(const WheelPlan&, const MatrixPlan&, const WheelArrays<Real>&) = nullptr;
  //! Rates for increments w [K] from where the expansion was made, after expand().
  void (*rates)(const WheelPlan&, const WheelArrays<Real>&, const LaneLoad&, const Real* w, Real* f) = nullptr;
  //! One step of length h from x, where warm() or depart() was last and whose rates are in `start`. \param loads of the
  //! stages, then a moment `ahead` of the begin \param next takes the state at its end \returns largest error over
  //! tolerance; infinity when there is no such step
  double (*attempt)(const WheelPlan&, const MatrixPlan&, const WheelArrays<Real>&, const StepMethod&, double h,
                    double ahead, const LaneLoad* loads, const double* x, double* next) = nullptr;
};

//! One scenario by itself, in double precision: the fastest that this machine can run.
[[nodiscard]] const WheelKernel<double>& single_kernel();
//! Scenarios side by side, in single precision but for the state: the fastest kernel that this machine can run, of four
//! lanes when that many will do or a limit leaves no more, else of eight. Null when a limit leaves none.
[[nodiscard]] const WheelKernel<float>* lanes_kernel(int scenarios);
//! From now on there are but kernels that every machine runs, of at most `most` lanes, so that a test or a count of
//! instructions is the same everywhere. To be called before threads are started. \param most 0: no limit
//! \returns the limit before
int limit_lanes(int most);

}  // namespace hatring::solve
