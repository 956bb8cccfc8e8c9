// SPDX-License-Identifier: MIT
// A session that cannot be driven says where and why.
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/session/drive.hpp"
#include "sim/session/error.hpp"
#include "synthetic_lap.hpp"

using namespace hatring::session;
using namespace hatring::test;
using Catch::Matchers::Contains;

namespace {

Trace good_trace() {
  Trace t;
  t.name = "loop";
  t.time = {0, 10, 14, 20};
  t.speed = {40, 40, 20, 20};
  return t;
}

std::string error_of(const Case& c) {
  try {
    const Drive d(c);
  } catch (const CaseError& e) {
    return e.what();
  }
  return "no error";
}

std::string error_of(Step step) {
  return error_of(with(plain_case(), {good_trace()}, {ParkStep{.duration = 1}, std::move(step)}));
}

std::string error_of(const Trace& t) {
  return error_of(with(plain_case(), {t}, {DriveStep{}}));
}

}  // namespace

TEST_CASE("a good case has no error") {
  CHECK(error_of(good_trace()) == "no error");
}

TEST_CASE("steps that cannot be driven name the session entry") {
  CHECK_THAT(error_of(with(plain_case(), {}, {})), Contains("no entries"));
  CHECK_THAT(error_of(DriveStep{.laps = 0}), Contains("session entry 2") && Contains("1 or more"));
  CHECK_THAT(error_of(DriveStep{.pace = 0}), Contains("session entry 2") && Contains("pace"));
  CHECK_THAT(error_of(DriveStep{.trace = 5}), Contains("session entry 2") && Contains("trace"));
  CHECK_THAT(error_of(ParkStep{}), Contains("session entry 2") && Contains("park"));
  CHECK_THAT(error_of(HoldStep{.duration = 0, .axle = {}}), Contains("hold") && Contains("above 0"));
  CHECK_THAT(error_of(HoldStep{.duration = 1, .speed = -1, .axle = {}}), Contains("speed is -1"));
  CHECK_THAT(error_of(HoldStep{.duration = 1, .heat_from = -5, .axle = {}}), Contains("heat"));
  const SnubStep snub{.count = 3, .from = 30, .to = 10, .deceleration = 4, .every = 30};
  for (const auto& [change, text] : std::vector<std::pair<void (*)(SnubStep&), std::string>>{
           {[](SnubStep& s) { s.count = 0; }, "count"},
           {[](SnubStep& s) { s.to = 30; }, "above `to`"},
           {[](SnubStep& s) { s.deceleration = 0; }, "deceleration"},
           {[](SnubStep& s) { s.every = 5; }, "leaves no time"}}) {
    SnubStep bad = snub;
    change(bad);
    CHECK_THAT(error_of(bad), Contains("session entry 2: snubs") && Contains(text));
  }
}

TEST_CASE("traces that cannot be driven name the trace and the point") {
  Trace t = good_trace();
  t.distance = t.time;
  CHECK_THAT(error_of(t), Contains("trace 'loop'") && Contains("not both"));
  t = good_trace();
  t.speed.pop_back();
  CHECK_THAT(error_of(t), Contains("time has 4 values and speed has 3"));
  t = good_trace();
  t.time[2] = t.time[1];
  CHECK_THAT(error_of(t), Contains("time must rise") && Contains("point 3"));
  t = good_trace();
  t.speed[1] = -3;
  CHECK_THAT(error_of(t), Contains("speed at point 2 is -3"));
  t = good_trace();
  t.brake = {0, 1};
  CHECK_THAT(error_of(t), Contains("brake has 2 values"));
  t = good_trace();
  t.grade = {0, 0, std::nan(""), 0};
  CHECK_THAT(error_of(t), Contains("grade at point 3 is not a number"));
  t = good_trace();
  std::swap(t.time, t.distance);
  t.speed[2] = 0;
  CHECK_THAT(error_of(t), Contains("point 3 is 0") && Contains("distance"));
  t = good_trace();
  t.time = {0};
  t.speed = {10};
  CHECK_THAT(error_of(t), Contains("at least 2 points"));
  t = good_trace();
  t.speed.assign(4, 0);
  CHECK_THAT(error_of(t), Contains("does not move"));
}

TEST_CASE("a car that makes no sense names the key") {
  Case c = with(plain_case(), {good_trace()}, {DriveStep{}});
  c.car.mass = 0;
  CHECK_THAT(error_of(c), Contains("car.mass"));
  c = with(plain_case(), {good_trace()}, {DriveStep{}});
  c.brakes.front_share = 1.2;
  CHECK_THAT(error_of(c), Contains("brakes.front_share = 1.2"));
}

TEST_CASE("a step that was written in a file is named by its place there") {
  CHECK_THAT(error_of(DriveStep{.laps = 0, .note = {.place = "day.yaml:7: session.2.steps.0"}}),
             Catch::Matchers::StartsWith("day.yaml:7: session.2.steps.0: it asks for 0 laps"));
}

TEST_CASE("a red flag outside the lap says how long the lap is") {
  const auto flagged = [](std::optional<double> distance, std::optional<double> time) {
    return error_of(DriveStep{.red_flag = RedFlag{.distance = distance, .time = time, .speed = 10, .deceleration = 3}});
  };
  CHECK_THAT(flagged(9000, {}), Contains("red_flag") && Contains("9000 m") && Contains("m long"));
  CHECK_THAT(flagged({}, 21), Contains("21 s") && Contains("20.0 s"));
  CHECK_THAT(flagged({}, 0), Contains("within the lap"));
}

TEST_CASE("sessions and tracks that are too long to be meant are refused") {
  std::vector<Step> days(20, ParkStep{.duration = 86400});
  CHECK_THAT(error_of(with(plain_case(), {}, days)), Contains("session entry 15") && Contains("14 days"));
  std::vector<Step> laps(600, DriveStep{.laps = 1000});
  CHECK_THAT(error_of(with(plain_case(), {good_trace()}, laps)), Contains("the session"));
}
