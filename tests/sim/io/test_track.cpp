// SPDX-License-Identifier: MIT
// Track files, car files for a lap, and the trace that comes out.
#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "sample.hpp"
#include "sim/io/log/position.hpp"
#include "sim/io/trace_yaml.hpp"
#include "sim/io/track/track.hpp"

using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const std::string kCar = "car: {mass: 1000 kg, power: 100 kW}\n";
const std::string kTrack = R"(track:
  segments:
    - {straight: 300 m, grade: 2 %, width: 9 m}
    - {corner: left, radius: 40 m, angle: 180 deg, grip: 0.9}
    - {straight: 984.25 ft, grade: -2 %}
    - {corner: left, radius: 40 m, length: 125.7 m}
)";

std::string error_of(const Folder& folder, const std::string& track, const std::string& car) {
  try {
    static_cast<void>(read_lap(folder.write("track.yaml", track), folder.write("car.yaml", car)));
  } catch (const ConfigError& e) {
    return e.what();
  }
  return {};
}

std::string gpx_circle(double radius, const std::string& point = "trkpt") {
  std::string out = "<?xml version=\"1.0\"?>\n<gpx xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>\n";
  for (int i = 0; i < 120; ++i) {
    const double a = 2 * std::numbers::pi * i / 120, north = radius * std::sin(a), east = radius * std::cos(a);
    out += fmt::format("<{} lat=\"{:.9f}\" lon=\"{:.9f}\"><ele>{:.3f}</ele></{}>\n", point, 52 + north / 111263,
                       7 + east / 68678, 40 + 2 * std::cos(a), point);
  }
  return out + "</trkseg></trk></gpx>\n";
}

}  // namespace

TEST_CASE("segments become stretches in SI") {
  const Folder folder("track_segments");
  const LapInput in = read_lap(folder.write("track.yaml", kTrack), folder.write("car.yaml", kCar));
  REQUIRE(in.track.stretches.size() == 4);
  CHECK(in.track.name == "track");
  CHECK(in.track.stretches[0].length == 300);
  CHECK_THAT(in.track.stretches[0].grade, WithinRel(0.02, 1e-12));
  CHECK_THAT(in.track.stretches[1].length, WithinRel(40 * std::numbers::pi, 1e-9));
  CHECK_THAT(in.track.stretches[1].curvature, WithinRel(0.025, 1e-12));
  CHECK(in.track.stretches[1].grip == 0.9);
  CHECK_THAT(in.track.stretches[2].length, WithinAbs(300, 0.001));
  CHECK(in.warnings.empty());
  CHECK(in.c.car.power == 1e5);
  CHECK(in.c.car.grip > 1);
}

TEST_CASE("a session file will do for the car and nothing of the lap is asked of a session") {
  const Folder folder("track_session");
  std::string session = replaced(kSample, "mass: 1140 kg", "mass: 1140 kg\n  power: 130 kW");
  const LapInput in = read_lap(folder.write("track.yaml", kTrack), folder.write("session.yaml", session),
                               {.set = {"car.grip=1.3", "track.segments.0.straight=350 m"}});
  CHECK(in.c.car.grip == 1.3);
  CHECK(in.track.stretches[0].length == 350);
  for (const auto& a : read_case_text(session, "session.yaml").c.assumptions) {
    CHECK(a.key != "car.grip");
    CHECK(a.key != "car.drive_efficiency");
  }
}

TEST_CASE("a track that does not close is refused and a hill climb says so") {
  const Folder folder("track_open");
  const auto car = folder.write("car.yaml", kCar);
  const auto open = replaced(kTrack, "corner: left, radius: 40 m, angle", "corner: right, radius: 40 m, angle");
  CHECK(read_lap(folder.write("track.yaml", open), car).warnings.empty());  // crosses itself
  const auto missing = replaced(kTrack, "angle: 180 deg", "angle: 90 deg");
  CHECK_THAT(error_of(folder, missing, kCar),
             Contains("track.yaml:1:1") && Contains("270 degrees") && Contains("closed: off"));
  const LapInput climb =
      read_lap(folder.write("track.yaml", replaced(missing, "track:", "track:\n  closed: off")), car);
  CHECK_FALSE(climb.track.closed);
  CHECK(climb.warnings.empty());
  const auto climbs = replaced(kTrack, "grade: -2 %", "grade: 2 %");
  CHECK_THAT(read_lap(folder.write("track.yaml", climbs), car).warnings.at(0), Contains("12.0 m higher"));
}

