// SPDX-License-Identifier: MIT
// Solves one wheel and turns the solver's states into named columns.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>

#include "sim/answer/joint_load_recorder.hpp"
#include "sim/answer/joint_recorder.hpp"
#include "sim/answer/recorders.hpp"
#include "sim/answer/ring_stress_recorder.hpp"
#include "sim/answer/run.hpp"
#include "sim/solve/integrate.hpp"

namespace hatring::answer {
namespace {

using network::NodeId;
using solve::WheelSystem;

// Mean slope over a window: the instantaneous rate of a thin cell depends on the mesh and means nothing.
std::vector<double> windowed_rate(const std::vector<double>& time, const std::vector<double>& value, double window) {
  std::vector<double> out(time.size(), 0);
  std::size_t lo = 0, hi = 0;
  const auto sample = [&](double t, std::size_t& hint) {
    while (hint + 2 < time.size() && time[hint + 1] < t) ++hint;
    const double w = (t - time[hint]) / (time[hint + 1] - time[hint]);
    return value[hint] + w * (value[hint + 1] - value[hint]);
  };
  if (time.size() < 2) return out;
  for (std::size_t i = 0; i < time.size(); ++i) {
    const double a = std::max(time[i] - window / 2, time.front()), b = std::min(time[i] + window / 2, time.back());
    if (b > a) out[i] = (sample(b, hi) - sample(a, lo)) / (b - a);
  }
  return out;
}

// Takes the solver's state apart for the recorders.
class Observer {
 public:
  explicit Observer(const WheelSystem& system)
      : system_(system),
        net_(system.network()),
        node_(net_.size()),
        part_(net_.probes.size(), std::numeric_limits<double>::quiet_NaN()),
        pads_{net_.find("pad.outboard.layer1"), net_.find("pad.inboard.layer1")} {}

  [[nodiscard]] Snapshot observe(double time, const Eigen::VectorXd& state) {
    node_ = state.tail(node_.size());
    for (std::size_t i = 0; i < part_.size(); ++i) {
      if (net_.probes[i].weights.empty()) continue;
      part_[i] = 0;
      for (const auto& [node, weight] : net_.probes[i].weights) part_[i] += weight * node_[node];
    }
    Snapshot now{.time = time, .state = state, .node = node_, .load = system_.load_at(time), .part = part_};
    double area[2] = {0, 0};
    for (std::size_t f = 0; f < net_.faces.size(); ++f) {
      const std::size_t side = net_.faces[f].inboard ? 1 : 0;
      now.face[side] += net_.faces[f].area * system_.face_temperature(f, node_, now.load);
      area[side] += net_.faces[f].area;
    }
    for (const std::size_t side : {0U, 1U}) {
      now.face[side] /= area[side];
      now.pad[side] = system_.pad_surface_temperature(pads_[side], node_, now.load);
    }
    return now;
  }

 private:
  const WheelSystem& system_;
  const network::Network& net_;
  Eigen::VectorXd node_;
  std::vector<double> part_;
  NodeId pads_[2];
};

// The restarts of a part of the session, its ends among them.
std::vector<double> restarts_within(const std::vector<double>& restarts, double begin, double end) {
  constexpr double kClose = 1e-3;  // as in Drive: closer ones are one [s]
  std::vector<double> out{begin};
  for (const double t : restarts)
    if (t > begin + kClose && t < end - kClose) out.push_back(t);
  out.push_back(end);
  return out;
}

}  // namespace

void add_rates(const session::Case& c, const std::vector<double>& times, std::vector<Column>& columns) {
  std::erase_if(columns, [](const Column& column) { return column.group == "rate"; });
  const auto rate = [&](std::string name, std::string unit, std::string long_name, std::string_view group,
                        std::string_view source) {
    const auto of = std::find_if(columns.begin(), columns.end(),
                                 [&](const Column& x) { return x.group == group && x.name == source; });
    columns.push_back({"rate", std::move(name), std::move(unit), std::move(long_name),
                       of->not_applicable ? of->values : windowed_rate(times, of->values, c.limits.rate_window),
                       of->not_applicable});
  };
  rate("ring_face", "K s-1", "Heating rate of the outboard friction face over the rate window", "temperature",
       "ring_face_outboard");
  rate("ring_mean", "K s-1", "Heating rate of the ring's mean over the rate window", "temperature", "ring_mean");
  rate("hat_flange", "K s-1", "Heating rate of the hat flange over the rate window", "temperature", "hat_flange");
  rate("differential_expansion", "m s-1", "Rate of the differential expansion over the rate window", "joint",
       "differential_expansion");
}

AxleHistory record_axle(const session::Case& c, const session::Drive& drive, session::Axle axle,
                        const network::Network& net, const std::vector<double>& times, const RunOptions& options,
                        SolverWork& work, Passage* passage) {
  const auto started = std::chrono::steady_clock::now();
  std::size_t piece = 0;
  const auto load = [&](double t) {
    const session::Moment m = drive.at(t, piece);
    return solve::Load{m.speed, drive.wheel_heat(axle, t, m), m.applied};
  };
  WheelSystem system(net, load);
  Eigen::VectorXd x = system.initial_state();
  const AxleState* start = passage != nullptr ? passage->start : nullptr;
  if (start != nullptr) x.head(net.size()) = start->heat;

  Columns columns(times.size());
  TemperatureRecorder temperatures(net, columns);
  JointRecorder joint(c, axle, net, columns);
  JointLoadRecorder loads(c, axle, net, columns);
  RingStressRecorder stresses(c, axle, net, columns);
  PedalRecorder pedal(c, axle, columns);
  HeatRecorder heat(net, x, columns);
  if (start != nullptr) {
    loads.remember(start->joint);
    stresses.remember(start->ring);
  }
  Observer observer(system);
  const auto observe = [&](double time, const Eigen::VectorXd& state) {
    const Snapshot now = observer.observe(time, state);
    temperatures.observe(now);
    loads.observe(now, joint.observe(now));
    stresses.observe(now);
    pedal.observe(now);
    heat.observe(now);
    if (passage == nullptr) return;
    const std::size_t next = passage->kept.size();
    if (next < passage->marks.size() && time >= passage->marks[next])
      passage->kept.push_back({state.head(net.size()), stresses.memory(), loads.memory()});
  };

  solve::StepOptions step = options.step;
  step.tolerance.reference = net.ambient;
  const solve::StepCounts counts =
      solve::integrate(system, restarts_within(drive.restarts(), times.front(), times.back()), times, x, step,
                       *options.tableau, observe);

  add_rates(c, times, columns.list);
  work = {counts.steps, counts.rejected, counts.rates, counts.factorisations,
          std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count()};
  return {axle == session::Axle::front ? "front" : "rear", std::move(columns.list)};
}

}  // namespace hatring::answer
