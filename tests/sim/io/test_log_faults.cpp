// SPDX-License-Identifier: MIT
// What loggers get wrong, one fault at a time. The drive must come out as if the fault were not there.
#include <catch2/catch.hpp>

#include "log_sample.hpp"

using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using Lines = std::vector<std::size_t>;

namespace {

std::string row(const Sample& s) {
  return number(s.time) + "," + number(3.6 * s.speed);
}

double length_of(const LogReading& r) {
  return r.drive.distance.back();
}

}  // namespace

TEST_CASE("zeros without a fix are left out and named and a real stop is kept") {
  std::string text = plain_log();
  const double whole = length_of(read(text));
  for (const int line : {300, 301, 302})
    text = with_line(text, static_cast<std::size_t>(line), number(0.1 * (line - 2)) + ",0");
  const LogReading r = read(text);
  CHECK(fault_lines(r, "no fix") == Lines{300, 301, 302});
  CHECK_THAT(length_of(r), WithinRel(whole, 1e-3));
  const LogReading stop = read("t (s),v (km/h)\n0,72\n1,54\n2,36\n3,18\n4,0\n5,0\n6,18\n7,36\n8,54\n9,72\n");
  CHECK(stop.faults.empty());
  CHECK(stop.drive.speed[5] == 0);
}

TEST_CASE("a single wild speed is left out and named") {
  const std::string text = plain_log();
  const LogReading r = read(with_line(text, 300, "29.8,350"));
  CHECK(fault_lines(r, "off both its neighbours") == Lines{300});
  CHECK(fault_lines(read(with_line(text, 300, "29.8,900")), "above 540 km/h") == Lines{300});
  CHECK(fault_lines(read(with_line(text, 300, "29.8,-20")), "below 0") == Lines{300});
  CHECK(fault_lines(read(with_line(text, 300, "29.8,oops")), "speed").empty());
}

TEST_CASE("stamps out of line and stamps used twice are left out and named") {
  const std::string text = plain_log();
  const double whole = length_of(read(text));
  for (const char* stamp : {"9999", "1.0"}) {
    const LogReading r = read(with_line(text, 300, fmt::format("{},100", stamp)));
    CHECK(fault_lines(r, "out of line") == Lines{300});
    CHECK_THAT(length_of(r), WithinRel(whole, 1e-3));
  }
  CHECK(fault_lines(read(with_line(text, 300, "29.7,100")), "the same time") == Lines{300});
}

TEST_CASE("a clock that begins again each lap is strung together and cuts the laps") {
  double begin = 0;
  int lap = 0;
  const LogReading r = read(log_text("Time (s),Speed (km/h)", invented_drive(10), [&](const Sample& s) {
    if (s.lap != lap) begin = s.time, lap = s.lap;
    return number(s.time - begin) + "," + number(3.6 * s.speed);
  }));
  const LogReading straight = read(plain_log());
  CHECK(r.drive.restarts.size() == 4);
  CHECK(r.faults.empty());
  CHECK_THAT(r.drive.time.back(), WithinRel(straight.drive.time.back(), 1e-3));
  CHECK_THAT(length_of(r), WithinRel(length_of(straight), 1e-3));
  CHECK(guess(r, "laps").choice.find("clock") != std::string::npos);
}

TEST_CASE("clock times pass midnight") {
  const LogReading r = read(log_text("Time,Speed (km/h)", invented_drive(10), [](const Sample& s) {
    const double t = std::fmod(86390 + s.time, 86400);
    const int h = static_cast<int>(t / 3600), m = static_cast<int>(t / 60) % 60;
    return fmt::format("2026-05-01 {:02}:{:02}:{:04.1f},{:.2f}", h, m, t - 3600 * h - 60 * m, 3.6 * s.speed);
  }));
  CHECK(guess(r, "time unit").choice == "clock time");
  CHECK(guess(r, "clock").choice.find("midnight") != std::string::npos);
  CHECK(r.faults.empty());
  CHECK_THAT(r.drive.time.back(), WithinAbs(invented_drive(10).back().time, 0.01));
}