TEST_CASE("GPX tracks and routes give radius and grade whatever their namespace") {
  const Folder folder("track_gpx");
  const auto car = folder.write("car.yaml", kCar);
  for (const std::string point : {"trkpt", "rtept"}) {
    folder.write("lap.gpx", gpx_circle(150, point));
    const LapInput in = read_lap(folder.write("track.yaml", "track: {gpx: lap.gpx}\n"), car);
    CHECK_THAT(in.track.length(), WithinRel(2 * std::numbers::pi * 150, 5e-3));
    for (const auto& s : in.track.stretches) CHECK_THAT(s.curvature, WithinRel(1.0 / 150, 0.03));
    CHECK(in.residual.value() < 0.2);
    CHECK(in.warnings.empty());
    CHECK(in.track.stretches.front().grade != 0);
  }
}

TEST_CASE("a GPX file is a track by itself and a log and a track measure the same metres") {
  const Folder folder("track_gpx_alone");
  const auto car = folder.write("car.yaml", kCar);
  const LapInput in = read_lap(folder.write("lap.gpx", gpx_circle(150)), car);
  CHECK(in.track.name == "lap");
  CHECK_THAT(in.track.length(), WithinRel(2 * std::numbers::pi * 150, 5e-3));
  // A straight way north by west, where the radii of curvature and the mean radius of a sphere differ most.
  std::string gpx = "<gpx><trk><trkseg>\n";
  for (int i = 0; i <= 40; ++i)
    gpx += fmt::format("<trkpt lat=\"{:.9f}\" lon=\"{:.9f}\"/>\n", 60 + 2e-4 * i, 7 - 3e-4 * i);
  folder.write("way.gpx", gpx + "</trkseg></trk></gpx>\n");
  const LapInput way = read_lap(folder.write("way.yaml", "track: {gpx: way.gpx, closed: off}\n"), car);
  CHECK_THAT(way.track.length(), WithinRel(metres_between(60, 7, 60 + 8e-3, 7 - 12e-3), 2e-4));
  // The meridian at 60 degrees: 111412 m a degree (WGS 84, from memory), against 111195 m of the sphere.
  CHECK_THAT(metres_between(59.5, 7, 60.5, 7), WithinRel(111412.0, 1e-4));
  CHECK_THAT(error_of(folder, "track: {gpx: ../way.gpx}\n", kCar), Contains("outside the folders"));
  CHECK_THROWS_WITH(read_lap(folder.path() / "none.gpx", car), Contains("there is no file"));
}

TEST_CASE("files in the wrong place are told by what they hold") {
  const Folder folder("track_kinds");
  const std::string trace = "trace: {time: {unit: s, values: [0, 1]}, speed: {unit: m/s, values: [9, 9]}}\n";
  CHECK_THAT(error_of(folder, kCar, kTrack),
             Contains("found a car where the track is expected") && Contains("hatring lap ") && Contains("car.yaml "));
  CHECK_THAT(error_of(folder, kSample, kTrack), Contains("found a session where the track is expected"));
  CHECK_THAT(error_of(folder, trace, kCar), Contains("found a speed trace, expected a track") && Contains("laps: 8"));
  CHECK_THAT(error_of(folder, kCar, kCar), Contains("found a car, expected a track file"));
  CHECK_THAT(error_of(folder, kTrack, trace), Contains("found a speed trace, expected a file with a key `car:`"));
  CHECK_THAT(error_of(folder, kTrack, kTrack), Contains("found a track, expected a file with a key `car:`"));
  const auto log = folder.write("log.csv", "time,speed\n0,1\n");
  CHECK_THROWS_WITH(read_lap(log, folder.write("car.yaml", kCar)), Contains("hatring trace"));
}

TEST_CASE("points of a map give the same circle") {
  const Folder folder("track_points");
  std::string x, y;
  for (int i = 0; i < 90; ++i) {
    x += std::to_string(60 * std::cos(i * std::numbers::pi / 45)) + ", ";
    y += std::to_string(60 * std::sin(i * std::numbers::pi / 45)) + ", ";
  }
  const std::string track = "track: {points: {x: {unit: m, values: [" + x + "]}, y: {unit: m, values: [" + y + "]}}}\n";
  const LapInput in = read_lap(folder.write("track.yaml", track), folder.write("car.yaml", kCar));
  for (const auto& s : in.track.stretches) CHECK_THAT(s.curvature, WithinRel(1.0 / 60, 0.01));
}

