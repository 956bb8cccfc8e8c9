// SPDX-License-Identifier: MIT
// Columns and units, from the header and from the numbers.
#include <catch2/catch.hpp>

#include "log_sample.hpp"

using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::WithinRel;

namespace {

struct UnitCase {
  const char *time_title, *speed_title;
  double per_second, per_metre_second;  // what the numbers really are
  const char *time_unit, *speed_unit;   // what is read
  bool doubtful;
};

// The same drive, written with these units under these titles.
LogReading read_units(const UnitCase& c) {
  return read(log_text(fmt::format("{},{}", c.time_title, c.speed_title), invented_drive(10), [&c](const Sample& s) {
    return number(s.time * c.per_second, 4) + "," + number(s.speed * c.per_metre_second, 2);
  }));
}

std::string row_of_places(const Sample& s) {
  const LatLon place = place_of(s);
  return fmt::format("{:.7f},{:.7f}", place.latitude, place.longitude);
}

}  // namespace

TEST_CASE("units are read from headers that are right and corrected where the numbers speak against them") {
  const double top = top_speed(read(plain_log()));
  for (const UnitCase& c :
       {UnitCase{"Time (s)", "Speed (km/h)", 1, 3.6, "s", "km/h", false},
        UnitCase{"Elapsed Time (ms)", "Speed (MPH)", 1000, 1 / 0.44704, "ms", "mph", false},
        UnitCase{"time_ms", "speed_mps", 1000, 1, "ms", "m/s", false},
        UnitCase{"t", "GPS Speed m/s", 1, 1, "s", "m/s", false},
        UnitCase{"Time [us]", "Speed [knots]", 1e6, 3600.0 / 1852, "us", "knot", false},
        UnitCase{"Time (ms)", "Speed (km/h)", 1, 3.6, "s", "km/h", false},          // says ms, is s
        UnitCase{"Time (s)", "Speed (km/h)", 1000, 3.6, "ms", "km/h", false},       // says s, is ms
        UnitCase{"Time (s)", "Speed (km/h)", 1, 1, "s", "m/s", true},               // says km/h, is m/s
        UnitCase{"Time (s)", "Speed (m/s)", 1, 3.6, "s", "km/h", true},             // says m/s, is km/h
        UnitCase{"Time (s)", "Speed (km/h)", 1, 12.96, "s", "0.27778 km/h", true},  // 3.6 twice
        UnitCase{"Time", "Speed", 1, 3.6, "s", "km/h", true}, UnitCase{"Time", "Speed", 1000, 1, "ms", "m/s", true}}) {
    CAPTURE(c.time_title, c.speed_title, c.per_second, c.per_metre_second);
    const LogReading r = read_units(c);
    CHECK(guess(r, "time unit").choice == c.time_unit);
    CHECK(guess(r, "speed unit").choice == c.speed_unit);
    CHECK(guess(r, "speed unit").doubtful == c.doubtful);
    CHECK_THAT(top_speed(r), WithinRel(top, 0.002));
    CHECK_THAT(r.drive.time[100], WithinRel(10.0, 1e-6));
  }
}

TEST_CASE("a guess names what else it could be and a correction says why") {
  const LogReading bare = read_units({"Time", "Speed", 1, 3.6, "s", "km/h", true});
  CHECK(guess(bare, "speed unit").reason.find("it would be top speed") != std::string::npos);
  const LogReading wrong = read_units({"Time (ms)", "Speed (km/h)", 1, 1, "s", "m/s", true});
  CHECK(guess(wrong, "speed unit").reason.find("the header says km/h, but that would be top speed") !=
        std::string::npos);
  CHECK(guess(wrong, "time unit").reason.find("the header says ms, but that would be 1e+04 rows a second") !=
        std::string::npos);
  CHECK(guess(wrong, "time unit").doubtful);
}

TEST_CASE("positions settle the unit of a slow drive that the header leaves open") {
  // Half speed in km/h: by itself it could well be mph.
  std::vector<Sample> slow = invented_drive(10);
  for (Sample& s : slow) s.time *= 2, s.speed /= 2;
  const LogReading r = read(log_text("Time (s),Speed,Latitude,Longitude", slow, [](const Sample& s) {
    return number(s.time) + "," + number(3.6 * s.speed) + "," + row_of_places(s);
  }));
  CHECK(guess(r, "speed unit").choice == "km/h");
  CHECK(guess(r, "speed unit").reason.find("of the way that the positions show") != std::string::npos);
}

TEST_CASE("units and columns can be told") {
  LogOptions o;
  o.units = {{LogRole::speed, "mph"}, {LogRole::time, "ms"}};
  const LogReading r = read(plain_log(), o);
  CHECK(guess(r, "speed unit").reason.find("as told") == 0);
  CHECK_THAT(r.drive.time[100], WithinRel(0.01, 1e-9));
  o.units = {{LogRole::speed, "0.5 km/h"}};
  CHECK_THAT(top_speed(read(plain_log(), o)), WithinRel(top_speed(read(plain_log())) / 2, 1e-9));
  o.units = {{LogRole::speed, "kg"}};
  CHECK(refusal(plain_log(), o).find("--unit speed=kg") != std::string::npos);
}

