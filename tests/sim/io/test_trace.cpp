// SPDX-License-Identifier: MIT
#include "tests/sim/io/sample.hpp"

using namespace hatring;
using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

//! The sample with another trace (a flow map).
std::string with_trace(const std::string& trace) {
  const std::string old =
      "    trace:\n      time: {unit: s, values: [0, 10, 20, 30]}\n      speed: {unit: km/h, values: [100, 150, 60, "
      "100]}\n";
  return replaced(kSample, old, "    trace: " + trace + "\n");
}

}  // namespace

TEST_CASE("a trace with all channels") {
  const session::Case c =
      read_case_text(
          with_trace(
              "{name: mine, distance: {unit: km, values: [0, 0.5, 1]}, speed: {unit: mph, values: [0, 90, 0]}, "
              "grade: {unit: '%', values: [0, 2, -2]}, brake: {unit: bar, values: [-0.1, 0, 60]}, lap: [1, 1, 1]}"),
          "s.yaml")
          .c;
  const session::Trace& trace = c.traces.at(0);
  CHECK(trace.name == "mine");
  CHECK(trace.distance == std::vector<double>{0, 500, 1000});
  CHECK_THAT(trace.grade[1], WithinRel(0.02, 1e-12));
  CHECK(trace.brake == std::vector<double>{-0.1, 0, 60});
  CHECK_THAT(trace.brake_threshold, WithinRel(3.0, 1e-12));
  CHECK(trace.time.empty());
}

TEST_CASE("each mistake in a trace is reported at its place") {
  struct Wrong {
    std::string trace, key_path, message;
  };
  const auto w = GENERATE(values<Wrong>({
      {"{time: @[0, 1], speed: {unit: m/s, values: [1, 1]}}", "session.0.trace.time",
       "found a list without a unit, expected a time as `{unit: s, values: [...]}`"},
      {"{time: {unit: s, values: [0, 1]}, speed: @[1, 1]}", "session.0.trace.speed",
       "expected a speed as `{unit: km/h, values: [...]}`"},
      {"{time: @{values: [0, 1]}, speed: {unit: m/s, values: [1, 1]}}", "session.0.trace.time", "found no `unit`"},
      {"{time: @{unit: s}, speed: {unit: m/s, values: [1, 1]}}", "session.0.trace.time", "found no `values`"},
      {"{time: {unit: s, @vaules: [0, 1]}, speed: {unit: m/s, values: [1, 1]}}", "session.0.trace.time.vaules",
       "unknown key"},
      {"{time: {unit: @m, values: [0, 1]}, speed: {unit: m/s, values: [1, 1]}}", "session.0.trace.time.unit",
       "(a length), expected a time"},
      {"{time: {unit: s, values: [0, 2, @1]}, speed: {unit: m/s, values: [1, 1, 1]}}", "session.0.trace.time.values.2",
       "found \"1\" after \"2\", expected a later time"},
      {"{time: {unit: s, values: [0, 2, @2]}, speed: {unit: m/s, values: [1, 1, 1]}}", "session.0.trace.time.values.2",
       "expected a later time"},
      {"{time: {unit: s, values: @[]}, speed: {unit: m/s, values: [1]}}", "session.0.trace.time.values", "empty list"},
      {"{time: {unit: s, values: @[0]}, speed: {unit: m/s, values: [1]}}", "session.0.trace.time", "a single point"},
      {"{time: {unit: s, values: [0, 1]}, speed: {unit: m/s, values: @[1, 1, 1]}}", "session.0.trace.speed",
       "found 3 values, expected 2"},
      {"{time: {unit: s, values: [0, @.nan]}, speed: {unit: m/s, values: [1, 1]}}", "session.0.trace.time.values.1",
       "found \".nan\""},
      {"{time: {unit: s, values: [0, @nan]}, speed: {unit: m/s, values: [1, 1]}}", "session.0.trace.time.values.1",
       "found \"nan\""},
      {"{time: {unit: s, values: [0, @1 s]}, speed: {unit: m/s, values: [1, 1]}}", "session.0.trace.time.values.1",
       "expected a plain number"},
      {"{time: {unit: s, values: [0, 1]}, speed: {unit: m/s, values: [1, @-1]}}", "session.0.trace.speed.values.1",
       "no negative speed"},
      {"{time: {unit: s, values: [0, 1]}, speed: {unit: m/s, values: [1, @250]}}", "session.0.trace.speed.values.1",
       "check the unit"},
      {"{distance: {unit: m, values: [0, 1, 2]}, speed: {unit: m/s, values: [0, @0, 0]}}",
       "session.0.trace.speed.values.1", "a speed above 0"},
      {"{distance: {unit: m, values: [0, 1]}, grade: [0, @3], speed: {unit: m/s, values: [1, 1]}}",
       "session.0.trace.grade.1", "expected a grade"},
      {"@{time: {unit: s, values: [0, 1]}}", "session.0.trace.speed", "missing"},
      {"@{speed: {unit: m/s, values: [0, 1]}}", "session.0.trace", "neither `time` nor `distance`"},
      {"{time: {unit: s, values: [0, 1]}, @distance: {unit: m, values: [0, 1]}, speed: {unit: m/s, values: [1, 1]}}",
       "session.0.trace.distance", "both `time` and `distance`"},
      {"{time: {unit: s, values: [0, 1]}, @sped: {unit: m/s, values: [1, 1]}, speed: {unit: m/s, values: [1, 1]}}",
       "session.0.trace.sped", "unknown key"},
      {"@[1, 2]", "session.0.trace", "expected the path of a trace file"},
  }));
  CAPTURE(w.trace);
  const Diagnostic d = only_error(with_trace(w.trace));
  CHECK(d.key_path == w.key_path);
  CHECK_THAT(d.message, Contains(w.message));
}

