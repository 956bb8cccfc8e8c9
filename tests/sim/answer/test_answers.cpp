// SPDX-License-Identifier: MIT
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/answer/places.hpp"
#include "sim/answer/run.hpp"
#include "sim/answer/verdicts.hpp"
#include "sim/io/read_case.hpp"

using namespace hatring;

namespace {

// Short, and quick on the coarsest network.
session::Case held_on_lumps(std::vector<std::string> set = {}) {
  set.insert(set.begin(), "session=[{hold: 20 s, speed: 90 km/h, heat: 20 kW}, {park: 60 s}]");
  return io::read_case("configs/demo.yaml", {.set = set, .mesh = session::Mesh::lump}).c;
}

const answer::Verdict& verdict(const answer::Answers& a, const std::string& axle, const std::string& key) {
  const auto found = std::find_if(a.verdicts.begin(), a.verdicts.end(),
                                  [&](const answer::Verdict& v) { return v.axle == axle && v.key == key; });
  REQUIRE(found != a.verdicts.end());
  return *found;
}

}  // namespace

TEST_CASE("extremes of a column: first of equals, within the rows asked for") {
  const std::vector<double> v{1, 5, 2, 5, 0, 9};
  CHECK(answer::highest(v, {0, 5}) == 1);
  CHECK(answer::highest(v, {0, 6}) == 5);
  CHECK(answer::lowest(v, {0, 4}) == 0);
}

TEST_CASE("rows of a span hold both its ends") {
  const std::vector<double> time{0, 1, 2, 3, 4};
  const answer::Rows rows = answer::rows_of({.begin = 1, .end = 3}, time);
  CHECK(rows.first == 1);
  CHECK(rows.last == 4);
}

TEST_CASE("a limit is exceeded above it, near within its band, and within below") {
  const double peak = answer::run(held_on_lumps()).answers.front.peaks.at("ring_mean").value - 273.15;
  const auto level = [&](double limit) {
    const answer::Run run = answer::run(held_on_lumps({"limits.ring_mean=" + std::to_string(limit) + " degC"}));
    const answer::Verdict& v = verdict(run.answers, "front", "ring_mean");
    CHECK(v.margin == Approx(limit - peak).margin(1e-3));
    CHECK(v.advice.empty() == (v.level == answer::Level::within));
    return v.level;
  };
  CHECK(level(peak - 1) == answer::Level::exceeded);
  CHECK(level(peak + 0.05 * (peak - 24)) == answer::Level::near);
  CHECK(level(peak + 0.5 * (peak - 24)) == answer::Level::within);
}

TEST_CASE("verdicts come worst first, the sentence speaks of the first, and no text says safe") {
  const answer::Run run = answer::run(held_on_lumps({"limits.caliper=31 degC", "limits.ring_mean=60 degC"}));
  REQUIRE(run.answers.verdicts.front().level == answer::Level::exceeded);
  CHECK(run.answers.level == answer::Level::exceeded);
  CHECK(std::is_sorted(run.answers.verdicts.begin(), run.answers.verdicts.end(), [](const auto& a, const auto& b) {
    return (b.level == answer::Level::unknown ? a.level != b.level
                                              : a.level != answer::Level::unknown && a.level > b.level);
  }));
  CHECK(run.answers.sentence.find(run.answers.verdicts.front().part) != std::string::npos);
  for (const answer::Verdict& v : run.answers.verdicts)
    CHECK((v.what + v.advice + v.reason).find(" safe") == std::string::npos);
}

TEST_CASE("fluid is judged against wet boiling less the margin, or dry when asked") {
  const answer::Run wet = answer::run(held_on_lumps());
  CHECK(verdict(wet.answers, "front", "fluid").limit == Approx(273.15 + 155 - 20));
  const answer::Run dry = answer::run(held_on_lumps({"brakes.front.fluid.judge=dry", "limits.fluid_margin=5 K"}));
  CHECK(verdict(dry.answers, "front", "fluid").limit == Approx(273.15 + 230 - 5));
}

TEST_CASE("rates are the mean slope over the window: a lump heats at its power over its heat capacity") {
  const answer::Run run = answer::run(
      held_on_lumps({"physics.radiation=off", "physics.properties=constant", "physics.partition=1.0",
                     "physics.convection={constant: 0 W/m2/K}", "physics.links={ring_hat: 0 W/K, ring_pad: 0 W/K}"}));
  const auto* rate = run.history.front.find("rate", "ring_mean");
  const auto* mean = run.history.front.find("temperature", "ring_mean");
  const double slope = (mean->values[150] - mean->values[50]) / (run.history.time[150] - run.history.time[50]);
  CHECK(slope > 1);
  CHECK(rate->values[100] == Approx(slope).epsilon(1e-4));
  CHECK(rate->values.back() == Approx(0).margin(1e-6));
}

