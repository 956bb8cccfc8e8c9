// SPDX-License-Identifier: MIT
// Steps that repeat, and how laps say how hard they are driven.
#include <fmt/format.h>

#include <algorithm>
#include <variant>

#include "sample.hpp"

using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::Contains;
namespace session = hatring::session;

namespace {

const std::string kTrace = "{time: {unit: s, values: [0, 10, 20]}, speed: {unit: km/h, values: [90, 50, 90]}}";

std::string with_steps(const std::string& steps) {
  return kSample.substr(0, kSample.find("session:")) + "session:\n" + steps;
}

std::vector<session::Step> steps_of(const std::string& steps) {
  return read_case_text(with_steps(steps), "session.yaml").c.session;
}

const session::DriveStep& lap(const std::vector<session::Step>& steps, std::size_t i) {
  return std::get<session::DriveStep>(steps.at(i));
}

}  // namespace

TEST_CASE("repeated steps are written out in order and may nest") {
  const auto steps = steps_of(
      "  - {park: 1 min}\n  - repeat: 2\n    steps:\n      - {park: 2 min}\n      - repeat: 3\n"
      "        steps: [{park: 3 min}]\n  - {park: 4 min}\n");
  std::vector<double> minutes;
  for (const auto& s : steps) minutes.push_back(std::get<session::ParkStep>(s).duration / 60);
  CHECK(minutes == std::vector<double>{1, 2, 3, 3, 3, 2, 3, 3, 3, 4});
}

TEST_CASE("a resolved session with repetitions reads back the same") {
  const ReadResult read = read_case_text(
      with_steps("  - repeat: 3\n    steps: [{laps: 1, trace: " + kTrace + ", driver_pace: 0.8}, {park: 2 min}]\n"),
      "session.yaml");
  CHECK(read_case_text(read.resolved_yaml, "again.yaml").c.session.size() == read.c.session.size());
  CHECK(read.c.traces.size() == 1);
}

TEST_CASE("driver_pace takes the place of pace and its default") {
  const auto steps = steps_of("  - {out_lap: " + kTrace + "}\n  - {out_lap: " + kTrace + ", driver_pace: 0.7}\n");
  CHECK(lap(steps, 0).pace == 0.8);
  CHECK_FALSE(lap(steps, 0).driver_pace);
  CHECK(lap(steps, 1).pace == 1);
  CHECK(lap(steps, 1).driver_pace == 0.7);
}

TEST_CASE("grip is a number or a word") {
  const auto steps = steps_of("  - {laps: 1, trace: " + kTrace + ", grip: 0.9}\n  - {laps: 1, trace: " + kTrace +
                              ", grip: wet}\n  - {laps: 1, trace: " + kTrace +
                              ", grip: damp}\n  - {laps: 1, trace: " + kTrace + "}\n");
  CHECK(lap(steps, 0).grip == 0.9);
  CHECK(lap(steps, 1).grip == 0.65);
  CHECK(lap(steps, 2).grip == 0.8);
  CHECK(lap(steps, 3).grip == 1);
}

TEST_CASE("contradictions and nonsense in steps are told at their place") {
  const std::string laps = "  - {laps: 1, trace: " + kTrace;
  CHECK_THAT(only_error(with_steps(laps + ", driver_pace: 0.8, @pace: 0.9}\n")).message,
             Contains("both `pace` and `driver_pace`"));
  CHECK_THAT(only_error(with_steps(laps + ", driver_pace: @1.2}\n")).message, Contains("above 0 to 1"));
  CHECK_THAT(only_error(with_steps(laps + ", grip: @soaked}\n")).message, Contains("soaked"));
  CHECK_THAT(only_error(with_steps("  - repeat: 2\n    steps: @[]\n")).message, Contains("empty repetition"));
  CHECK_THAT(only_error(with_steps("  - repeat: @0\n    steps: [{park: 1 min}]\n")).message, Contains("0"));
  CHECK_THAT(only_error(with_steps("  - @repeat: 1000\n    steps: [{repeat: 1000, steps: [{park: 1 min}]}]\n")).message,
             Contains("more than 10000 steps"));
}

TEST_CASE("a red flag has a place or a moment within the lap") {
  const auto steps =
      steps_of("  - {laps: 2, trace: " + kTrace + ", red_flag: {at: 200 m}}\n  - {laps: 1, trace: " + kTrace +
               ", red_flag: {at: 0.1 min, speed: 40 km/h, deceleration: 0.2 g}}\n");
  REQUIRE(lap(steps, 0).red_flag);
  CHECK(lap(steps, 0).red_flag->distance == 200);
  CHECK_FALSE(lap(steps, 0).red_flag->time);
  CHECK(lap(steps, 0).red_flag->speed == Approx(60 / 3.6));
  CHECK(lap(steps, 0).red_flag->deceleration == 3);
  CHECK(lap(steps, 1).red_flag->time == Approx(6));
  CHECK(lap(steps, 1).red_flag->deceleration == Approx(0.2 * 9.80665));
  const auto error = only_error(with_steps("  - {laps: 2, trace: " + kTrace + ", red_flag: {at: @-3 m}}\n"));
  CHECK(error.key_path == "session.0.red_flag.at");
}

TEST_CASE("the air of a step is that of the day until the next one changes it") {
  const auto steps = steps_of("  - {park: 3 h, air: {temperature: 31 degC}}\n  - {roll: 10 s, air: {wind: 3 m/s}}\n");
  CHECK(std::get<session::ParkStep>(steps[0]).note.air_temperature == Approx(304.15));
  CHECK_FALSE(std::get<session::ParkStep>(steps[0]).note.wind);
  CHECK(std::get<session::RollStep>(steps[1]).note.wind == 3);
  CHECK(only_error(with_steps("  - {park: 3 h, air: {@temperatur: 31 degC}}\n")).hint == "did you mean `temperature`?");
}

TEST_CASE("a step knows where it was written however often it is repeated") {
  const auto steps =
      steps_of("  - {park: 1 min}\n  - repeat: 3\n    steps:\n      - {roll: 5 s}\n      - {park: 2 min}\n");
  const auto place = [&](std::size_t i) { return std::visit([](const auto& s) { return s.note.place; }, steps.at(i)); };
  const std::size_t line = static_cast<std::size_t>(
      std::count(kSample.begin(), kSample.begin() + static_cast<std::ptrdiff_t>(kSample.find("session:")), '\n') + 1);
  CHECK(place(0) == fmt::format("session.yaml:{}: session.0", line + 1));
  for (const std::size_t i : {2U, 4U, 6U})
    CHECK(place(i) == fmt::format("session.yaml:{}: session.1.steps.1", line + 5));
}

TEST_CASE("parking for no time is refused where it is written") {
  CHECK_THAT(only_error(with_steps("  - {park: @0 min}\n")).message, Contains("above 0 s"));
}
