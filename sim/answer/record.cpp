// SPDX-License-Identifier: MIT
// Solves wheels side by side and turns the solver's states into named columns.
#include <algorithm>
#include <chrono>
#include <deque>
#include <stdexcept>

#include "sim/answer/axle_recorder.hpp"
#include "sim/answer/wheel_lanes.hpp"
#include "sim/solve/integrate.hpp"

namespace hatring::answer {
namespace {

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

// Where the first of the wheels restarts, each time: the loads of the others bend a moment later, within the short
// steps that follow.
std::vector<double> first_restarts(const std::vector<Wheel>& wheels) {
  std::vector<double> out = wheels.front().drive.restarts();
  for (const Wheel& wheel : wheels)
    std::ranges::transform(out, wheel.drive.restarts(), out.begin(), [](double a, double b) { return std::min(a, b); });
  return out;
}

// The restarts of a part of the session, its ends among them.
std::vector<double> restarts_within(const std::vector<double>& restarts, double begin, double end) {
  constexpr double kClose = 1e-3;  // as in Drive: closer ones are one [s]
  std::vector<double> out{begin};
  for (const double t : restarts)
    if (t > begin + kClose && t < end - kClose) out.push_back(t);
  out.push_back(end);
  return out;
}

// Tolerance below which the single precision of lanes would show [K]; and wheels from which on they are quicker than
// one wheel after the other: a lane that is left empty costs as much as a full one.
constexpr double kFinestInLanes = 1e-3;
constexpr int kWorthLanes = 3;

// Far more than any lane needs that is not itself a bad case; one that is must not hold up its neighbours for long.
long most_steps_together(const std::vector<double>& times, const std::vector<double>& restarts) {
  return static_cast<long>(10 * restarts.size() + 2 * times.size() + 1000);
}

template <class Real>
std::vector<AxleHistory> record_with(const solve::WheelKernel<Real>& kernel, session::Axle axle,
                                     const std::vector<Wheel>& wheels, const std::vector<double>& times,
                                     const RunOptions& options, SolverWork& work) {
  const auto started = std::chrono::steady_clock::now();
  WheelLanes<Real> lanes(axle, wheels, kernel);
  Eigen::VectorXd x = lanes.start();
  std::deque<AxleRecorder> recorders;  // they stay where they are made
  for (std::size_t i = 0; i < wheels.size(); ++i)
    recorders.emplace_back(wheels[i], axle, lanes.solved(i), lanes.symmetry(), times.size());
  const auto work_up = [&] {
    lanes.hand_over([&](std::size_t i, Moments& moments) { recorders[i].observe(moments); });
  };
  const auto observe = [&](double time, const solve::DenseState<typename WheelLanes<Real>::Vector>& at) {
    lanes.keep(time, at);
    const bool due = std::ranges::any_of(recorders, [&](const AxleRecorder& r) { return r.due(time); });
    if (due || lanes.full()) work_up();
    if (!due) return;
    const Eigen::VectorXd all = at;
    for (std::size_t i = 0; i < recorders.size(); ++i)
      if (recorders[i].due(time)) recorders[i].keep(lanes.state(all, i));
  };

  solve::StepOptions step = options.step;
  step.tolerance.reference = wheels.front().network.ambient;
  const std::vector<double> restarts = restarts_within(first_restarts(wheels), times.front(), times.back());
  if (wheels.size() > 1) step.most_steps = std::min(step.most_steps, most_steps_together(times, restarts));
  const solve::StepCounts counts =
      solve::integrate(lanes.system(), restarts, times, x, step, *options.tableau, observe);
  work_up();

  std::vector<AxleHistory> out;
  out.reserve(wheels.size());
  for (AxleRecorder& recorder : recorders) out.push_back(recorder.finish(times));
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - started;
  work = {counts.steps, counts.rejected, counts.rates, counts.factorisations,
          took.count() / static_cast<double>(wheels.size())};
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

std::size_t side_by_side(std::size_t wheels, const RunOptions& options) {
  const auto most = static_cast<int>(std::min(wheels, static_cast<std::size_t>(std::max(options.lanes, 1))));
  const solve::WheelKernel<float>* kernel = solve::lanes_kernel(most);
  if (most < kWorthLanes || kernel == nullptr) return 1;
  if (options.tableau->step.timed || options.step.tolerance.absolute < kFinestInLanes) return 1;
  return static_cast<std::size_t>(std::min(most, kernel->lanes));
}

std::vector<AxleHistory> record_axles(session::Axle axle, const std::vector<Wheel>& wheels,
                                      const std::vector<double>& times, const RunOptions& options, SolverWork& work) {
  if (wheels.size() == 1) return record_with(solve::single_kernel(), axle, wheels, times, options, work);
  const solve::WheelKernel<float>* kernel = solve::lanes_kernel(static_cast<int>(wheels.size()));
  if (kernel == nullptr || wheels.size() > static_cast<std::size_t>(kernel->lanes))
    throw std::invalid_argument("record: more wheels than go side by side");
  return record_with(*kernel, axle, wheels, times, options, work);
}

}  // namespace hatring::answer