TEST_CASE("record times: dense while moving, sparse while parked, ends included") {
  const session::Case c = held_on_lumps();
  const session::Drive drive(c);
  const std::vector<double> times = answer::record_times(c, drive);
  CHECK(times.front() == 0);
  CHECK(times.back() == drive.duration());
  CHECK(std::is_sorted(times.begin(), times.end()));
  CHECK(times[1] == Approx(c.output.interval));
  CHECK(times[times.size() - 1] - times[times.size() - 2] == Approx(c.output.parked_interval));
}

TEST_CASE("a verdict says when its limit was first passed, and the advice follows from that") {
  // Heated for 20 s, then parked: the caliper goes on warming.
  const answer::Run run = answer::run(held_on_lumps({"limits.ring_mean=60 degC", "limits.near=0"}));
  const answer::Verdict& ring = verdict(run.answers, "front", "ring_mean");
  REQUIRE(ring.since.has_value());
  CHECK(ring.since->time < ring.place.time);
  const auto& mean = run.history.front.find("temperature", "ring_mean")->values;
  for (std::size_t i = 0; i < mean.size(); ++i)
    if (run.history.time[i] < ring.since->time) CHECK(mean[i] <= ring.limit);
  CHECK_FALSE(verdict(run.answers, "front", "fluid").since.has_value());
}

TEST_CASE("the hotter side of the ring is judged, and named when it is the inboard one") {
  const answer::Run run = answer::run(
      io::read_case("configs/demo.yaml",
                    {.set = {"brakes.front.cooling.shield=on", "session=[{hold: 60 s, speed: 120 km/h, heat: 20 kW}]"}})
          .c);
  const answer::Verdict& face = verdict(run.answers, "front", "ring_face");
  CHECK(face.value == run.answers.front.peaks.at("ring_face_inboard").value);
  CHECK(face.value > run.answers.front.peaks.at("ring_face_outboard").value);
  CHECK(face.what.find("inboard") != std::string::npos);
}

TEST_CASE("a session that ends on the move says that heat soak is not in it") {
  const auto answers = [](const std::string& end) {
    return answer::run(io::read_case("configs/demo.yaml",
                                     {.set = {"session=[{laps: 1, trace: tracks/tern_hollow.yaml}" + end + "]"},
                                      .mesh = session::Mesh::lump})
                           .c)
        .answers;
  };
  const auto told = [](const answer::Answers& a) {
    const bool said = a.sentence.ends_with(answer::kNotSoaked);
    CHECK(said == std::any_of(a.warnings.begin(), a.warnings.end(),
                              [](const std::string& w) { return w.find("- {park: 20 min}") != std::string::npos; }));
    return said;
  };
  CHECK(told(answers("")));
  CHECK_FALSE(told(answers(", {park: 1 min}")));
  CHECK_FALSE(told(answer::run(held_on_lumps()).answers));
}

TEST_CASE("cold pads alone do not make a session that is within limits but close") {
  const answer::Run run =
      answer::run(io::read_case("configs/duties/single_stop.yaml", {.mesh = session::Mesh::lump}).c);
  const answer::Verdict& cold = verdict(run.answers, "front", "cold_share");
  CHECK(cold.margin < 0);
  CHECK(run.answers.level == answer::Level::near);
  CHECK(run.answers.sentence.starts_with("Within limits but for cold pads: the front pads work too long below"));
}

TEST_CASE("cold pads are named only where nothing else is near") {
  answer::Answers a;
  const auto near = [](const char* axle, const char* key, const char* part, double margin) {
    answer::Verdict v;
    v.axle = axle;
    v.key = key;
    v.part = part;
    v.level = answer::Level::near;
    v.margin = margin;
    v.scale = 1;
    return v;
  };
  const answer::Verdict cold = near("front", "cold_share", "pads too cold", -0.5),
                        print = near("rear", "pad_print", "ring", 0.1);
  a.verdicts = {cold, print};
  conclude(a);
  CHECK(a.sentence.starts_with("Within limits, but close: the rear ring is nearly too hot to stand"));
  a.verdicts = {cold};
  conclude(a);
  CHECK(a.sentence.starts_with("Within limits but for cold pads"));
}

TEST_CASE("a place has one wording") {
  const auto words = [](int lap, const char* span) { return answer::in_words({.time = 1, .lap = lap, .span = span}); };
  CHECK(words(7, "lap 7") == "on lap 7");
  CHECK(words(1, "out lap") == "on the out lap");
  CHECK(words(9, "cool-down lap") == "on the cool-down lap");
  CHECK(words(0, "parked") == "after parking");
  CHECK(words(0, "stop") == "on the way in");
  CHECK(words(0, "rolling") == "while rolling");
  CHECK(words(0, "snub 4") == "during snub 4");
  CHECK(words(0, "hold") == "during the hold");
  CHECK(words(0, answer::kWholeSession) == "over the whole session");
}
