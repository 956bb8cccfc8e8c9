// SPDX-License-Identifier: MIT
// What a step needs of the state: from heats to temperatures, convection and its changes, and the kernel's turn.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "sim/solve/lane_system.hpp"

namespace hatring::solve {
namespace {

using network::at;

constexpr double kAhead = 1e-5;  // of a step, for df/dt

// How far an expansion reaches in speed, a part of it, and below which speed, where buoyancy bends convection, nowhere.
constexpr double kSpeedReach = 0.15;
constexpr double kSlow = 10;        // [m/s]
constexpr double kLeastWay = 0.01;  // over which the change of convection with speed is taken [m/s]

}  // namespace

template <class Real>
void LaneSystem<Real>::set_window(double begin, double end) {
  // Far below any time scale here, far above the rounding of a day in seconds.
  constexpr double kInside = 1e-8;
  const double inset = std::min(kInside, 0.25 * (end - begin));
  begin_ = begin + inset;
  end_ = end - inset;
  load_known_at_ = kNever;
}

template <class Real>
Load LaneSystem<Real>::load_at(double time) const {
  return loads_.front()(std::clamp(time, begin_, end_));
}

template <class Real>
Eigen::VectorXd LaneSystem<Real>::initial_state() const {
  Eigen::VectorXd x = Eigen::VectorXd::Zero((plan_.nodes + kIntegrals) * lanes());
  for (int lane = 0; lane < lanes(); ++lane) {
    const std::vector<double> heat = networks_[at(lane)]->initial_heat();
    for (int i = 0; i < plan_.nodes; ++i) x[i * lanes() + lane] = heat[at(i)];
  }
  return x;
}

template <class Real>
void LaneSystem<Real>::temperatures_of(const Eigen::VectorXd& x, Eigen::VectorXd& temperature) const {
  for (int k = 0; k < plan_.nodes * lanes(); ++k) {
    const network::Network& net = *networks_[at(k % lanes())];
    const network::Node& node = net.nodes[at(k / lanes())];
    temperature[k] = net.contents[at(node.content)].temperature(x[k] / node.mass);
  }
}

template <class Real>
void LaneSystem<Real>::complete(Eigen::VectorXd& x, Vector& temperature) const {
  Eigen::VectorXd t(temperatures());
  temperatures_of(x, t);
  temperature = t.template cast<Real>();
  kernel_.add_up(plan_, x.data());
}

template <class Real>
void LaneSystem<Real>::follow(Eigen::VectorXd& x, Eigen::VectorXd& slope, Vector& temperature, Vector& warming) const {
  kernel_.follow(plan_, arrays_, temperature.data(), warming.data());
  kernel_.add_up(plan_, x.data());
  kernel_.add_up(plan_, slope.data());
}

template <class Real>
void LaneSystem<Real>::put_load(std::size_t which, double time) {
  LoadArrays& m = moments_[which];
  each_load(time, [&m](std::size_t lane, const Load& load) {
    m.heat[lane] = load.heat;
    m.applied[lane] = load.applied;
    m.speed[lane] = load.speed;
  });
}

template <class Real>
void LaneSystem<Real>::rates(double t, const Eigen::VectorXd& x, Eigen::VectorXd& dxdt) {
  begin_at(t);
  expand_about(x);
  rates_at_begin(dxdt);
}

template <class Real>
void LaneSystem<Real>::rates_at_begin(Eigen::VectorXd& dxdt) {
  set_progress(moments_[kBegin]);
  kernel_.rates(plan_, arrays_, lane_loads_[kBegin], arrays_.moved, arrays_.start);
  take_rates(arrays_.start, dxdt);
}

template <class Real>
void LaneSystem<Real>::take_rates(const Real* from, Eigen::VectorXd& dxdt) const {
  const Eigen::Index count = (plan_.nodes + kIntegrals) * lanes();
  dxdt.head(count) = Eigen::Map<const Vector>(from, count).template cast<double>();
}

template <class Real>
void LaneSystem<Real>::linearise(double t, const Eigen::VectorXd& x, const Tolerance& tolerance,
                                 Eigen::VectorXd& slope) {
  begin_at(t);
  if (tolerance.absolute != reach_tolerance_) set_reach(tolerance.absolute);
  if (!within_reach(x)) expand_about(x);
  rates_at_begin(slope);
  if (moments_[kBegin].applied != derived_applied_) {
    kernel_.derive(plan_, arrays_, lane_loads_[kBegin]);
    derived_applied_ = moments_[kBegin].applied;
    assembled_ = nullptr;
  }
  if (tolerance.relative != 0 || tolerance.absolute != scale_tolerance_) set_scale(tolerance);
}

template <class Real>
void LaneSystem<Real>::begin_at(double t) {
  time_ = t;
  if (t == load_known_at_)
    moments_[kBegin] = moments_[kEnd];
  else
    put_load(kBegin, t);
}

template <class Real>
void LaneSystem<Real>::put_end(double t) {
  put_load(kEnd, t);
  load_known_at_ = t;
}

template <class Real>
void LaneSystem<Real>::set_reach(double tolerance) {
  reach_tolerance_ = tolerance;
  renew();
  // What an expansion leaves out grows with the third power of the way.
  const double reach = std::min(2.0, std::cbrt(tolerance / Tolerance{}.absolute));
  speed_reach_ = kSpeedReach * reach;
  for (int k = 0; k < plan_.nodes * lanes(); ++k)
    arrays_.farthest[k] = static_cast<Real>(reach_[at(k / lanes())] * reach);
}

template <class Real>
void LaneSystem<Real>::set_scale(const Tolerance& tolerance) {
  scale_tolerance_ = tolerance.relative == 0 ? tolerance.absolute : 0;
  for (int k = 0; k < plan_.nodes * lanes(); ++k)
    arrays_.unscale[k] = static_cast<Real>(
        1 / (looseness_[at(k / lanes())] *
             (tolerance.absolute + tolerance.relative * std::abs(arrays_.now[k] - tolerance.reference))));
}

// Whether the expansion holds at a state, whose load is known; if so, goes there.
template <class Real>
bool LaneSystem<Real>::within_reach(const Eigen::VectorXd& x) {
  if (!expanded_) return false;
  for (int lane = 0; lane < lanes(); ++lane) {
    const double from = base_speed_[at(lane)], change = moments_[kBegin].speed[at(lane)] - from;
    // Without a look ahead only its own speed is known.
    if (!(from > kSlow) || !(std::abs(change) <= (looked_ahead_ ? speed_reach_ * from : kLeastWay))) return false;
  }
  return kernel_.depart(plan_, arrays_, x.data()) <= 1;
}

// About a state whose load is known.
template <class Real>
void LaneSystem<Real>::expand_about(const Eigen::VectorXd& x) {
  base_speed_ = moments_[kBegin].speed;
  for (int lane = 0; lane < lanes(); ++lane)
    speeds_[at(lane)] =
        moves_as_before(lane, base_speed_) ? speeds_[at(lane - 1)] : place_of(base_speed_[at(lane)], lane);
  kernel_.warm(plan_, arrays_, x.data());
  kernel_.cool(plan_, arrays_, speeds_.data());
  kernel_.expand(plan_, arrays_);
  expanded_ = true;
  looked_ahead_ = false;
  derived_applied_.clear();
}

template <class Real>
SpeedPlace LaneSystem<Real>::place_of(double speed, int lane) const {
  const network::SpeedWeights at_speed = networks_[at(lane)]->grid.locate(speed);
  SpeedPlace out{.row = at_speed.index};
  std::copy(at_speed.w.begin(), at_speed.w.end(), out.weight);
  return out;
}

// Lanes mostly go through one session at one speed: whether the one before has the same, on the same grid.
template <class Real>
bool LaneSystem<Real>::moves_as_before(int lane, const std::vector<double>& speed) const {
  return lane > 0 && highest_speed_[at(lane)] == highest_speed_[at(lane - 1)] && speed[at(lane)] == speed[at(lane - 1)];
}

template <class Real>
void LaneSystem<Real>::set_progress(LoadArrays& moment) const {
  for (int lane = 0; lane < lanes(); ++lane)
    moment.progress[at(lane)] = (moment.speed[at(lane)] - base_speed_[at(lane)]) / way_[at(lane)];
}

// How convection changes with speed, as far as at the end of the step and beyond, while the expansion lasts.
template <class Real>
void LaneSystem<Real>::look_ahead() {
  const std::vector<double>& last = moments_[kEnd].speed;
  constexpr double kBeyond = 0.05;  // of the way
  const auto covered = [&](std::size_t lane) {
    const double change = last[lane] - base_speed_[lane], part = change / way_[lane];
    // Near standstill what holds for the whole way is too coarse for a small part of it.
    const double least = base_speed_[lane] > kSlow || std::abs(change) < kLeastWay ? -kBeyond : 0.5;
    return part > least && part < 1 + kBeyond;
  };
  for (std::size_t lane = 0; lane < base_speed_.size() && looked_ahead_; ++lane) looked_ahead_ = covered(lane);
  if (!looked_ahead_) {
    bool straight = true;
    for (int lane = 0; lane < lanes(); ++lane) {
      if (moves_as_before(lane, base_speed_) && moves_as_before(lane, last)) {
        way_[at(lane)] = way_[at(lane - 1)];
        changes_[at(lane)] = changes_[at(lane - 1)];
        continue;
      }
      const double from = base_speed_[at(lane)], change = last[at(lane)] - from;
      // Beyond the tables' highest speed their coefficients are held, with a bend there.
      const double faster = highest_speed_[at(lane)] - from,
                   reach = from > kSlow ? std::min(speed_reach_ * from, change < 0 ? from : faster) : 0;
      const double way = std::max({std::abs(change), reach, kLeastWay});
      way_[at(lane)] = std::copysign(way, change);
      SpeedChange& ahead = changes_[at(lane)];
      ahead.end = place_of(from + way_[at(lane)], lane);
      straight = straight && way == kLeastWay;
      ahead.half = place_of(from + way_[at(lane)] / 2, lane);
    }
    kernel_.look_ahead(plan_, arrays_, changes_.data(), straight);
    looked_ahead_ = true;
  }
  for (LoadArrays& m : moments_) set_progress(m);
}

template <class Real>
double LaneSystem<Real>::attempt(double h, const StepMethod& method, const Eigen::VectorXd& x, Eigen::VectorXd& next) {
  if constexpr (sizeof(Real) < sizeof(double)) {
    if (method.timed)
      throw std::invalid_argument("lanes: single precision is too coarse for a method that needs df/dt");
  }
  put_end(time_ + h);
  for (std::size_t i = 0; i < StepMethod::kStages; ++i) {
    if (method.at_start[i]) continue;
    if (method.time[i] == 1)
      moments_[i] = moments_[kEnd];
    else
      put_load(i, time_ + method.time[i] * h);
  }
  const double ahead = kAhead * h;
  if (method.timed) put_load(StepMethod::kStages, time_ + ahead);
  look_ahead();
  // A method that needs df/dt needs the exact matrix too, at every step.
  const auto fits = [&](const Matrix& m) { return h <= m.longest_step; };
  const Matrix& matrix = method.timed ? matrices_.back() : *std::find_if(matrices_.begin(), matrices_.end(), fits);
  if (method.timed) expanded_ = false;
  assemble(matrix);
  return kernel_.attempt(plan_, matrix.plan, arrays_, method, h, ahead, lane_loads_.data(), x.data(), next.data());
}

template <class Real>
void LaneSystem<Real>::assemble(const Matrix& matrix) {
  if (assembled_ == &matrix) return;
  kernel_.assemble(plan_, matrix.plan, arrays_);
  assembled_ = &matrix;
}

template <class Real>
auto LaneSystem<Real>::matrix() -> Eigen::Map<const Vector> {
  assemble(matrices_.back());
  return {arrays_.factor.matrix, (plan_.nodes + factor().entries()) * lanes()};
}

template <class Real>
auto LaneSystem<Real>::derivatives() -> Eigen::Map<Vector> {
  assembled_ = nullptr;
  return {arrays_.coupling, arrays_.loss_rows + plan_.nodes * kLossRows * lanes() - arrays_.coupling};
}

template <class Real>
void LaneSystem<Real>::local_rates(double h, double ahead, const Eigen::VectorXd& w, Eigen::VectorXd& rates) {
  put_end(time_ + h);
  put_load(0, time_ + ahead);
  look_ahead();
  Vector increments(w.size());
  increments = w.cast<Real>();
  kernel_.rates(plan_, arrays_, lane_loads_.front(), increments.data(), arrays_.rates);
  take_rates(arrays_.rates, rates);
}

template <class Real>
WorstNode LaneSystem<Real>::worst(const StepMethod& method) const {
  const int count = plan_.nodes * lanes();
  int worst = 0;
  double most = -1;
  for (int k = 0; k < count; ++k) {
    double e = 0;
    for (int j = 0; j < StepMethod::kStages; ++j) e += method.error[j] * arrays_.stages[j * count + k];
    e = std::abs(e) * arrays_.unscale[k];
    if (e <= most) continue;  // what is not a number is the worst
    worst = k;
    if (!(e > most)) break;
    most = e;
  }
  const double w = arrays_.moved[worst];  // what the stages left of `now` may be no number
  return {networks_.front()->nodes[at(worst / lanes())].name, worst % lanes(),
          arrays_.temperature[worst] + w * (1 + arrays_.bend[worst] * w)};
}

template class LaneSystem<double>;
template class LaneSystem<float>;

}  // namespace hatring::solve
