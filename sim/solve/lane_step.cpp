// SPDX-License-Identifier: MIT
// What a step needs of the state: from heats to temperatures, convection and its changes, and the kernel's turn.
#include <algorithm>
#include <cmath>

#include "sim/solve/lane_system.hpp"

namespace hatring::solve {
namespace {

using network::ConductanceTable;
using Grid = network::ConductanceGrid;

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
  Eigen::VectorXd x = Eigen::VectorXd::Zero(size());
  for (int lane = 0; lane < lanes(); ++lane) {
    const std::vector<double> heat = networks_[at(lane)]->initial_heat();
    for (int i = 0; i < plan_.nodes; ++i) x[i * lanes() + lane] = heat[at(i)];
  }
  return x;
}

void LaneSystem::temperatures_of(const Eigen::VectorXd& x, Eigen::VectorXd& temperature) const {
  for (int k = 0; k < plan_.nodes * lanes(); ++k)
    temperature[k] = content_[at(k)]->temperature(x[k] * inverse_mass_[at(k)]);
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
  put_load(kMoments - 1, t);
  const WheelArrays& s = arrays_;
  for (int k = 0; k < plan_.nodes * lanes(); ++k) {
    const network::HeatContent::Local v = content_[at(k)]->local(x[k] * inverse_mass_[at(k)]);
    s.temperature[k] = v.temperature;
    s.factor.capacity[k] = 1 / (inverse_mass_[at(k)] * v.slope);
    s.bend[k] = v.bend;
    s.resistivity[k] = v.resistivity;
    s.resistivity_slope[k] = v.resistivity_slope;
  }
  std::fill(moments_.back().progress.begin(), moments_.back().progress.end(), 0.0);
  cool();
  kernel_.expand(plan_, arrays_);
}

// Every cooled surface of a lane with its table's curve at a speed and its place on it: take(slot, curve, place). Many
// in a row lie in one interval of one table, whose curve is found but once.
template <class Take>
void LaneSystem::with_curves(double speed, int lane, const Take& take) const {
  const network::SpeedWeights weights = networks_[at(lane)]->grid.locate(speed);
  const ConductanceTable* table = nullptr;
  int interval = -1;
  ConductanceTable::Curve curve;
  for (int k = 0; k < static_cast<int>(cooled_.size()); ++k) {
    const std::size_t here = slot(k, lane);
    const int j = std::min(static_cast<int>(place_[here]), Grid::kDifferences - 2);
    if (tables_[here] != table || j != interval) {
      table = tables_[here];
      interval = j;
      curve = table->at_speed(weights, interval);
    }
    take(here, curve, ConductanceTable::Place{j, place_[here] - j, root_[here]});
  }
}

// Members of the flows to outside and of the exchanges, summed over the surfaces: add(flows, item and lane, slot).
template <class Add>
void LaneSystem::gather_flows(std::initializer_list<double * LaneFlow::*> members, const Add& add) {
  const WheelArrays& s = arrays_;
  const int width = lanes();
  for (const auto member : members) {
    std::fill_n(s.outside.*member, plan_.nodes * width, 0.0);
    std::fill_n(s.exchange.*member, plan_.exchanges * width, 0.0);
  }
  for (int k = 0; k < static_cast<int>(cooled_.size()); ++k) {
    const Cooled& c = cooled_[at(k)];
    const LaneFlow& to = c.exchange < 0 ? s.outside : s.exchange;
    const int item = (c.exchange < 0 ? c.node : c.exchange) * width;
    for (int lane = 0; lane < width; ++lane) add(to, item + lane, slot(k, lane));
  }
}

// Convection at the temperatures and speeds of the moment. What is alike for all is done first, in sweeps.
void LaneSystem::cool() {
  const WheelArrays& s = arrays_;
  const int width = lanes();
  for (int k = 0; k < static_cast<int>(cooled_.size()); ++k) {
    const Cooled& c = cooled_[at(k)];
    const double* air = c.exchange < 0 ? s.ambient : s.temperature + exchanges_[at(c.exchange)].b * width;
    for (int lane = 0; lane < width; ++lane) difference_[slot(k, lane)] = s.temperature[slot(c.node, lane)] - air[lane];
  }
  for (std::size_t k = 0; k < difference_.size(); ++k) {
    root_[k] = std::sqrt(std::abs(difference_[k]));
    place_[k] = Grid::inside(Grid::position(difference_[k], root_[k]), Grid::kDifferences - 1);
  }
  for (int lane = 0; lane < width; ++lane)
    with_curves(moments_.back().speed[at(lane)], lane, [this](std::size_t here, const auto& curve, const auto& place) {
      const double g = curve(place), over = difference_[here], scale = cooled_scale_[here];
      conductance_[here] = g * scale;
      curvature_[here] = (curve.slope(place) + 0.5 * curve.bend(place, over) * over) * scale;
      // Flow against difference is monotone; a floor keeps the matrix positive where the table's slope is not.
      slope_[here] = std::max(g + curve.slope(place) * over, 0.1 * g) * scale;
    });
  gather_flows({&LaneFlow::flow, &LaneFlow::slope, &LaneFlow::curvature},
               [this](const LaneFlow& to, int item, std::size_t here) {
                 to.flow[item] += conductance_[here] * difference_[here];
                 to.slope[item] += slope_[here];
                 to.curvature[item] += curvature_[here];
               });
}

// Conductance of one lane's surfaces at another speed, over that at the moment, less 1.
void LaneSystem::change_with_speed(double speed, int lane, std::vector<double>& part) const {
  with_curves(speed, lane, [&](std::size_t here, const auto& curve, const auto& place) {
    part[here] = conductance_[here] > 0 ? curve(place) * cooled_scale_[here] / conductance_[here] - 1 : 0;
  });
}

// How convection changes up to the speed at the end of a step of length h: the slope of a flow over temperature by the
// same part as the flow. Near standstill, where coefficients bend, by way of the speed half way.
void LaneSystem::look_ahead(double h) {
  const int width = lanes();
  for (int lane = 0; lane < width; ++lane) {
    const double from = moments_.back().speed[at(lane)], change = load_at(time_ + h, lane).speed - from;
    const double way = std::abs(change) < kLeastSpeedChange ? kLeastSpeedChange : change;
    for (LoadArrays& m : moments_) m.progress[at(lane)] = (m.speed[at(lane)] - from) / way;
    change_with_speed(from + way, lane, part_);
    if (from > kSlow || change == 0)
      for (std::size_t k = at(lane); k < part_.size(); k += at(width)) half_part_[k] = part_[k] / 2;
    else
      change_with_speed(from + way / 2, lane, half_part_);
  }
  gather_flows({&LaneFlow::flow_by_speed, &LaneFlow::slope_by_speed, &LaneFlow::bend_by_speed},
               [this](const LaneFlow& to, int item, std::size_t here) {
                 const double flow = conductance_[here] * difference_[here];
                 to.flow_by_speed[item] += part_[here] * flow;
                 to.slope_by_speed[item] += part_[here] * slope_[here];
                 to.bend_by_speed[item] += (2 * part_[here] - 4 * half_part_[here]) * flow;
               });
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
