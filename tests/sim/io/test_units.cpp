// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include <string>
#include <vector>

#include "sim/io/units.hpp"

using namespace hatring::io;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

struct Row {
  std::string text;
  Quantity kind;
  double si;
};

std::string hint_of(const std::string& text, Quantity kind) {
  try {
    static_cast<void>(parse_quantity(text, kind));
  } catch (const UnitError& e) {
    return e.hint();
  }
  FAIL("no error for " << text);
  return {};
}

}  // namespace

TEST_CASE("every unit of the workshop reads as it is meant") {
  // SI values by definition of the units: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 lbf = 1 lb x 9.80665 m/s2,
  // 1 BTU (IT) = 1055.05585262 J, 1 mi = 1609.344 m, 1 US gal = 231 in3.
  const auto row = GENERATE(values<Row>({
      {"310 mm", Quantity::length, 0.310},
      {"11.75 in", Quantity::length, 11.75 * 0.0254},
      {"1 inch", Quantity::length, 0.0254},
      {"20 thou", Quantity::length, 20 * 0.0000254},
      {"0.45 m", Quantity::length, 0.45},
      {"3.5 km", Quantity::length, 3500},
      {"2.2 mi", Quantity::length, 2.2 * 1609.344},
      {"50 \u00b5m", Quantity::length, 50e-6},
      {"60 cm2", Quantity::area, 60e-4},
      {"60 cm^2", Quantity::area, 60e-4},
      {"60 cm\u00b2", Quantity::area, 60e-4},
      {"30 cm3", Quantity::volume, 30e-6},
      {"30 mL", Quantity::volume, 30e-6},
      {"1 gal", Quantity::volume, 231 * 0.0254 * 0.0254 * 0.0254},
      {"1140 kg", Quantity::mass, 1140},
      {"2950 lb", Quantity::mass, 2950 * 0.45359237},
      {"12 lbs", Quantity::mass, 12 * 0.45359237},
      {"16 oz", Quantity::mass, 0.45359237},
      {"350 N", Quantity::force, 350},
      {"12 kN", Quantity::force, 12000},
      {"100 lbf", Quantity::force, 100 * 0.45359237 * 9.80665},
      {"100 km/h", Quantity::speed, 100 / 3.6},
      {"100 kph", Quantity::speed, 100 / 3.6},
      {"100 kmh", Quantity::speed, 100 / 3.6},
      {"64 mph", Quantity::speed, 64 * 1609.344 / 3600},
      {"64 MPH", Quantity::speed, 64 * 1609.344 / 3600},
      {"28 m/s", Quantity::speed, 28},
      {"28 m s-1", Quantity::speed, 28},
      {"3 m/s2", Quantity::acceleration, 3},
      {"0.8 g", Quantity::acceleration, 0.8 * 9.80665},
      {"25 degC", Quantity::temperature, 298.15},
      {"25 C", Quantity::temperature, 298.15},
      {"25 \u00b0C", Quantity::temperature, 298.15},
      {"25 deg C", Quantity::temperature, 298.15},
      {"77 degF", Quantity::temperature, 298.15},
      {"77 F", Quantity::temperature, 298.15},
      {"298.15 K", Quantity::temperature, 298.15},
      {"-40 F", Quantity::temperature, 233.15},
      {"100 C", Quantity::temperature_difference, 100},
      {"100 K", Quantity::temperature_difference, 100},
      {"180 F", Quantity::temperature_difference, 100},
      {"180 degF", Quantity::temperature_difference, 100},
      {"400 K/s", Quantity::temperature_rate, 400},
      {"400 degC/s", Quantity::temperature_rate, 400},
      {"180 F/s", Quantity::temperature_rate, 100},
      {"45 s", Quantity::time, 45},
      {"20 min", Quantity::time, 1200},
      {"1:30", Quantity::time, 90},
      {"1:32.5", Quantity::time, 92.5},
      {"1:02:03", Quantity::time, 3723},
      {"100 ms", Quantity::time, 0.1},
      {"1013 hPa", Quantity::pressure, 101300},
      {"60 bar", Quantity::pressure, 6e6},
      {"900 psi", Quantity::pressure, 900 * 0.45359237 * 9.80665 / (0.0254 * 0.0254)},
      {"250 MPa", Quantity::pressure, 250e6},
      {"20 kW", Quantity::power, 20000},
      {"100 PS", Quantity::power, 100 * 75 * 9.80665},
      {"300 hp", Quantity::power, 300 * 550 * 0.3048 * 0.45359237 * 9.80665},
      {"625 kJ", Quantity::energy, 625000},
      {"10 BTU", Quantity::energy, 10550.5585262},
      {"25 N.m", Quantity::torque, 25},
      {"25 Nm", Quantity::torque, 25},
      {"18 lb.ft", Quantity::torque, 18 * 0.45359237 * 9.80665 * 0.3048},
      {"18 lb-ft", Quantity::torque, 18 * 0.45359237 * 9.80665 * 0.3048},
      {"18 ft lb", Quantity::torque, 18 * 0.45359237 * 9.80665 * 0.3048},
      {"0.002 m2 K/W", Quantity::resistance_area, 0.002},
      {"25 W/m2/K", Quantity::heat_transfer, 25},
      {"25 W/m2K", Quantity::heat_transfer, 25},
      {"25 W/(m2 K)", Quantity::heat_transfer, 25},
      {"25 W m-2 K-1", Quantity::heat_transfer, 25},
      {"0 W/K", Quantity::conductance, 0},
      {"50 W/m/K", Quantity::conductivity, 50},
      {"50 W/mK", Quantity::conductivity, 50},
      {"50 W/m/degC", Quantity::conductivity, 50},
      {"7200 kg/m3", Quantity::density, 7200},
      {"7.2 g/cm3", Quantity::density, 7200},
      {"460 J/kg/K", Quantity::specific_heat, 460},
      {"0.13 BTU/lb/F", Quantity::specific_heat, 0.13 * 4186.8},
      {"0.46 kJ/kg/C", Quantity::specific_heat, 460},
      {"11.7e-6 1/K", Quantity::expansion, 11.7e-6},
      {"11.7e-6/K", Quantity::expansion, 11.7e-6},
      {"11.7 um/m/K", Quantity::expansion, 11.7e-6},
      {"6.5e-6 1/F", Quantity::expansion, 11.7e-6},
      {"0.66", Quantity::number, 0.66},
      {"66 %", Quantity::number, 0.66},
      {"+3 m/s2", Quantity::acceleration, 3},
  }));
  CAPTURE(row.text);
  if (row.si == 0)
    CHECK(parse_quantity(row.text, row.kind) == 0);
  else
    CHECK_THAT(parse_quantity(row.text, row.kind), WithinRel(row.si, 1e-12));
}

