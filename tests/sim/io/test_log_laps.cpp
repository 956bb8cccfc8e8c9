// SPDX-License-Identifier: MIT
// Laps from a column, a line, a clock and the repetition of the speed.
#include <catch2/catch.hpp>

#include "log_sample.hpp"

using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

double lap_time() {
  static const hatring::test::Lap lap = hatring::test::drive_lap(hatring::test::plain_case());
  return lap.step * static_cast<double>(lap.speed.size());
}

// Rows with positions on a circle, and the lap number or not.
std::string track_log(double rate, bool column, int laps = 3) {
  return log_text(column ? "Time (s),Speed (km/h),Latitude,Longitude,Lap" : "Time (s),Speed (km/h),Latitude,Longitude",
                  invented_drive(rate, laps), [column](const Sample& s) {
                    const LatLon place = place_of(s);
                    return fmt::format("{:.3f},{:.3f},{:.7f},{:.7f}{}", s.time, 3.6 * s.speed, place.latitude,
                                       place.longitude, column ? fmt::format(",{}", s.lap) : "");
                  });
}

std::vector<int> complete(const LogReading& r) {
  std::vector<int> out;
  for (const LogLap& lap : r.laps.laps)
    if (lap.incomplete.empty()) out.push_back(lap.number);
  return out;
}

}  // namespace

TEST_CASE("laps by the lap column keep its numbers and cut ones are not complete and one is taken") {
  const LogReading r = read(track_log(10, true));
  REQUIRE(r.laps.laps.size() == 5);
  CHECK(complete(r) == std::vector<int>{1, 2, 3});
  CHECK(r.laps.laps[0].incomplete == "too short");
  CHECK_THAT(r.laps.laps[1].end - r.laps.laps[1].begin, WithinAbs(lap_time(), 0.11));
  REQUIRE(r.laps.chosen);
  CHECK_THAT(r.trace.time.back(), WithinAbs(lap_time(), 0.11));
  CHECK(r.trace.time.front() == 0);
  CHECK(r.trace.name == fmt::format("log, lap {}", r.laps.laps[*r.laps.chosen].number));
}

TEST_CASE("laps by a start line are timed between samples") {
  for (const double rate : {25.0, 5.0, 1.0}) {
    CAPTURE(rate);
    LogOptions o;
    o.laps.start_line = place_of({.lap_share = 0.25});
    const LogReading r = read(track_log(rate, true), o);
    REQUIRE(r.laps.laps.size() >= 4);
    CHECK(guess(r, "laps").choice.find("at the line 50.0") != std::string::npos);
    for (const LogLap& lap : r.laps.laps)
      if (lap.incomplete.empty()) CHECK_THAT(lap.end - lap.begin, WithinAbs(lap_time(), 0.1));
    CHECK(complete(r).size() >= 2);
  }
  LogOptions far;
  far.laps.start_line = LatLon{51, 1};
  CHECK(refusal(track_log(10, true), far).find("fastest place is near") != std::string::npos);
  CHECK(refusal(plain_log(), far).find("--column latitude=NAME") != std::string::npos);
}

TEST_CASE("a pass the other way or far away does not count") {
  const std::vector<double> time{0, 1, 2, 20, 21, 22, 40, 41, 42, 60, 61, 62};
  const std::vector<double> speed(12, 30);
  std::vector<LatLon> path;
  for (const double offset : {0.0, 0.0, 0.002, 0.0001})  // the second is driven back
    for (const double east : {-0.0005, 0.0, 0.0005})
      path.push_back({50 + offset, (path.size() >= 3 && path.size() < 6 ? -1 : 1) * east});
  const std::vector<double> passes = passes_of(time, path, speed, {50, 0.0001});
  REQUIRE(passes.size() == 2);
  CHECK_THAT(passes[0], WithinAbs(1.2, 1e-3));
  CHECK_THAT(passes[1], WithinAbs(61.2, 1e-3));
}

