// SPDX-License-Identifier: MIT
// The material tables that the program carries, held against the sources they name.
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/io/builtin.hpp"

using namespace hatring;

namespace {

const models::Material& material(const std::string& name) {
  return io::builtin_materials().at(name);
}
double kelvin(double celsius) {
  return celsius + 273.15;
}

}  // namespace

TEST_CASE(
    "check 19: 6061-T6 proof strength falls by the ratios of EN 1999-1-2 table 1a (from memory, standard not read)") {
  const models::Curve& proof = material("al_6061_t6").proof_strength;
  const double ratios[][2] = {{20, 1}, {100, 0.95}, {150, 0.91}, {200, 0.79}, {250, 0.55}, {300, 0.31}, {350, 0.10}};
  for (const auto& [celsius, ratio] : ratios) {
    INFO(celsius << " degC");
    CHECK(proof(kelvin(celsius)) / proof(kelvin(20)) == Approx(ratio).margin(6e-4));  // the table is kept in MPa
  }
}

TEST_CASE(
    "iron: mean specific heat is that stated by EN 1561, 460 over 20 to 200 and 535 over 20 to 600 degC (from "
    "memory)") {
  for (const char* name : {"grey_iron", "high_carbon_iron"}) {
    const models::Curve& cp = material(name).specific_heat;
    CHECK(cp.integral(kelvin(20), kelvin(200)) / 180 == Approx(460).epsilon(0.005));
    CHECK(cp.integral(kelvin(20), kelvin(600)) / 580 == Approx(535).epsilon(0.005));
  }
}

TEST_CASE("aluminium: soaked for long it is weaker than in short exposure, and 7075 falls below 6061 when hot") {
  const models::Material &a = material("al_6061_t6"), &b = material("al_7075_t6");
  for (const double celsius : {100.0, 200.0, 260.0})
    CHECK(a.soaked_proof_strength(kelvin(celsius)) < a.proof_strength(kelvin(celsius)) * 1.01);
  CHECK(b.soaked_ultimate_strength(kelvin(24)) > a.soaked_ultimate_strength(kelvin(24)));
  CHECK(b.soaked_ultimate_strength(kelvin(204)) < a.soaked_ultimate_strength(kelvin(204)));
}

TEST_CASE("fatigue: tables stand where their comments say (handbook points and rules from memory)") {
  const auto amplitude = [](const char* name, double cycles) {
    const models::FatigueConstants& c = material(name).fatigue;
    return c.strength_coefficient * std::pow(2 * cycles, c.strength_exponent);
  };
  CHECK(amplitude("al_6061_t6", 5e8) == Approx(97e6).epsilon(0.01));
  CHECK(amplitude("al_7075_t6", 5e8) == Approx(159e6).epsilon(0.01));
  CHECK(amplitude("stainless_17_4", 1e6) == Approx(620e6).epsilon(0.01));
  CHECK(amplitude("ti_6al_4v", 1e7) == Approx(510e6).epsilon(0.01));
  for (const char* name : {"carbon_steel", "steel_4130", "stainless_304"})
    CHECK(amplitude(name, 1e6) == Approx(0.5 * material(name).ultimate_strength(kelvin(20))).epsilon(0.01));
  for (const char* name :
       {"carbon_steel", "steel_4130", "stainless_304", "stainless_17_4", "ti_6al_4v", "al_6061_t6", "al_7075_t6"})
    CHECK(amplitude(name, 1e3) == Approx(0.9 * material(name).ultimate_strength(kelvin(20))).epsilon(0.01));
  for (const char* name : {"bolt_10_9", "bolt_12_9", "a286"})
    CHECK(amplitude(name, 2e6) == Approx(54.2e6).epsilon(0.01));
  for (const char* name : {"grey_iron", "high_carbon_iron"}) {
    const models::FatigueConstants &c = material(name).fatigue,
                                   slopes =
                                       models::universal_slopes(material(name).ultimate_strength(kelvin(20)), 0.006);
    CHECK(c.strength_coefficient == Approx(slopes.strength_coefficient).epsilon(0.002));
    // The ductility itself: universal slopes are too kind to cast iron here.
    CHECK(c.ductility_coefficient == Approx(0.006));
    CHECK(c.has_strain_life());
  }
}

TEST_CASE("over-ageing: aluminium for hats has it and steel has not and 7075 ages sooner than 6061") {
  const models::Overageing &a = material("al_6061_t6").overageing, &b = material("al_7075_t6").overageing;
  CHECK(models::activation_energy(b) == Approx(models::activation_energy(a)).epsilon(0.005));
  const double soaked = models::overaged_strength_left(10000 * 3600 / models::overageing_time(b, kelvin(149)));
  CHECK(soaked == Approx(214.0 / 572).epsilon(0.02));
  for (const auto& [name, m] : io::builtin_materials())
    CHECK(m.overageing.known() == (name == "al_6061_t6" || name == "al_7075_t6"));
}

TEST_CASE("every material can hold and pass on heat over the temperatures of its table") {
  for (const auto& [name, m] : io::builtin_materials()) {
    INFO(name);
    CHECK(m.density > 500);
    for (const double celsius : {20.0, 100.0, 300.0, 600.0}) {
      CHECK(m.specific_heat(kelvin(celsius)) > 300);
      CHECK(m.conductivity(kelvin(celsius)) > 0.02);
    }
    if (!m.mean_expansion.empty()) CHECK(m.thermal_strain(kelvin(300)) > 0);
  }
}