TEST_CASE("what is not a quantity of its kind is refused") {
  struct Bad {
    std::string text;
    Quantity kind;
    std::string says;
  };
  const auto bad = GENERATE(values<Bad>({
      {"310", Quantity::length, "without a unit"},
      {"310 kg", Quantity::length, "(a mass), expected a length"},
      {"5000 lb", Quantity::force, "(a mass), expected a force"},
      {"20 N.m", Quantity::force, "(an energy), expected a force"},
      {"25 degC", Quantity::length, "(a temperature), expected a length"},
      {"310 mmm", Quantity::length, "`mmm` is not a unit"},
      {"1 140 kg", Quantity::mass, "is not a unit"},
      {"1,5 mm", Quantity::length, "decimal comma"},
      {"1.140,5 kg", Quantity::mass, "decimal comma"},
      {"wide", Quantity::length, "expected a length such as"},
      {"", Quantity::length, "expected a length"},
      {"nan mm", Quantity::length, "expected a length"},
      {"inf mm", Quantity::length, "expected a length"},
      {"0x10 mm", Quantity::length, "is not a unit"},
      {"-300 degC", Quantity::temperature, "below absolute zero"},
      {"5 K since 2000-01-01", Quantity::temperature, "is not a unit"},
      {"5 Hz", Quantity::time, "expected a time"},
      {"100 W/m2/K", Quantity::resistance_area, "(a heat transfer coefficient), expected a thermal resistance"},
      {"50 W/mK", Quantity::conductance, "(a conductivity), expected a conductance"},
      {"1:75", Quantity::time, "is not a unit"},
      {"20 m", Quantity::time, "(a length), expected a time"},
      {"0.3 mm", Quantity::number, "expected a plain number"},
      {"30 deg", Quantity::number, "expected a plain number"},
      {"5 coulomb", Quantity::length, "expected a length"},
      {"5 \u00e9", Quantity::length, "is not a unit"},
  }));
  CAPTURE(bad.text);
  CHECK_THROWS_WITH(parse_quantity(bad.text, bad.kind), Contains(bad.says));
}

TEST_CASE("unit errors propose what was meant") {
  CHECK(hint_of("310", Quantity::length) == "did you mean `310 mm`?");
  CHECK(hint_of("310 mmm", Quantity::length) == "did you mean `310 mm`?");
  CHECK(hint_of("5000 lb", Quantity::force) == "did you mean `5000 lbf`?");
  CHECK(hint_of("100 lbf", Quantity::mass) == "did you mean `100 lb`?");
  CHECK(hint_of("20 m", Quantity::time) == "did you mean `20 min`?");
  CHECK(hint_of("1,5 mm", Quantity::length) == "did you mean `1.5 mm`?");
  CHECK(hint_of("100 km/j", Quantity::speed) == "did you mean `100 km/h`?");
}

TEST_CASE("columns are converted at once") {
  std::vector<double> speeds{0, 36, 100};
  convert_to_si(speeds, "km/h", Quantity::speed);
  CHECK_THAT(speeds[1], WithinRel(10.0, 1e-14));
  std::vector<double> temperatures{20, 100};
  convert_to_si(temperatures, "degC", Quantity::temperature);
  CHECK_THAT(temperatures[0], WithinRel(293.15, 1e-14));
  std::vector<double> shares{50};
  convert_to_si(shares, "%", Quantity::number);
  CHECK(shares[0] == 0.5);
  CHECK_THROWS_WITH(convert_to_si(speeds, "kg", Quantity::speed), Contains("(a mass), expected a speed"));
  CHECK_THROWS_WITH(convert_to_si(shares, "mm", Quantity::number), Contains("expected none"));
  std::vector<double> cold{-300};
  CHECK_THROWS_WITH(convert_to_si(cold, "degC", Quantity::temperature), Contains("absolute zero"));
}
