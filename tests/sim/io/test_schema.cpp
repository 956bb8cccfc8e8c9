// SPDX-License-Identifier: MIT
#include <set>

#include "sim/io/builtin.hpp"
#include "sim/io/schema/schema.hpp"
#include "sim/io/steps.hpp"
#include "tests/sim/io/sample.hpp"

using namespace hatring;
using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

void check_described(const std::string& path, const SectionBase& section) {
  std::set<std::string> seen;
  for (const Key& key : section.keys()) {
    CAPTURE(path, key.name);
    CHECK(seen.insert(key.name).second);
    CHECK_FALSE(key.type.empty());
    if (!key.fallback.text.empty()) CHECK_FALSE(key.fallback.reason.empty());
    CHECK((key.computed == nullptr) == key.computed_text.empty());
    CHECK((key.applies == nullptr) == key.when_text.empty());
    if (key.section != nullptr) check_described(path + "." + key.name, *key.section);
  }
}

}  // namespace

TEST_CASE("every key is described and every default has a reason") {
  check_described("", case_section());
  check_described("materials", material_section());
  check_described("trace", trace_section());
  for (const StepSection& step : step_sections()) check_described(step.mark, *step.section);
}

TEST_CASE("the key reference names every key") {
  const std::string text = schema_markdown();
  for (const char* key : {"`tyre_slip_share`", "`swept_inner_diameter`", "`float`", "`shim_resistance`",
                          "`duct_efficiency`", "`fluid_margin`", "`cooldown_laps`", "`deceleration`",
                          "`brake_threshold`", "`mean_expansion`", "`parked_interval`", "`convection`", "`grey_iron`"})
    CHECK_THAT(text, Contains(key));
  CHECK_THAT(text, Contains("| `mass` | a mass, from 100 kg to 10000 kg | **required** |"));
  CHECK_THAT(text, Contains("**required** for floating joints"));
}

TEST_CASE("defaults of the schema are those of the plain structs") {
  const session::Case c = read_case_text(kSample, "s.yaml").c;
  const session::Car car;
  CHECK(c.car.drag_area == car.drag_area);
  CHECK(c.car.tyre_radius == car.tyre_radius);
  CHECK(c.car.rolling_resistance == car.rolling_resistance);
  CHECK(c.car.engine_drag == car.engine_drag);
  CHECK(c.car.rotating_factor == car.rotating_factor);
  const session::Brakes brakes;
  CHECK(c.brakes.rise_time == brakes.rise_time);
  CHECK(c.brakes.dead_band == brakes.dead_band);
  CHECK(c.brakes.hot_side_factor == brakes.hot_side_factor);
  CHECK(c.brakes.front.rotor.ring.emissivity == brakes.front.rotor.ring.emissivity);
  CHECK(c.brakes.front.cooling.duct_efficiency == brakes.front.cooling.duct_efficiency);
  CHECK_THAT(c.brakes.front.caliper.piston_wall, WithinRel(brakes.front.caliper.piston_wall, 1e-12));
  CHECK_THAT(c.brakes.front.caliper.piston_length, WithinRel(brakes.front.caliper.piston_length, 1e-12));
  CHECK_THAT(c.air.temperature, WithinRel(session::Air{}.temperature, 1e-12));
  CHECK(c.limits.rate_window == session::Limits{}.rate_window);
  CHECK(c.limits.near == session::Limits{}.near);
  CHECK(c.physics.mesh == session::Physics{}.mesh);
  CHECK(c.output.interval == session::Output{}.interval);
  CHECK(c.output.parked_interval == session::Output{}.parked_interval);
}

