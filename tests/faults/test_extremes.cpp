// SPDX-License-Identifier: MIT
// Inputs at the ends of what is possible, run from a Case to its answers: the right answer, or an error that says
// where.
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "sim/answer/run.hpp"
#include "sim/io/read_case.hpp"

namespace hatring {
namespace {

//! The demo's car and brakes with another drive, quickly.
session::Case demo(const std::string& drive, std::vector<std::string> set = {}) {
  set.push_back("session=" + drive);
  set.emplace_back("output.interval=1 s");
  set.emplace_back("output.parked_interval=60 s");
  return io::read_case("configs/demo.yaml", {.set = set, .mesh = session::Mesh::coarse}).c;
}

const std::string kLaps = "[{laps: 1, trace: tracks/tern_hollow.yaml}]";

//! Finite everywhere, and the heat accounted for.
void check_sound(const answer::Run& run) {
  for (const answer::AxleAnswers* axle : {&run.answers.front, &run.answers.rear}) {
    const answer::Balance& b = axle->balance;
    const double all = std::abs(b.friction) + std::abs(b.stored) + std::abs(b.convection) + std::abs(b.radiation) +
                       std::abs(b.to_wheel);
    CHECK(std::isfinite(all));
    CHECK(std::abs(b.residual) <= 1e-7 * all + 1e-6);
    for (const auto& [name, peak] : axle->peaks) {
      INFO(name);
      CHECK(std::isfinite(peak.value));
      CHECK(peak.value > 0);
    }
  }
}

const std::vector<double>& temperature(const answer::AxleHistory& axle, const std::string& name) {
  for (const answer::Column& column : axle.columns)
    if (column.group == "temperature" && column.name == name) return column.values;
  throw std::out_of_range(name);
}

}  // namespace

TEST_CASE("a day parked ends at the temperature of the air") {
  const session::Case c = demo("[{park: 24 h}]", {"initial={default: 24 degC, ring_mean: 600 degC, caliper: 90 degC}"});
  const answer::Run run = answer::run(c);
  check_sound(run);
  CHECK(run.drive.duration() == Approx(86400));
  for (const char* part : {"ring_mean", "hat_bell", "caliper", "fluid"})
    CHECK(temperature(run.history.front, part).back() == Approx(c.air.temperature).margin(0.5));
}

TEST_CASE("hours at no speed under steady heat come to rest") {
  const answer::Run run = answer::run(demo("[{hold: 10 h, speed: 0 km/h, heat: 100 W}]"));
  check_sound(run);
  const std::vector<double>& ring = temperature(run.history.front, "ring_mean");
  CHECK(ring.back() > 300);
  // Settled: the last hour changes nothing, and what goes in goes out.
  CHECK(ring.back() == Approx(ring[ring.size() - 1 - 3600]).margin(0.05));
  CHECK(run.answers.front.balance.friction == Approx(100. * 36000));
}

TEST_CASE("a session of one second") {
  const answer::Run run = answer::run(demo("[{hold: 1 s, speed: 100 km/h, heat: 20 kW}]"));
  check_sound(run);
  CHECK(run.answers.front.balance.friction == Approx(20e3));
  CHECK(run.answers.front.balance.stored == Approx(20e3).epsilon(0.05));
}

TEST_CASE("a session of a day's driving") {
  const answer::Run run = answer::run(
      demo("[{laps: 1000, trace: tracks/tern_hollow.yaml}]", {"output.interval=60 s", "physics.properties=constant"}));
  check_sound(run);
  CHECK(run.drive.duration() > 20 * 3600);
  // It repeats: laps an hour apart are alike.
  const std::vector<answer::LapRow>& laps = run.answers.front.laps;
  CHECK(laps.back().heat == Approx(laps[laps.size() - 50].heat).epsilon(1e-6));
}

TEST_CASE("iron far beyond its table is told and not made up") {
  const answer::Run run = answer::run(demo("[{hold: 10 min, speed: 60 km/h, heat: 200 kW}]"));
  check_sound(run);
  CHECK(run.answers.front.peaks.at("ring_mean").value > 1200);
  bool told = false;
  for (const std::string& warning : run.answers.warnings)
    told = told || warning.find("known only to") != std::string::npos;
  CHECK(told);
}

TEST_CASE("skins of a hundredth of a millimetre") {
  session::Case c = demo(kLaps);
  for (session::Brake* brake : {&c.brakes.front, &c.brakes.rear}) {
    brake->rotor.ring.cheek_thickness = 1e-5;
    brake->pads.thickness = 1e-5;
    brake->pads.backing_thickness = 1e-5;
  }
  check_sound(answer::run(c));
}

TEST_CASE("contacts that hardly resist and contacts that hardly conduct") {
  const std::string value = GENERATE("1e6 W/K", "1e9 W/K", "1e-9 W/K", "0 W/K");
  INFO(value);
  const answer::Run run =
      answer::run(demo(kLaps, {"physics.links={hat_hub: " + value + ", hat_wheel: " + value + "}"}));
  check_sound(run);
  const double apart = temperature(run.history.front, "hat_face").back() - temperature(run.history.front, "hub").back();
  if (value[1] == 'e' && value[2] != '-') CHECK(std::abs(apart) < 0.1);
  if (value[0] == '0') CHECK(apart > 5);
}

TEST_CASE("convection of a water bath holds everything near the air") {
  check_sound(answer::run(demo(kLaps, {"physics.convection={constant: 100000 W/m2/K}"})));
}

TEST_CASE("the split by effusivity follows from the materials alone") {
  session::Case c = demo("[{hold: 60 s, speed: 100 km/h, heat: 10 kW}]", {"physics.partition=effusivity"});
  const auto to_pads = [](const session::Case& of) { return answer::run(of).answers.front.balance.to_pads; };
  const double as_it_is = to_pads(c);
  CHECK(as_it_is > 0);
  CHECK(as_it_is < 0.5 * 600e3);
  // Four times the density: twice the effusivity, so the ring's share over the pads' doubles.
  const double ratio = (600e3 - as_it_is) / as_it_is;
  c.materials.at(c.brakes.front.rotor.ring.material).density *= 4;
  const double heavier = to_pads(c);
  CHECK((600e3 - heavier) / heavier == Approx(2 * ratio).epsilon(1e-6));
}

TEST_CASE("a lap with standing starts and stops") {
  check_sound(
      answer::run(demo("[{laps: 3, trace: {time: {unit: s, values: [0, 3600, 3601, 3604, 3605, 7200]}, speed: "
                       "{unit: m/s, values: [0, 0, 5, 5, 0, 0]}}}]")));
}

TEST_CASE("numbers that are none are refused wherever they come in") {
  const double bad = GENERATE(std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity());
  session::Case c = demo(kLaps);
  const auto refused = [&](const char* what) {
    INFO(what << " = " << bad);
    CHECK_THROWS_AS(answer::run(c), std::exception);
    c = demo(kLaps);
  };
  c.car.mass = bad;
  refused("car.mass");
  c.air.temperature = bad;
  refused("air.temperature");
  c.air.wind = bad;
  refused("air.wind");
  c.initial.everything = bad;
  refused("initial.default");
  c.initial.node["caliper"] = bad;
  refused("initial.caliper");
  c.traces.at(0).speed.at(7) = bad;
  refused("trace speed");
  c.brakes.front.rotor.ring.thickness = bad;
  refused("ring thickness");
  c.brakes.front.rotor.hat.depth = bad;
  refused("hat depth");
  c.brakes.front.pads.area = bad;
  refused("pad area");
  c.brakes.front.pads.thickness = bad;
  refused("pad thickness");
  c.brakes.front.caliper.mass = bad;
  refused("caliper mass");
  c.brakes.front.cooling.duct_area = bad;
  refused("duct area");
  c.brakes.front.cooling.scale = bad;
  refused("cooling scale");
  c.materials.at("high_carbon_iron").density = bad;
  refused("density");
  c.brakes.front.rotor.ring.emissivity = bad;
  refused("emissivity");
  c.physics.links["hat_hub"] = bad;
  refused("links.hat_hub");
}

}  // namespace hatring