TEST_CASE("rows that share a coarse stamp are spread evenly") {
  const LogReading r = read(log_text("Time (s),Speed (km/h)", invented_drive(10), [](const Sample& s) {
    return number(std::floor(s.time), 0) + "," + number(3.6 * s.speed);
  }));
  CHECK(guess(r, "clock").choice.find("spread") != std::string::npos);
  CHECK(r.faults.empty());
  CHECK_THAT(r.drive.time[105], WithinAbs(10.5, 1e-6));
}

TEST_CASE("blanks from sensors of other rates and repeats of a slower one do not bend the speed") {
  const double whole = length_of(read(plain_log()));
  int i = 0;
  const LogReading blanks =
      read(log_text("Time (s),Speed (km/h),Brake Pressure (bar)", invented_drive(50), [&](const Sample& s) {
        const bool gps = i++ % 5 == 0;
        return number(s.time) + "," + (gps ? number(3.6 * s.speed) : "") + "," + (s.brake ? "30" : "-0.1");
      }));
  CHECK(blanks.drive.speed.size() == invented_drive(10).size());
  CHECK(blanks.drive.brake.size() == blanks.drive.speed.size());
  CHECK(blanks.faults.empty());
  CHECK_THAT(length_of(blanks), WithinRel(whole, 1e-3));
  double last = 0;
  i = 0;
  const LogReading repeats = read(log_text("Time (s),Speed (km/h)", invented_drive(50), [&](const Sample& s) {
    if (i++ % 5 == 0) last = s.speed;
    return number(s.time) + "," + number(3.6 * last);
  }));
  CHECK(guess(repeats, "speed samples").choice == "one in 5 rows");
  CHECK(10 * repeats.drive.speed.size() < 11 * blanks.drive.speed.size());
  CHECK_THAT(length_of(repeats), WithinRel(whole, 2e-3));
  // Whole mph at 25 Hz repeat too, but not because the sensor is slow.
  const LogReading coarse = read(log_text("Time (s),Speed (mph)", invented_drive(25), [](const Sample& s) {
    return number(s.time) + "," + number(s.speed / 0.44704, 0);
  }));
  CHECK(coarse.drive.speed.size() == invented_drive(25).size());
}

TEST_CASE("a hole in the speed is named and its lap is not complete") {
  std::vector<Sample> drive = invented_drive(10);
  std::erase_if(drive, [](const Sample& s) { return s.lap == 2 && s.lap_share > 0.3 && s.lap_share < 0.4; });
  const LogReading r = read(log_text("Time (s),Speed (km/h),Lap", drive,
                                     [](const Sample& s) { return row(s) + "," + std::to_string(s.lap); }));
  CHECK(fault_lines(r, "no speed for more than 2 s").size() == 1);
  REQUIRE(r.laps.laps.size() == 5);
  CHECK(r.laps.laps[2].incomplete == "a hole in the speed");
}

TEST_CASE("rubbish positions are taken as blank and named") {
  const std::string text =
      log_text("Time (s),Speed (km/h),Latitude,Longitude", invented_drive(10),
               [](const Sample& s) { return row(s) + "," + number(50 + 0.001 * s.lap_share, 6) + ",1.5"; });
  const LogReading r = read(with_line(with_line(text, 50, "4.8,100,50.1,355.2"), 60, "5.8,100,0,0"));
  CHECK(fault_lines(r, "no place on earth") == Lines{50, 60});
  for (const LatLon& p : r.drive.position) REQUIRE(is_place(p.latitude, p.longitude));
}

TEST_CASE("positions that stand only in rows without a time are not used") {
  const LogReading r =
      read(log_text("Time (s),Speed (km/h),Latitude,Longitude", invented_drive(10), [](const Sample& s) {
        const bool fixed = s.time > 20 && s.time < 20.45;
        const std::string place = fixed ? number(52 + 1e-5 * s.time, 6) + "," + number(7 + 1e-5 * s.time, 6) : ",";
        return (fixed ? "x" : number(s.time, 1)) + "," + number(3.6 * s.speed, 1) + "," + place;
      }));
  CHECK(guess(r, "positions").choice == "not used");
  CHECK(r.drive.position.empty());
}

