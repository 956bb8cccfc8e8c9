// SPDX-License-Identifier: MIT
#include "sim/session/lap_speed.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/session/error.hpp"
#include "sim/session/road.hpp"
#include "sim/session/speed_passes.hpp"

namespace hatring::session {
namespace {

constexpr double kFastest = 150;  // no car that this is for goes faster [m/s]

// Load on the driven wheels at rest, as a share of the weight, and its gain by acceleration.
void put_driven(const Car& car, models::PointMass& out) {
  const double transfer = car.cg_height / car.wheelbase;
  switch (car.driven) {
    case Driven::front:
      out.driven_load = car.front_mass_fraction;
      out.load_gain = -transfer;
      break;
    case Driven::rear:
      out.driven_load = 1 - car.front_mass_fraction;
      out.load_gain = transfer;
      break;
    case Driven::all:
      break;
  }
}

}  // namespace

models::PointMass point_mass_of(const Case& c, const Effort& effort) {
  const Car& car = c.car;
  if (car.power <= 0) throw CaseError("car.power: missing; a lap needs the power of the engine");
  if (car.grip <= 0) throw CaseError("car.grip: missing; a lap needs the grip of the tyres");
  if (effort.pace <= 0 || effort.pace > 1)
    throw CaseError(fmt::format("pace is {:g}; it must be above 0 and no more than 1", effort.pace));
  if (effort.grip <= 0) throw CaseError(fmt::format("grip factor is {:g}; it must be above 0", effort.grip));
  models::PointMass out{.load = road_of(c).load,
                        .grip = car.grip * effort.grip * effort.pace,
                        .lift_area = car.lift_area,
                        .power = car.power * car.drive_efficiency * effort.pace,
                        .gear_tops = car.gear_tops,
                        .full_power_from = car.full_power_from,
                        .braking_share = car.braking_share};
  put_driven(car, out);
  return out;
}

LapSpeed lap_speed(const models::PointMass& car, const Track& track, double step) {
  if (track.stretches.empty() || !(track.length() > 1))
    throw CaseError(fmt::format("track '{}' has no length", track.name));
  if (track.length() > kLongestTrack)
    throw CaseError(fmt::format("track '{}' is {:.0f} km long, expected no more than {:.0f} km; check the units",
                                track.name, track.length() / 1e3, kLongestTrack / 1e3));
  const double rev_limit = car.gear_tops.empty() ? kFastest : std::min(kFastest, car.gear_tops.back());
  std::vector<models::RoadPlace> cells;
  SpeedBounds bounds{.distance = {0}, .ceiling = {}, .gain = {}, .loss = {}, .closed = track.closed};
  double begin = 0;
  for (const Stretch& s : track.stretches) {
    const int parts = std::max(1, static_cast<int>(std::ceil(s.length / step)));
    for (int i = 1; i <= parts; ++i) bounds.distance.push_back(begin + s.length * i / parts);
    cells.insert(cells.end(), static_cast<std::size_t>(parts), {s.curvature, s.grade, s.grip});
    begin = bounds.distance.back();
  }
  const auto neighbours = [&](std::size_t node) {
    const std::size_t n = cells.size();
    const std::size_t before = node > 0 ? node - 1 : track.closed ? n - 1 : 0;
    const std::size_t after = node < n ? node : track.closed ? 0 : n - 1;
    return std::pair<const models::RoadPlace&, const models::RoadPlace&>(cells[before], cells[after]);
  };
  for (std::size_t i = 0; i < bounds.distance.size(); ++i) {
    const auto& [before, after] = neighbours(i);
    bounds.ceiling.push_back(
        std::min({rev_limit, models::corner_speed(car, before), models::corner_speed(car, after)}));
  }
  if (!track.closed) bounds.ceiling[0] = 0;
  bounds.gain = [&](std::size_t cell, double v) { return models::full_throttle(car, cells[cell], v); };
  bounds.loss = [&](std::size_t cell, double v) { return models::full_braking(car, cells[cell], v); };
  LapSpeed lap;
  lap.speed = fastest(bounds);
  lap.time = time_along(bounds.distance, lap.speed);
  if (std::any_of(cells.begin(), cells.end(), [](const models::RoadPlace& p) { return p.grade != 0; }))
    for (std::size_t i = 0; i < bounds.distance.size(); ++i) {
      const auto& [before, after] = neighbours(i);
      lap.grade.push_back((before.grade + after.grade) / 2);
    }
  lap.distance = std::move(bounds.distance);
  return lap;
}

Trace trace_of(const LapSpeed& lap, std::string name) {
  Trace t;
  t.name = std::move(name);
  t.distance = lap.distance;
  t.speed = lap.speed;
  t.grade = lap.grade;
  return t;
}

}  // namespace hatring::session
