// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "sim/answer/run.hpp"
#include "sim/answer/share.hpp"
#include "sim/io/read_case.hpp"

using namespace hatring;

namespace {

session::Case snubs(std::vector<std::string> set) {
  set.insert(set.begin(),
             "session=[{snubs: {count: 6, from: 140 km/h, to: 50 km/h, deceleration: 7 m/s2, every: 25 s}}]");
  return io::read_case("configs/demo.yaml", {.set = set, .mesh = session::Mesh::lump}).c;
}

}  // namespace

TEST_CASE("hydraulic share with friction the same everywhere is that of piston areas and radii by hand") {
  const session::Case c =
      snubs({"brakes.front_share=hydraulic", "brakes.front.pads.friction=0.4", "brakes.rear.pads.friction=0.4"});
  const answer::Run run = answer::run(c);
  const auto gain = [](const session::Brake& b) {
    return b.caliper.pistons * b.caliper.piston_diameter * b.caliper.piston_diameter *
           (b.rotor.ring.outer_diameter + b.rotor.ring.swept_inner_diameter);
  };
  const double front = gain(c.brakes.front), rear = gain(c.brakes.rear);
  CHECK(run.answers.brake_balance.law == "hydraulic");
  CHECK(run.answers.brake_balance.runs == 1);                                               // the first guess was right
  CHECK(run.answers.brake_balance.lowest == Approx(front / (front + rear)).epsilon(1e-4));  // sums of heat over rows
  CHECK(run.answers.brake_balance.highest == Approx(front / (front + rear)).epsilon(1e-4));  // sums of heat over rows
}

TEST_CASE("hydraulic share settles, both lines ask for the same pedal force, and front fade moves the bias rearward") {
  const session::Case c =
      snubs({"brakes.front_share=hydraulic",
             "brakes.front.pads.friction={temperature: [20 degC, 60 degC, 250 degC], values: [0.45, "
             "0.45, 0.25]}",
             "brakes.rear.pads.friction=0.42"});
  const answer::Run run = answer::run(c);
  const answer::BrakeBalance& b = run.answers.brake_balance;
  CHECK(b.settled);
  CHECK(b.runs >= 2);
  CHECK(b.runs <= answer::kShareRuns);
  CHECK(b.change < answer::kShareTolerance);
  CHECK(b.lowest < b.highest - 0.01);
  CHECK(run.answers.pedal.corners.back().front.share < run.answers.pedal.corners.front().front.share);
  // A tandem has one pressure: what each axle's heat asks for must agree.
  const auto& front = run.history.front.find("pedal", "pressure")->values;
  const auto& rear = run.history.rear.find("pedal", "pressure")->values;
  int compared = 0;
  for (std::size_t i = 0; i < front.size(); ++i) {
    if (front[i] < 5e5) continue;
    ++compared;
    CHECK(rear[i] == Approx(front[i]).epsilon(0.02));  // a thousandth of the share is half a hundredth of the rear's
  }
  CHECK(compared > 20);
}

TEST_CASE("whatever the share both axles together take the brake heat of the drive") {
  for (const char* law : {"hydraulic", "ideal"}) {
    const answer::Run run = answer::run(snubs(
        {fmt::format("brakes.front_share={}", law), "brakes.hydraulic={valve_pressure: 20 bar, valve_slope: 0.4}"}));
    CHECK(run.answers.brake_balance.law == law);
    const double wheels = 2 * (run.answers.front.balance.friction + run.answers.rear.balance.friction);
    CHECK(wheels == Approx(run.drive.energy().brake).epsilon(1e-4));
  }
}

TEST_CASE("ideal share at a constant deceleration is that of the load transfer") {
  const session::Case c = snubs({"brakes.front_share=ideal"});
  const answer::Run run = answer::run(c);
  const double wanted = c.car.front_mass_fraction + 7 / 9.80665 * c.car.cg_height / c.car.wheelbase;
  CHECK(run.answers.brake_balance.law == "ideal");
  CHECK(run.answers.pedal.corners.front().front.share == Approx(wanted).epsilon(2e-3));
  CHECK(run.answers.brake_balance.rear_excess < 2e-3);
}
