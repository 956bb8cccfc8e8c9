// SPDX-License-Identifier: MIT
#include "sim/answer/leg.hpp"

#include <algorithm>

#include "sim/answer/pedal.hpp"
#include "sim/network/assemble.hpp"

namespace hatring::answer {
namespace {

// The recorded times of a part, its ends and marks among them.
std::vector<double> times_within(const session::Case& c, const session::Drive& drive, double begin, double end,
                                 const std::vector<double>& marks) {
  constexpr double kSame = 1e-9;  // round-off of a session's clock [s]
  std::vector<double> out{begin};
  for (const double t : record_times(c, drive))
    if (t > begin + kSame && t < end - kSame) out.push_back(t);
  out.push_back(end);
  out.insert(out.end(), marks.begin(), marks.end());
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

void append(AxleHistory& whole, const AxleHistory& part) {
  for (std::size_t i = 0; i < whole.columns.size(); ++i) {
    std::vector<double>& to = whole.columns[i].values;
    const std::vector<double>& from = part.columns[i].values;
    const double base = whole.columns[i].group == "heat" ? to.back() : 0;
    for (std::size_t k = 1; k < from.size(); ++k) to.push_back(base + from[k]);
  }
}

}  // namespace

Wheels assemble_wheels(const session::Case& c, double highest_speed, const RunOptions& options) {
  Wheels out;
  options.together({[&] { out.front = network::assemble(c, session::Axle::front, highest_speed); },
                    [&] { out.rear = network::assemble(c, session::Axle::rear, highest_speed); }});
  return out;
}

session::Case in_air(session::Case c, const session::Air& air) {
  c.air = air;
  return c;
}

std::vector<AxleHistory> record_wheels(session::Axle axle, const std::vector<Wheel>& wheels,
                                       const std::vector<double>& speeds, const std::vector<double>& times,
                                       const RunOptions& options, SolverWork& work) {
  const session::Drive& drive = wheels.front().drive;
  const std::vector<session::AirSpell>& airs = drive.airs();
  std::vector<AxleHistory> whole;
  std::vector<AxleState> states(wheels.size());
  for (std::size_t k = 0; k < airs.size(); ++k) {
    const double begin = airs[k].begin, end = k + 1 < airs.size() ? airs[k + 1].begin : drive.duration();
    const std::vector<double> part_times(std::lower_bound(times.begin(), times.end(), begin),
                                         std::upper_bound(times.begin(), times.end(), end));
    std::vector<network::Network> networks;
    std::vector<Passage> passages;
    std::vector<Wheel> now;
    for (std::size_t i = 0; i < wheels.size(); ++i) {
      const Wheel& wheel = wheels[i];
      if (k > 0) networks.push_back(network::assemble(in_air(wheel.c, wheel.drive.airs()[k].air), axle, speeds[i]));
      passages.push_back({.start = k > 0 ? &states[i] : nullptr, .marks = {end}});
    }
    for (std::size_t i = 0; i < wheels.size(); ++i)
      now.push_back({wheels[i].c, wheels[i].drive, k > 0 ? networks[i] : wheels[i].network, &passages[i]});
    SolverWork part_work;
    std::vector<AxleHistory> part = record_axles(axle, now, part_times, options, part_work);
    work += part_work;
    for (std::size_t i = 0; i < wheels.size(); ++i) {
      states[i] = std::move(passages[i].kept.front());
      if (k > 0) append(whole[i], part[i]);
    }
    if (k == 0) whole = std::move(part);
  }
  if (airs.size() > 1)
    for (std::size_t i = 0; i < wheels.size(); ++i) add_rates(wheels[i].c, times, whole[i].columns);
  return whole;
}

Leg record_leg(const session::Case& c, const session::Drive& drive, const Wheels& wheels, double begin, double end,
               const Checkpoint* start, std::vector<double> marks, const RunOptions& options) {
  Leg leg;
  History& h = leg.history;
  h.time = times_within(c, drive, begin, end, marks);
  fill_course(drive, h);
  if (marks.empty() || marks.back() < end) marks.push_back(end);
  Passage front{.start = start != nullptr ? &start->front : nullptr, .marks = marks};
  Passage rear{.start = start != nullptr ? &start->rear : nullptr, .marks = marks};
  h.front = std::move(
      record_axles(session::Axle::front, {{c, drive, wheels.front, &front}}, h.time, options, h.front_work).front());
  h.rear = std::move(
      record_axles(session::Axle::rear, {{c, drive, wheels.rear, &rear}}, h.time, options, h.rear_work).front());
  add_effort(c, h);
  for (std::size_t i = 0; i < marks.size(); ++i)
    leg.kept.push_back({marks[i], std::move(front.kept[i]), std::move(rear.kept[i])});
  return leg;
}

History up_to(History whole, double time) {
  const auto rows =
      static_cast<std::size_t>(std::upper_bound(whole.time.begin(), whole.time.end(), time) - whole.time.begin());
  whole.time.resize(rows);
  whole.distance.resize(rows);
  whole.speed.resize(rows);
  whole.lap.resize(rows);
  for (AxleHistory* axle : {&whole.front, &whole.rear})
    for (Column& column : axle->columns) column.values.resize(rows);
  return whole;
}

void append(const session::Case& c, History& whole, const History& part) {
  const auto tail = [](auto& to, const auto& from) { to.insert(to.end(), from.begin() + 1, from.end()); };
  tail(whole.time, part.time);
  tail(whole.distance, part.distance);
  tail(whole.speed, part.speed);
  tail(whole.lap, part.lap);
  for (const auto& [to, from] : {std::pair{&whole.front, &part.front}, std::pair{&whole.rear, &part.rear}}) {
    append(*to, *from);
    add_rates(c, whole.time, to->columns);
  }
}

}  // namespace hatring::answer