TEST_CASE("without a lap column the fastest place cuts and without positions the repetition of the speed") {
  const LogReading line = read(track_log(10, false));
  CHECK(guess(line, "laps").choice.find("at the line") == 0);
  REQUIRE(complete(line).size() >= 2);
  CHECK_THAT(line.trace.time.back(), WithinAbs(lap_time(), 0.1));
  const LogReading pattern = read(plain_log(10, 4));
  CHECK(guess(pattern, "laps").choice == "by the repeated speed");
  REQUIRE(complete(pattern).size() >= 3);
  CHECK_THAT(pattern.trace.time.back(), WithinAbs(lap_time(), 0.2));
}

TEST_CASE("a drive that does not repeat is not cut and is written whole") {
  const std::string text = log_text("Time (s),Speed (km/h)", invented_drive(10, 0), [](const Sample& s) {
    return number(s.time) + "," + number(3.6 * s.speed * (0.5 + 0.5 * std::cos(0.013 * s.time)));
  });
  const LogReading r = read(text);
  CHECK(r.laps.laps.empty());
  CHECK(!r.laps.chosen);
  CHECK(r.trace.speed.size() == r.drive.speed.size());
  LogOptions o;
  o.laps.cut = LapCut::pattern;
  CHECK(refusal(text, o).find("no repetition") != std::string::npos);
  o.laps.cut = LapCut::column;
  CHECK(refusal(text, o).find("--column lap=NAME") != std::string::npos);
}

TEST_CASE("the typical lap is the one of median time and another lap or the whole log may be asked for") {
  std::vector<Sample> drive = invented_drive(10, 3);
  double shift = 0, last = 0;
  for (Sample& s : drive) {  // lap 1 a little slower, lap 2 a little faster
    const double factor = s.lap == 1 ? 1.02 : s.lap == 2 ? 0.98 : 1.0, step = s.time - last;
    last = s.time;
    s.time = (shift += step * factor);
    s.speed /= factor;
  }
  const std::string text = log_text("Time (s),Speed (km/h),Lap", drive, [](const Sample& s) {
    return number(s.time) + "," + number(3.6 * s.speed) + "," + std::to_string(s.lap);
  });
  const LogReading typical = read(text);
  REQUIRE(typical.laps.chosen);
  CHECK(typical.laps.laps[*typical.laps.chosen].number == 3);
  CHECK(guess(typical, "trace").reason.find("median time of 3 complete laps") != std::string::npos);
  LogOptions o;
  o.laps.lap = 1;
  CHECK(read(text, o).trace.time.back() > 1.01 * typical.trace.time.back());
  o.laps.lap = 9;
  CHECK(refusal(text, o).find("laps here: 0 to 4") != std::string::npos);
  o.laps = {.cut = LapCut::guess, .start_line = {}, .lap = {}, .whole = true};
  CHECK(read(text, o).trace.speed.size() == drive.size());
}

TEST_CASE("a log over distance gives a trace over distance") {
  std::vector<Sample> drive = invented_drive(10);
  const LogReading r = read(log_text("Distance (m),Speed (km/h),Lap", drive, [](const Sample& s) {
    return number(s.distance) + "," + number(3.6 * s.speed) + "," + std::to_string(s.lap);
  }));
  CHECK(r.trace.time.empty());
  REQUIRE(!r.trace.distance.empty());
  CHECK(r.trace.distance.front() == 0);
  CHECK_THAT(r.laps.laps[*r.laps.chosen].end - r.laps.laps[*r.laps.chosen].begin, WithinRel(lap_time(), 0.01));
}

TEST_CASE("a distance that begins again each lap is strung together and a wild one is left out") {
  std::vector<Sample> drive = invented_drive(10);
  const double begin = drive.front().distance, lap = (drive.back().distance - begin) / 4.2;
  const std::string text = log_text("Distance (m),Speed (km/h)", drive, [&](const Sample& s) {
    return number(std::fmod(s.distance, lap)) + "," + number(3.6 * s.speed);
  });
  const LogReading r = read(text);
  CHECK(r.drive.restarts.size() >= 4);
  CHECK(guess(r, "laps").choice == "where the distance begins again");
  CHECK_THAT(r.drive.distance.back(), WithinRel(drive.back().distance - begin, 0.01));
  CHECK(fault_lines(read(with_line(text, 300, "1e18,100")), "out of line") == std::vector<std::size_t>{300});
}
