// SPDX-License-Identifier: MIT
// Steps that repeat, and how laps say how hard they are driven.
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
