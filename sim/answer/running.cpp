// SPDX-License-Identifier: MIT
#include "sim/answer/running.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "sim/answer/leg.hpp"
#include "sim/answer/pedal.hpp"

namespace hatring::answer {
namespace {

// As many moments, each at most that far apart [s].
bool about_the_same(const std::vector<double>& a, const std::vector<double>& b, double apart) {
  return std::ranges::equal(a, b, [apart](double s, double t) { return std::abs(s - t) <= apart; });
}

}  // namespace

Running::Running(const session::Case& c, const RunOptions& options)
    : case_(c),
      run_{.drive = session::Drive(c), .front = {}, .rear = {}, .history = {}, .answers = {}},
      speed_(highest_speed(run_.drive)),
      share_(c, run_.drive) {
  Wheels wheels = assemble_wheels(in_air(c, run_.drive.airs().front().air), speed_, options);
  run_.front = std::move(wheels.front);
  run_.rear = std::move(wheels.rear);
  run_.history.time = record_times(c, run_.drive);
  fill_course(run_.drive, run_.history);
}

Running::Running(const session::Case& c, const Running& other, double convection)
    : case_(c), run_(other.run_), speed_(other.speed_), share_(c, run_.drive) {
  for (network::Network* net : {&run_.front, &run_.rear})
    for (network::Surface& s : net->surfaces) s.scale *= convection;
}

bool Running::alike(const Running& other) const {
  const session::Drive &a = run_.drive, &b = other.run_.drive;
  const auto begin = [](const session::AirSpell& spell) { return spell.begin; };
  // Brakings of a lighter car on the same trace begin and end a moment apart: no farther than the steps that follow are
  // long. What the fit of the trace makes of its length is less than a row's worth.
  constexpr double kBraking = 0.005, kRow = 1e-4;
  return about_the_same(a.restarts(), b.restarts(), kBraking) &&
         about_the_same(run_.history.time, other.run_.history.time, kRow) &&
         std::ranges::equal(a.airs(), b.airs(), {}, begin, begin) && solve::alike(run_.front, other.run_.front) &&
         solve::alike(run_.rear, other.run_.rear);
}

Run Running::finish() {
  add_effort(case_, run_.history);
  run_.answers = answer(case_, run_.drive, run_.history, share_.balance());
  for (auto [answers, network] :
       {std::pair{&run_.answers.front, &run_.front}, std::pair{&run_.answers.rear, &run_.rear}}) {
    answers->ring_mass = network->ring_mass;
    answers->hat_mass = network->hat_mass;
    answers->corner_mass = network->corner_mass;
    answers->rotating_mass = network->rotating_mass;
    answers->rotating_inertia = network->rotating_inertia;
    run_.answers.warnings.insert(run_.answers.warnings.end(), network->remarks.begin(), network->remarks.end());
  }
  return std::move(run_);
}

void record(const std::vector<Running*>& runs, const RunOptions& options) {
  std::vector<double> speeds;
  speeds.reserve(runs.size());
  for (const Running* r : runs) speeds.push_back(r->speed_);
  const std::vector<double>& times = runs.front()->run_.history.time;
  const auto record_axle = [&](session::Axle axle) {
    const bool front = axle == session::Axle::front;
    std::vector<Wheel> wheels;
    wheels.reserve(runs.size());
    for (const Running* r : runs) wheels.push_back({r->case_, r->run_.drive, front ? r->run_.front : r->run_.rear});
    SolverWork work;
    std::vector<AxleHistory> histories = record_wheels(axle, wheels, speeds, times, options, work);
    for (std::size_t i = 0; i < runs.size(); ++i) {
      History& h = runs[i]->run_.history;
      (front ? h.front : h.rear) = std::move(histories[i]);
      (front ? h.front_work : h.rear_work) = work;
    }
  };
  options.together({[&] { record_axle(session::Axle::front); }, [&] { record_axle(session::Axle::rear); }});
}

}  // namespace hatring::answer
