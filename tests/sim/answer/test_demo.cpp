// SPDX-License-Identifier: MIT
// What the shipped demo must show to be believable, and that each answer follows the case.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/answer/run.hpp"
#include "tests/sim/answer/demo.hpp"

using namespace hatring;
using test::demo;

namespace {

double celsius(double kelvin) {
  return kelvin - 273.15;
}

const answer::LapRow& lap(const answer::AxleAnswers& a, const std::string& label) {
  return *std::find_if(a.laps.begin(), a.laps.end(), [&](const answer::LapRow& r) { return r.span.label == label; });
}

}  // namespace

TEST_CASE("demo: front ring mean lies between 350 and 650 degC in the last hot lap (common practice, no source)") {
  const answer::Run run = answer::run(demo());
  const answer::LapRow& last = lap(run.answers.front, "lap 9");
  CHECK(celsius(last.lowest.at("ring_mean")) > 350);
  CHECK(celsius(last.highest.at("ring_mean")) < 650);
  // Each lap ends hotter than it began, by less and less: heat stacks up toward a steady band.
  double before = 0, rise_before = 1e9;
  for (int i = 2; i <= 9; ++i) {
    const double top = lap(run.answers.front, "lap " + std::to_string(i)).highest.at("ring_mean");
    if (before > 0) {
      CHECK(top > before);
      CHECK(top - before < rise_before);
      rise_before = top - before;
    }
    before = top;
  }
}

TEST_CASE("demo: the front fluid is hottest after the car has stopped") {
  const answer::Run run = answer::run(demo());
  CHECK(run.answers.front.fluid.after_parking);
  CHECK(run.answers.front.fluid.place.span == "parked");
}

TEST_CASE("demo: ring minus hat growth changes its sign in the parked soak") {
  const answer::Run run = answer::run(demo());
  REQUIRE(run.answers.rear.joint.sign_changes.size() == 1);
  CHECK(run.answers.rear.joint.sign_changes[0].span == "parked");
  CHECK(run.answers.rear.joint.largest > 0);
  CHECK(run.answers.rear.joint.smallest < 0);
}

TEST_CASE("demo: first law, heat in = stored + lost to 1e-6 of it at every moment") {
  const answer::Run run = answer::run(demo());
  for (const answer::AxleHistory* axle : {&run.history.front, &run.history.rear}) {
    const double whole = axle->find("heat", "friction")->values.back();
    CHECK(whole > 1e6);
    for (const double r : axle->find("heat", "residual")->values) REQUIRE(std::abs(r) < 1e-6 * whole);
  }
}

TEST_CASE("heat of both axles is the brake heat of the drive") {
  const answer::Run run = answer::run(demo());
  const double wheels = 2 * (run.answers.front.balance.friction + run.answers.rear.balance.friction);
  CHECK(wheels == Approx(run.drive.energy().brake).epsilon(1e-4));
}

TEST_CASE("a rigid joint has no clearance, a one-piece disc no joint at all") {
  const answer::Run rigid = answer::run(demo());
  CHECK(rigid.history.rear.find("joint", "clearance_outward")->not_applicable);
  CHECK_FALSE(rigid.history.rear.find("joint", "differential_expansion")->not_applicable);

  const answer::Run plain = answer::run(demo({"brakes.front.rotor.joint={kind: one_piece}"}));
  CHECK_FALSE(plain.answers.front.joint.applicable);
  CHECK(plain.history.front.find("temperature", "fastener")->not_applicable);
  CHECK(std::isnan(plain.history.front.find("joint", "differential_expansion")->values.front()));
}

TEST_CASE("a part weighed far off its dimensions is told, and its weight is used") {
  const answer::Run right = answer::run(demo());
  const answer::Run heavy = answer::run(demo({"brakes.front.rotor.ring.mass=9 kg"}));
  const auto mentions = [](const answer::Run& r, const char* what) {
    return std::any_of(r.answers.warnings.begin(), r.answers.warnings.end(),
                       [&](const std::string& w) { return w.find(what) != std::string::npos; });
  };
  CHECK_FALSE(mentions(right, "front ring: weighed"));
  CHECK(mentions(heavy, "front ring: weighed 9.00 kg"));
  CHECK(heavy.answers.front.peaks.at("ring_mean").value < right.answers.front.peaks.at("ring_mean").value);
}