TEST_CASE("what is wrong with a track or a car is told with its place") {
  const Folder folder("track_errors");
  const auto track = [](const std::string& text) { return "track:\n  " + text + "\n"; };
  CHECK_THAT(error_of(folder, track("segments: [{straight: 300}]"), kCar),
             Contains("track.yaml:2:") && Contains("300 m"));
  CHECK_THAT(error_of(folder, track("segments: [{corner: left, radius: 20 m}]"), kCar), Contains("neither"));
  CHECK_THAT(error_of(folder, track("segments: [{corner: left, radius: 20 m, angle: 90 deg, length: 30 m}]"), kCar),
             Contains("found both `angle` and `length`"));
  CHECK_THAT(error_of(folder, track("segments: [{corner: up, radius: 20 m, angle: 90 deg}]"), kCar), Contains("left"));
  CHECK_THAT(error_of(folder, track("segments: [{bend: 20 m}]"), kCar), Contains("none of the keys"));
  CHECK_THAT(error_of(folder, track("segments: [{straight: 20 m}]\n  gpx: x.gpx"), kCar),
             Contains("found both `segments` and `gpx`"));
  CHECK_THAT(error_of(folder, track("name: x"), kCar), Contains("found none of"));
  CHECK_THAT(error_of(folder, track("gpx: none.gpx"), kCar), Contains("there is no file `") && Contains("none.gpx"));
  CHECK_THAT(error_of(folder, track("gpx: ../../x.gpx"), kCar), Contains("outside the folders"));
  CHECK_THAT(error_of(folder, "line: {}\n", kCar), Contains("top key `track:`"));
  CHECK_THAT(error_of(folder, kTrack, "car: {mass: 1000 kg}\n"), Contains("car.power") && Contains("missing"));
  CHECK_THAT(error_of(folder, kTrack, "car: {mass: 1000 kg, power: 100 kW, gears: {top_speeds: [90 km/h, 60 km/h]}}\n"),
             Contains("car.gears.top_speeds"));
  CHECK_THAT(error_of(folder, kTrack, "wheels: 4\n" + kCar), Contains("unknown key `wheels`"));
  folder.write("broken.gpx", "<gpx>\n<trk>\n<trkpt lat=\"1\" lon=\"2\"></trk></gpx>");
  CHECK_THAT(error_of(folder, track("gpx: broken.gpx"), kCar), Contains("broken.gpx:3") && Contains("XML"));
  folder.write("empty.gpx", "<gpx></gpx>");
  CHECK_THAT(error_of(folder, track("gpx: empty.gpx"), kCar), Contains("no track or route points"));
  folder.write("moon.gpx", "<gpx>\n<trkpt lat=\"95\" lon=\"2\"/></gpx>");
  CHECK_THAT(error_of(folder, track("gpx: moon.gpx"), kCar), Contains("moon.gpx:2") && Contains("no place on earth"));
}

TEST_CASE("a written trace reads back as it was") {
  const Folder folder("track_trace");
  hatring::session::Trace t;
  t.name = "odd: \"name\"";
  for (int i = 0; i < 300; ++i) {
    t.distance.push_back(2.0 * i);
    t.speed.push_back(20 + 10 * std::sin(0.05 * i));
    t.grade.push_back(0.01 * std::cos(0.02 * i));
  }
  folder.write("trace.yaml", trace_file_text(t, {"a remark\nwith: everything in it " + std::string(200, 'x')}));
  const auto steps = kSample.find("session:");
  const auto file =
      folder.write("session.yaml", kSample.substr(0, steps) + "session:\n  - {laps: 1, trace: trace.yaml}\n");
  const hatring::session::Trace back = read_case(file).c.traces.at(0);
  CHECK(back.name == t.name);
  REQUIRE(back.speed.size() == t.speed.size());
  for (std::size_t i = 0; i < t.speed.size(); ++i) {
    CHECK_THAT(back.distance[i], WithinAbs(t.distance[i], 6e-4));
    CHECK_THAT(back.speed[i], WithinAbs(t.speed[i], 2e-4));
    CHECK_THAT(back.grade[i], WithinAbs(t.grade[i], 6e-6));
  }
}
