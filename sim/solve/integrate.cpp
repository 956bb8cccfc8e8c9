// SPDX-License-Identifier: MIT
#include "sim/solve/integrate.hpp"

#include <boost/numeric/odeint/integrate/integrate_times.hpp>

#include <algorithm>
#include <array>
#include <stdexcept>

namespace hatring::solve {
namespace {

// Stretches of one kind start alike, so what the first step of the last one showed to be right is tried in the next: by
// where the pads stood (off, moving, on) at the begin of the stretch before, and stand at begin and end of this one,
// and whether the car does.
constexpr std::size_t kKinds = 54;

std::size_t kind_of(const Load& before, const Load& begin, const Load& end) {
  const auto pads = [](const Load& load) { return load.applied < 0.001 ? 0U : load.applied > 0.999 ? 2U : 1U; };
  return (9 * pads(before) + 3 * pads(begin) + pads(end)) * 2 + (begin.speed > 0 || end.speed > 0 ? 1U : 0U);
}

}  // namespace

template <class Real>
StepCounts integrate(LaneSystem<Real>& system, const std::vector<double>& restarts, const std::vector<double>& outputs,
                     Eigen::VectorXd& state, const StepOptions& options, const Tableau& tableau,
                     const Observer<Real>& observe) {
  if (restarts.empty() || state.size() != (system.nodes() + kIntegrals) * system.lanes())
    throw std::invalid_argument("integrate: no restart, or a state of another system");
  WheelStepper<Real> stepper(system, tableau, options);
  stepper.start(system, state, restarts.front());
  auto here = stepper.current_state();
  system.renew();  // so that a run does not depend on the one before
  std::array<double, kKinds> first_step;
  first_step.fill(0.01);
  auto next = outputs.begin();
  std::vector<double> times;
  Load before;
  for (std::size_t i = 0; i + 1 < restarts.size(); ++i) {
    const double begin = restarts[i], end = restarts[i + 1];
    if (!(end > begin)) continue;
    system.set_window(begin, end);
    times.assign(1, begin);
    while (next != outputs.end() && *next <= begin) {
      observe(*next, here);
      ++next;
    }
    while (next != outputs.end() && *next < end) times.push_back(*next++);
    times.push_back(end);

    const Load at_begin = system.load_at(begin), at_end = system.load_at(end);
    double& guess = first_step[kind_of(before, at_begin, at_end)];
    before = at_begin;
    stepper.restart(begin);
    stepper.aim(end);
    std::size_t seen = 0;
    const auto record = [&](const auto& at, double t) {
      if (seen > 0 && seen + 1 < times.size()) observe(t, at);
      ++seen;
    };
    boost::numeric::odeint::integrate_times(std::ref(stepper), std::ref(system), here, times.begin(), times.end(),
                                            std::min(guess, end - begin), record);
    if (stepper.first_proposal() > 0) guess = stepper.first_proposal();
  }
  for (; next != outputs.end(); ++next) observe(*next, here);
  state = Eigen::VectorXd(here).head(state.size());
  return stepper.counts();
}

template StepCounts integrate(LaneSystem<double>&, const std::vector<double>&, const std::vector<double>&,
                              Eigen::VectorXd&, const StepOptions&, const Tableau&, const Observer<double>&);
template StepCounts integrate(LaneSystem<float>&, const std::vector<double>&, const std::vector<double>&,
                              Eigen::VectorXd&, const StepOptions&, const Tableau&, const Observer<float>&);

}  // namespace hatring::solve