TEST_CASE("built-in materials are read in SI") {
  const auto& materials = builtin_materials();
  REQUIRE(materials.count("grey_iron") == 1);
  const models::Material& iron = materials.at("grey_iron");
  CHECK(iron.name == "grey_iron");
  CHECK_THAT(iron.density, WithinRel(7200.0, 1e-12));
  CHECK_THAT(iron.conductivity(293.15), WithinRel(50.0, 1e-9));
  CHECK_THAT(iron.youngs_modulus(293.15), WithinRel(110e9, 1e-9));
  CHECK_THAT(iron.highest_service, WithinRel(650 + 273.15, 1e-12));
  CHECK_FALSE(iron.highest_service_reason.empty());
  for (const auto& [name, material] : materials) {
    CAPTURE(name);
    CHECK(material.density > 0);
    CHECK_FALSE(material.conductivity.empty());
    CHECK_FALSE(material.specific_heat.empty());
  }
}

TEST_CASE("a config adds materials and changes built-in ones key by key") {
  const auto read = [](const std::string& materials) {
    return read_case_text(kSample + "materials:\n" + materials, "s.yaml").c;
  };
  const session::Case c = read(
      "  grey_iron: {emissivity: 0.8, conductivity: {temperature: [20 degC, 100 degC], values: [50 W/m/K, 48 W/m/K]}}\n"
      "  mine: {density: 7.9 g/cm3, conductivity: {temperature: {unit: degF, values: [68, 212]}, unit: W/m/K, values: "
      "[16, 17]}, "
      "specific_heat: {temperature: [20 degC, 100 degC], values: {unit: kJ/kg/K, values: [0.5, 0.52]}}, "
      "mean_expansion: 17 um/m/K}\n");
  const models::Material& iron = c.materials.at("grey_iron");
  CHECK(iron.emissivity == 0.8);
  CHECK_THAT(iron.conductivity(373.15), WithinRel(48.0, 1e-9));
  CHECK_THAT(iron.density, WithinRel(7200.0, 1e-12));
  const models::Material& mine = c.materials.at("mine");
  CHECK_THAT(mine.density, WithinRel(7900.0, 1e-12));
  CHECK_THAT(mine.conductivity(373.15), WithinRel(17.0, 1e-9));
  CHECK_THAT(mine.specific_heat(293.15), WithinRel(500.0, 1e-9));
  CHECK_THAT(mine.mean_expansion(500), WithinRel(17e-6, 1e-12));
  CHECK(mine.poisson == 0.3);
}

TEST_CASE("fatigue constants and over-ageing of a material are read and changed key by key") {
  const session::Case c =
      read_case_text(kSample +
                         "materials:\n"
                         "  mine: {density: 7.9 g/cm3, conductivity: 20 W/m/K, specific_heat: 500 "
                         "J/kg/K, fatigue: {strength_coefficient: 900 MPa}}\n"
                         "  al_6061_t6: {fatigue: {mean_stress: goodman}, overageing: {time: 20 h}}\n",
                     "s.yaml")
          .c;
  const models::FatigueConstants& fatigue = c.materials.at("mine").fatigue;
  CHECK_THAT(fatigue.strength_coefficient, WithinRel(900e6, 1e-12));
  const models::FatigueConstants plain;
  CHECK(fatigue.strength_exponent == plain.strength_exponent);
  CHECK(fatigue.ductility_coefficient == plain.ductility_coefficient);
  CHECK(fatigue.ductility_exponent == plain.ductility_exponent);
  CHECK(fatigue.mean_stress == plain.mean_stress);
  CHECK(c.materials.at("mine").compressive_ratio == models::Material{}.compressive_ratio);
  CHECK_FALSE(c.materials.at("mine").overageing.known());
  const models::Material& hat = c.materials.at("al_6061_t6");
  CHECK(hat.fatigue.mean_stress == models::MeanStress::goodman);
  CHECK_THAT(hat.fatigue.strength_coefficient, WithinRel(514e6, 1e-9));
  CHECK_THAT(hat.overageing.time, WithinRel(72000.0, 1e-12));
  CHECK_THAT(hat.overageing.hotter_time, WithinRel(14400.0, 1e-12));
}
