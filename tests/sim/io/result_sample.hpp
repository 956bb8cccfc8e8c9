// SPDX-License-Identifier: MIT
//! \file
//! A small Run filled by hand, whose numbers are easy to check, for the tests of the result file.
#pragma once

#include <cmath>
#include <limits>

#include "sim/answer/run.hpp"
#include "sim/io/result/file.hpp"

namespace hatring::io {

inline ResultMeta sample_meta() {
  return {.program_version = "0.1.0",
          .created = "2020-02-02T02:02:02Z",
          .config = "session:\n  - {park: 10 s}  # 20 °C\n",
          .mesh = "lump"};
}

inline answer::AxleHistory sample_axle(std::string axle, const std::vector<double>& time, double watt) {
  const std::vector<double> nothing(time.size(), std::numeric_limits<double>::quiet_NaN());
  const auto times = [&](double factor) {
    std::vector<double> values;
    for (const double t : time) values.push_back(factor * t);
    return values;
  };
  std::vector<double> warm = times(2);
  for (double& t : warm) t += 293.15;
  return {std::move(axle),
          {{"temperature", "ring_mean", "K", "Mean of the ring", warm},
           {"joint", "differential_expansion", "m", "Ring minus hat", times(1e-5)},
           {"joint", "clearance_outward", "m", "Clearance left", nothing, true},
           {"rate", "ring_mean", "K s-1", "Heating rate", std::vector<double>(time.size(), 2.0)},
           {"heat", "friction", "J", "Friction heat", times(watt)},
           {"heat", "to_ring", "J", "Into the ring", times(0.75 * watt)},
           {"heat", "to_pads", "J", "Into the pads", times(0.25 * watt)},
           {"heat", "stored", "J", "Stored", times(0.5 * watt)},
           {"heat", "convection", "J", "Lost by convection", times(0.25 * watt)},
           {"heat", "radiation", "J", "Lost by radiation", times(0.125 * watt)},
           {"heat", "to_wheel", "J", "Passed on", times(0.125 * watt)},
           {"heat", "residual", "J", "What is left", times(0)}}};
}

//! Parked for ten seconds, told as if it had been a lap; two verdicts; lap rows of which one lacks a temperature.
inline answer::Run sample_run() {
  session::Case c;
  c.car.mass = 1000;
  c.session.push_back(session::ParkStep{10});
  answer::Run run{.drive = session::Drive(c), .front = {}, .rear = {}, .history = {}, .answers = {}};
  answer::History& h = run.history;
  h.time = {0, 2.5, 5, 10};
  h.distance = {0, 25, 50, 100};
  h.speed = {10, 10, 10, 10};
  h.lap = {1, 1, 1, 0};
  h.front = sample_axle("front", h.time, 800);
  h.rear = sample_axle("rear", h.time, 400);
  answer::Verdict over;
  over.axle = "front";
  over.key = "ring_face";
  over.part = "ring face";
  over.what = "peak temperature";
  over.level = answer::Level::exceeded;
  over.value = 1000;
  over.limit = 950;
  over.margin = -50;
  over.unit = "K";
  over.place = {5, 1, "lap 1", 50};
  over.reason = "beyond the iron’s range";
  over.advice = "Open the duct.";
  answer::Verdict within;
  within.axle = "rear";
  within.key = "float";
  within.part = "joint";
  within.what = "float left";
  within.level = answer::Level::within;
  within.value = within.margin = 2e-4;
  within.unit = "m";
  within.place = {10, 0, "parked", 0};
  run.answers.verdicts = {over, within};
  answer::LapRow lap;
  lap.span = {1, "lap 1", session::Phase::driving, 0, 5, 0, 50};
  lap.heat = 4000;
  lap.lowest = {{"ring_mean", 293.15}};
  lap.highest = {{"ring_mean", 303.15}};
  run.answers.front.laps = {lap};
  lap.lowest.clear();
  run.answers.rear.laps = {lap};
  return run;
}

}  // namespace hatring::io
