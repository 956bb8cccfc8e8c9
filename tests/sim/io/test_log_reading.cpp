// SPDX-License-Identifier: MIT
// From the text of a log to the heat of a lap, against forces that are known.
#include <catch2/catch.hpp>

#include "log_sample.hpp"
#include "sample.hpp"
#include "sim/io/read_car.hpp"
#include "sim/io/read_case.hpp"

using namespace hatring;
using namespace hatring::io::testing;
using Catch::Matchers::WithinRel;

namespace {

// Heat of lap 2 of a log, read and driven.
double heat(const std::string& text) {
  io::LogOptions o;
  o.laps.lap = 2;
  return test::heat_of(test::plain_case(), read(text, o).trace);
}

std::string lap_log(double rate, double jitter, const std::function<std::string(const Sample&)>& speed_and_more,
                    const std::string& header = "Time (s),Lap,Speed (km/h)") {
  return log_text(header, invented_drive(rate, 3, jitter), [&](const Sample& s) {
    return number(s.time) + "," + std::to_string(s.lap) + "," + speed_and_more(s);
  });
}

std::string fine(const Sample& s) {
  return number(3.6 * s.speed, 2);
}

}  // namespace

TEST_CASE("the heat of a lap from a log is that of the forces that drove it, whatever the logger") {
  const double truth = test::drive_lap(test::plain_case()).heat;
  const double clean = heat(lap_log(25, 0, fine));
  CHECK_THAT(clean, WithinRel(truth, 0.02));
  CHECK_THAT(heat(lap_log(5, 0, fine)), WithinRel(clean, 0.02));
  CHECK_THAT(heat(lap_log(25, 0.1, fine)), WithinRel(clean, 0.02));
  CHECK_THAT(heat(lap_log(5, 0.1, fine)), WithinRel(clean, 0.02));
  CHECK_THAT(heat(lap_log(10, 0, [](const Sample& s) { return number(3.6 * s.speed, 0); })), WithinRel(clean, 0.02));
  CHECK_THAT(heat(lap_log(1, 0, fine)), WithinRel(clean, 0.04));
}

TEST_CASE("repeats of a slower sensor and a brake channel keep the heat of a lap") {
  const double clean = heat(lap_log(25, 0, fine));
  double last = 0;
  int i = 0;
  CHECK_THAT(heat(lap_log(50, 0,
                          [&](const Sample& s) {
                            if (i++ % 5 == 0) last = s.speed;
                            return number(3.6 * last, 2);
                          })),
             WithinRel(clean, 0.02));
  CHECK_THAT(heat(lap_log(
                 25, 0.1, [](const Sample& s) { return fine(s) + (s.brake ? ",30" : ",0.2"); },
                 "Time (s),Lap,Speed (km/h),Brake (bar)")),
             WithinRel(clean, 0.02));
}

TEST_CASE("a session takes the trace file as it is and reads what was written") {
  const Folder folder("log_reading");
  const io::LogReading r = read(lap_log(
      10, 0, [](const Sample& s) { return fine(s) + (s.brake ? ",40" : ",-0.1"); },
      "Time (s),Lap,Speed (km/h),Brake \"odd: [\" (bar)"));
  const std::string yaml = io::trace_yaml(r);
  CHECK(yaml.starts_with("# Speed trace read from log.csv"));
  for (const io::LogGuess& g : r.guesses) CHECK(yaml.find(g.what) != std::string::npos);
  folder.write("lap.yaml", yaml);
  const auto session = folder.write("session.yaml", replaced(kSample, R"(    trace:
      time: {unit: s, values: [0, 10, 20, 30]}
      speed: {unit: km/h, values: [100, 150, 60, 100]}
)",
                                                             "    trace: lap.yaml\n"));
  for (const io::Diagnostic& d : errors_of_file(session)) FAIL(io::to_text(d));
  const session::Trace trace = io::read_case(session).c.traces.at(0);
  CHECK(trace.name == r.trace.name);
  REQUIRE(trace.time.size() == r.trace.time.size());
  CHECK(trace.brake_threshold == Approx(r.trace.brake_threshold).epsilon(1e-3));
  CHECK(trace.brake.size() == r.trace.brake.size());
  for (std::size_t i = 0; i < trace.time.size(); ++i) {
    REQUIRE(trace.time[i] == Approx(r.trace.time[i]).margin(1e-4));
    REQUIRE(trace.speed[i] == Approx(r.trace.speed[i]).margin(0.003));
  }
}

TEST_CASE("the car is read from its own file or from a session and errors name their place") {
  const Folder folder("read_car");
  CHECK(io::read_car(folder.write("car.yaml", "car: {mass: 1140 kg}\n")).car.mass == 1140);
  CHECK(io::read_car(folder.write("session.yaml", kSample)).car.mass == 1140);
  for (const char* bad : {"car: {mass: 3 m}\n", "cart: {}\n", "- 1\n"})
    CHECK_THROWS_AS(io::read_car(folder.write("bad.yaml", bad)), io::ConfigError);
}
