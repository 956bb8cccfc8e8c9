// SPDX-License-Identifier: MIT
// What a step needs of the state: from heats to temperatures, convection and its changes, and the kernel's turn.
#include <algorithm>
#include <cmath>

#include "sim/solve/lane_system.hpp"

namespace hatring::solve {
namespace {

constexpr double kSlow = 10;                // [m/s]
constexpr double kLeastSpeedChange = 0.01;  // over which the change of convection with speed is taken [m/s]
constexpr double kAhead = 1e-5;             // of a step, for df/dt

}  // namespace

void LaneSystem::set_window(double begin, double end) {
  // Far below any time scale here, far above the rounding of a day in seconds.
  constexpr double kInside = 1e-8;
  const double inset = std::min(kInside, 0.25 * (end - begin));
  begin_ = begin + inset;
  end_ = end - inset;
}

Load LaneSystem::load_at(double time, int lane) const {
  return loads_[at(lane)](std::clamp(time, begin_, end_));
}

Eigen::VectorXd LaneSystem::initial_state() const {
  Eigen::VectorXd x = Eigen::VectorXd::Zero(size() - plan_.nodes * lanes());
  for (int lane = 0; lane < lanes(); ++lane) {
    const std::vector<double> heat = networks_[at(lane)]->initial_heat();
    for (int i = 0; i < plan_.nodes; ++i) x[i * lanes() + lane] = heat[at(i)];
  }
  return x;
}

void LaneSystem::temperatures_of(const Eigen::VectorXd& x, Eigen::VectorXd& temperature) const {
  for (int k = 0; k < plan_.nodes * lanes(); ++k) {
    const network::Network& net = *networks_[at(k % lanes())];
    const network::Node& node = net.nodes[at(k / lanes())];
    temperature[k] = net.contents[at(node.content)].temperature(x[k] / node.mass);
  }
}

Eigen::VectorXd LaneSystem::widened(const Eigen::VectorXd& x) const {
  Eigen::VectorXd temperature(plan_.nodes * lanes()), out(size());
  temperatures_of(x, temperature);
  out << x, temperature;
  return out;
}

void LaneSystem::add_temperatures(Eigen::VectorXd& x, Eigen::VectorXd& slope) const {
  const int count = plan_.nodes * lanes();
  x.tail(count) = Eigen::Map<const Eigen::VectorXd>(arrays_.temperature, count);
  slope.tail(count) = slope.head(count).cwiseProduct(Eigen::Map<const Eigen::VectorXd>(arrays_.warming, count));
}

void LaneSystem::put_load(std::size_t which, double time) {
  LoadArrays& m = moments_[which];
  for (int lane = 0; lane < lanes(); ++lane) {
    const Load load = load_at(time, lane);
    m.heat[at(lane)] = load.heat;
    m.applied[at(lane)] = load.applied;
    m.speed[at(lane)] = load.speed;
  }
}

void LaneSystem::rates(double t, const Eigen::VectorXd& x, Eigen::VectorXd& dxdt) {
  take(t, x);
  kernel_.rates(plan_, arrays_, lane_loads_.back(), arrays_.zero, dxdt.data());
}

void LaneSystem::linearise(double t, const Eigen::VectorXd& x, const Tolerance& tolerance, Eigen::VectorXd& slope) {
  rates(t, x, slope);
  kernel_.derive(plan_, arrays_, lane_loads_.back());
  if (tolerance.relative == 0 && tolerance.absolute == set_tolerance_) return;
  set_tolerance_ = tolerance.relative == 0 ? tolerance.absolute : 0;
  for (int k = 0; k < plan_.nodes * lanes(); ++k)
    arrays_.unscale[k] =
        1 / (looseness_[at(k / lanes())] *
             (tolerance.absolute + tolerance.relative * std::abs(arrays_.temperature[k] - tolerance.reference)));
}

// All that the kernel needs to know of the state.
void LaneSystem::take(double t, const Eigen::VectorXd& x) {
  time_ = t;
  LoadArrays& now = moments_.back();
  put_load(kMoments - 1, t);
  std::fill(now.progress.begin(), now.progress.end(), 0.0);
  kernel_.warm(plan_, arrays_, x.data());
  for (int lane = 0; lane < lanes(); ++lane) speeds_[at(lane)] = place_of(now.speed[at(lane)], lane);
  kernel_.cool(plan_, arrays_, speeds_.data());
  kernel_.expand(plan_, arrays_);
}

SpeedPlace LaneSystem::place_of(double speed, int lane) const {
  const network::SpeedWeights at_speed = networks_[at(lane)]->grid.locate(speed);
  SpeedPlace out{.row = at_speed.index};
  std::copy(at_speed.w.begin(), at_speed.w.end(), out.weight);
  return out;
}

// How convection changes up to the speed at the end of a step of length h. Near standstill, where coefficients bend, by
// way of the speed half way.
void LaneSystem::look_ahead(double h) {
  for (int lane = 0; lane < lanes(); ++lane) {
    const double from = moments_.back().speed[at(lane)], change = load_at(time_ + h, lane).speed - from;
    const double way = std::abs(change) < kLeastSpeedChange ? kLeastSpeedChange : change;
    for (LoadArrays& m : moments_) m.progress[at(lane)] = (m.speed[at(lane)] - from) / way;
    SpeedChange& ahead = changes_[at(lane)];
    ahead.end = place_of(from + way, lane);
    ahead.straight = from > kSlow || change == 0;
    if (!ahead.straight) ahead.half = place_of(from + way / 2, lane);
  }
  kernel_.look_ahead(plan_, arrays_, changes_.data());
}

double LaneSystem::attempt(double h, const StepMethod& method, const Eigen::VectorXd& x, const Eigen::VectorXd& slope,
                           Eigen::VectorXd& next) {
  for (std::size_t i = 0; i < StepMethod::kStages; ++i)
    if (!method.at_start[i]) put_load(i, time_ + method.time[i] * h);
  const double ahead = kAhead * h;
  if (method.timed) put_load(StepMethod::kStages, time_ + ahead);
  look_ahead(h);
  // A method that needs df/dt needs the exact matrix too.
  const auto fits = [&](const Matrix& m) { return h <= m.longest_step; };
  const Matrix& matrix = method.timed ? matrices_.back() : *std::find_if(matrices_.begin(), matrices_.end(), fits);
  kernel_.assemble(plan_, matrix.plan, arrays_);
  return kernel_.attempt(plan_, matrix.plan, arrays_, method, h, ahead, lane_loads_.data(), x.data(), slope.data(),
                         next.data());
}

Eigen::Map<const Eigen::VectorXd> LaneSystem::matrix() {
  kernel_.assemble(plan_, matrices_.back().plan, arrays_);
  return {arrays_.factor.matrix, (plan_.nodes + factor().entries()) * lanes()};
}

Eigen::Map<Eigen::VectorXd> LaneSystem::derivatives() {
  return {arrays_.coupling, arrays_.loss_rows + plan_.nodes * kLossRows * lanes() - arrays_.coupling};
}

void LaneSystem::local_rates(double h, double ahead, const Eigen::VectorXd& w, Eigen::VectorXd& rates) {
  put_load(0, time_ + ahead);
  look_ahead(h);
  kernel_.rates(plan_, arrays_, lane_loads_.front(), w.data(), rates.data());
}

WorstNode LaneSystem::worst(const StepMethod& method) const {
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
  return {networks_.front()->nodes[at(worst / lanes())].name, worst % lanes(), arrays_.temperature[worst]};
}

}  // namespace hatring::solve