TEST_CASE("columns are told from each other by their titles") {
  const auto columns = [](const std::string& header) {
    LogTable t;
    t.name = "log.csv";
    std::string title;
    for (const LogRow& row : split_rows(header, ','))
      for (const std::string& cell : row.cells) t.columns.push_back({cell, split_name(cell).unit, {1, 2, 3}, false});
    return find_columns(t, {});
  };
  using R = LogRole;
  CHECK(columns("Lap,Elapsed Time (ms),Speed (MPH),Latitude,Longitude,Lateral Acceleration (m/s^2),Longitudinal "
                "Acceleration (m/s^2),Throttle (%),Brake Pressure (bar)") ==
        LogColumns{{R::lap, 0}, {R::time, 1}, {R::speed, 2}, {R::latitude, 3}, {R::longitude, 4}, {R::brake, 8}});
  CHECK(columns("time,Engine Speed (rpm),GPS Speed (km/h),Brake Temp FL (C),BrakePressureFront,GPS_Altitude") ==
        LogColumns{{R::time, 0}, {R::speed, 2}, {R::brake, 4}, {R::altitude, 5}});
  CHECK(columns("Lap Time (s),Time (s),Wheel Speed FL,Vehicle Speed,Speed Accuracy,Lat Accel (g),Battery (V)") ==
        LogColumns{{R::time, 1}, {R::speed, 3}});
  CHECK(columns("t,v") == LogColumns{{R::time, 0}, {R::speed, 1}});
  CHECK(columns("Distance (m),Speed") == LogColumns{{R::distance, 0}, {R::speed, 1}});
}

TEST_CASE(
    "columns that are told may be titles without unit or numbers and wrong ones are refused with the names here") {
  const std::string text = log_text("A (s),B (km/h),C", invented_drive(10), [](const Sample& s) {
    return number(s.time) + "," + number(3.6 * s.speed) + ",7";
  });
  CHECK(refusal(text).find("--column speed=NAME") != std::string::npos);
  LogOptions o;
  o.columns = {{LogRole::time, "a"}, {LogRole::speed, "2"}};
  CHECK(top_speed(read(text, o)) > 30);
  o.columns[LogRole::speed] = "D";
  CHECK(refusal(text, o).find("A (s), B (km/h), C") != std::string::npos);
  o.columns[LogRole::speed] = "C";
  CHECK(refusal(text, o).find("nothing but 7") != std::string::npos);
}

TEST_CASE("a column with the right title but impossible numbers is passed over and that is said") {
  const LogReading r = read(log_text("Time (s),Speed 1 (km/h),Speed 2 (km/h)", invented_drive(10), [](const Sample& s) {
    return number(s.time) + ",-270," + number(3.6 * s.speed);
  }));
  CHECK(guess(r, "speed").choice == "column `Speed 2 (km/h)`");
}

namespace {

// The invented drive at a share of its speed, so that the top speed alone does not tell km/h from mph.
std::vector<Sample> slow_drive(double share) {
  std::vector<Sample> out = invented_drive(10);
  for (Sample& s : out) s.time /= share, s.speed *= share;
  return out;
}

}  // namespace

TEST_CASE("decimal commas without a unit are km/h even where the drive is slow") {
  const std::string text = log_text("Zeit;Geschwindigkeit", slow_drive(0.6), [](const Sample& s) {
    return number(s.time, 3, ',') + ";" + number(3.6 * s.speed, 1, ',');
  });
  const LogReading r = read(text);
  CHECK(guess(r, "speed unit").choice == "km/h");
  CHECK(guess(r, "speed unit").doubtful);
  CHECK(guess(r, "speed unit").reason.find("decimal commas go with km/h") != std::string::npos);
  CHECK(guess(r, "speed unit").reason.find("as mph it would be top speed") != std::string::npos);
}

TEST_CASE("a distance column settles the unit of the speed whether its own is known or not") {
  for (const auto& [title, per_metre] :
       {std::pair{"Distance (km)", 1e-3}, {"Distance", 1.0}, {"Dist (ft)", 1 / 0.3048}})
    for (const auto& [unit, per_speed] : {std::pair{"km/h", 3.6}, {"mph", 1 / 0.44704}, {"m/s", 1.0}}) {
      CAPTURE(title, unit);
      const LogReading r = read(log_text(
          fmt::format("Time,{},Speed", title), slow_drive(0.6), [m = per_metre, v = per_speed](const Sample& s) {
            return number(s.time) + "," + number(s.distance * m, 5) + "," + number(s.speed * v, 2);
          }));
      CHECK(guess(r, "speed unit").choice == unit);
      CHECK_FALSE(guess(r, "speed unit").doubtful);
      CHECK(guess(r, "speed unit").reason.find("1.00 of the way in the distance column") != std::string::npos);
    }
}

TEST_CASE("an accelerometer speaks for the unit of the speed") {
  std::vector<Sample> drive = slow_drive(0.6);
  std::vector<double> push(drive.size(), 0);
  for (std::size_t i = 1; i + 1 < drive.size(); ++i)
    push[i] = (drive[i + 1].speed - drive[i - 1].speed) / (drive[i + 1].time - drive[i - 1].time) / 9.80665;
  for (const auto& [unit, per_speed] : {std::pair{"km/h", 3.6}, {"mph", 1 / 0.44704}}) {
    CAPTURE(unit);
    std::size_t row = 0;
    const LogReading r = read(log_text("Time,Speed,Long Accel", drive, [&, v = per_speed](const Sample& s) {
      return number(s.time) + "," + number(s.speed * v, 2) + "," + number(push[row++], 4);
    }));
    CHECK(guess(r, "speed unit").choice == unit);
    CHECK(guess(r, "speed unit").reason.find("of the acceleration logged") != std::string::npos);
  }
}

TEST_CASE("a log of one row says that it is one") {
  CHECK(refusal("time,speed\n1,20\n").find("found a single row of numbers, expected a drive of many rows") !=
        std::string::npos);
  CHECK(refusal("time,speed\n").find("found no rows of numbers") != std::string::npos);
}