TEST_CASE("trace files are relative to the file that names them, and read once") {
  const Folder folder("trace");
  folder.write("sessions/lap.yaml",
               "trace:\n  time: {unit: s, values: [0, 5]}\n  speed: {unit: m/s, values: [20, 20]}\n");
  folder.write("sessions/part.yaml", "session:\n  - {out_lap: lap.yaml}\n  - {laps: 2, trace: ../sessions/lap.yaml}\n");
  std::string base = kSample;
  base.resize(base.find("session:"));
  const auto file = folder.write("top.yaml", "include: sessions/part.yaml\n" + base);
  const session::Case c = read_case(file).c;
  REQUIRE(c.traces.size() == 1);
  CHECK(c.traces[0].name == "lap");
  CHECK(std::get<session::DriveStep>(c.session[0]).kind == session::LapKind::out_lap);
  CHECK(std::get<session::DriveStep>(c.session[1]).trace == 0);
}

TEST_CASE("errors in a trace file are reported once, in that file") {
  const Folder folder("trace_error");
  const auto lap =
      folder.write("lap.yaml", "trace:\n  time: {unit: s, values: [0, 5]}\n  speed: {unit: m/s, values: [20, -1]}\n");
  std::string base = kSample;
  base.resize(base.find("session:"));
  const auto file =
      folder.write("top.yaml", base + "session:\n  - {out_lap: lap.yaml}\n  - {laps: 2, trace: lap.yaml}\n");
  const auto errors = errors_of_file(file);
  REQUIRE(errors.size() == 1);
  CHECK(errors[0].file == lap.string());
  CHECK(errors[0].line == 3);
  CHECK(errors[0].column == 35);
  CHECK(errors[0].key_path == "session.0.out_lap.speed.values.1");

  folder.write("lap.yaml", "time: {unit: s, values: [0, 5]}\n");
  CHECK_THAT(errors_of_file(file).at(0).message, Contains("one top key `trace:`"));
  std::filesystem::remove(lap);
  CHECK_THAT(errors_of_file(file).at(0).message, Contains("there is no file"));
}