TEST_CASE("brake pressure loses its offset and an absent sensor is not a brake") {
  const auto log = [](const std::function<double(const Sample&)>& pressure) {
    return read(log_text("Time (s),Speed (km/h),Brake Pressure (bar)", invented_drive(25),
                         [&](const Sample& s) { return row(s) + "," + number(pressure(s), 1); }));
  };
  const LogReading offset = log([](const Sample& s) { return s.brake ? 39.9 : -0.1; });
  CHECK(guess(offset, "brake channel").choice.find("used") == 0);
  REQUIRE(!offset.trace.brake.empty());
  CHECK_THAT(*std::max_element(offset.trace.brake.begin(), offset.trace.brake.end()), WithinAbs(40, 1e-9));
  CHECK_THAT(*std::min_element(offset.trace.brake.begin(), offset.trace.brake.end()), WithinAbs(0, 1e-9));
  CHECK(offset.trace.brake_threshold > 1);
  const LogReading sometimes = log([](const Sample& s) {
    return s.time > 5 && s.time < 5.2 ? -270.0 : s.brake ? 40.0 : 0.0;
  });
  CHECK(fault_lines(sometimes, "absent sensor").size() >= 4);
  CHECK(!sometimes.trace.brake.empty());
  const LogReading absent = log([](const Sample&) { return -270.0; });
  CHECK(guess(absent, "brake").reason.find("nothing but -270") != std::string::npos);
  CHECK(absent.trace.brake.empty());
  const LogReading throttle = log([](const Sample& s) { return s.brake ? 0.0 : 40.0; });
  CHECK(guess(throttle, "brake channel").choice == "not used");
  CHECK(throttle.trace.brake.empty());
}

TEST_CASE("grade is taken from a smooth altitude and from no other") {
  const auto log = [](const std::function<double(const Sample&)>& altitude) {
    return read(log_text("Time (s),Speed (km/h),Altitude (m),Lap", invented_drive(10), [&](const Sample& s) {
      return row(s) + "," + number(altitude(s), 1) + "," + std::to_string(s.lap);
    }));
  };
  const auto hill = [](const Sample& s) { return 100 + 10 * std::sin(6.283185307 * s.lap_share); };
  const LogReading smooth = log(hill);
  REQUIRE(!smooth.trace.grade.empty());
  const double length = smooth.laps.laps[*smooth.laps.chosen].length;
  CHECK_THAT(*std::max_element(smooth.trace.grade.begin(), smooth.trace.grade.end()), WithinRel(62.83 / length, 0.1));
  int i = 0;
  const LogReading noisy = log([&](const Sample& s) { return hill(s) + (i++ % 3 - 1) * 3; });
  CHECK(noisy.trace.grade.empty());
  CHECK(guess(noisy, "grade").reason.find("scatters") != std::string::npos);
  const LogReading drifts = log([&](const Sample& s) { return hill(s) + 0.1 * s.time; });
  CHECK(drifts.trace.grade.empty());
  CHECK(guess(drifts, "grade").reason.find("from where it began") != std::string::npos);
}

TEST_CASE("a log that never moves is refused") {
  CHECK(refusal("Time (s),Speed (km/h)\n0,1\n0,2\n0,3\n").find("--column time=NAME") != std::string::npos);
  CHECK(refusal("Time (s),Speed (km/h)\n0,0\n1,0\n2,0\n").find("nothing but 0") != std::string::npos);
  LogOptions told;
  told.units = {{LogRole::time, "s"}, {LogRole::speed, "m/s"}};
  CHECK(refusal("t,v\n0,1\n0.1,2\n0.2,1\n0.3,0\n", told).find("the car moves by 0.") != std::string::npos);
}
