// SPDX-License-Identifier: MIT
#include <algorithm>

#include "tests/sim/io/sample.hpp"

using namespace hatring;
using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

const session::Assumption* assumption(const session::Case& c, const std::string& key) {
  const auto found =
      std::find_if(c.assumptions.begin(), c.assumptions.end(), [&](const auto& a) { return a.key == key; });
  return found == c.assumptions.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("a session reads into a case in SI") {
  const session::Case c = read_case_text(kSample, "dir/evening.yaml").c;
  CHECK(c.name == "evening");
  CHECK(c.car.mass == 1140);
  CHECK(c.brakes.front_share == 0.66);
  const session::Rotor& rotor = c.brakes.rear.rotor;
  CHECK_THAT(rotor.ring.outer_diameter, WithinRel(0.310, 1e-12));
  CHECK(rotor.ring.vanes.count == 40);
  CHECK(rotor.hat.material == "al_6061_t6");
  CHECK(rotor.joint.kind == session::JointKind::floating);
  CHECK_THAT(rotor.joint.float_clearance, WithinRel(0.0003, 1e-12));
  CHECK(rotor.joint.preload == 0);
  CHECK_THAT(c.brakes.front.pads.area, WithinRel(0.0055, 1e-12));
  REQUIRE(c.traces.size() == 1);
  CHECK_THAT(c.traces[0].speed[1], WithinRel(150 / 3.6, 1e-12));
  REQUIRE(c.session.size() == 2);
  CHECK(std::get<session::DriveStep>(c.session[0]).laps == 3);
  CHECK(std::get<session::ParkStep>(c.session[1]).duration == 1200);
  CHECK(c.warnings.empty());
}

TEST_CASE("every default that was used is recorded with its reason") {
  const session::Case c = read_case_text(kSample, "s.yaml").c;
  for (const session::Assumption& a : c.assumptions) {
    CAPTURE(a.key);
    CHECK_FALSE(a.value.empty());
    CHECK_FALSE(a.reason.empty());
  }
  REQUIRE(assumption(c, "car.tyre_slip_share") != nullptr);
  CHECK(assumption(c, "car.tyre_slip_share")->value == "0.05");
  CHECK(assumption(c, "brakes.front.pads.friction") != nullptr);
  CHECK(assumption(c, "session.0.pace") != nullptr);
  CHECK(assumption(c, "car.mass") == nullptr);
  CHECK(assumption(c, "brakes.front_share") == nullptr);
  const session::Assumption* emissivity = assumption(c, "brakes.front.rotor.hat.emissivity");
  REQUIRE(emissivity != nullptr);
  CHECK_THAT(emissivity->reason, Contains("al_6061_t6"));
}

TEST_CASE("the resolved config alone gives the same case") {
  const Folder folder("round_trip");
  const std::string trace =
      "trace:\n  distance: {unit: m, values: [0, 500, 900]}\n  speed: {unit: mph, values: [60, 90, 60]}\n";
  folder.write("tracks/lap.yaml", trace);
  const std::size_t session_at = kSample.find("session:");
  folder.write("base.yaml", kSample.substr(0, session_at));
  const auto file = folder.write(
      "top.yaml",
      "include: base.yaml\nmaterials:\n  mine: {density: 7000 kg/m3, conductivity: 40 W/m/K, specific_heat: "
      "500 J/kg/K}\ncar: {mass: 2500 lb, driven: \"all\"}\nsession:\n  - {out_lap: tracks/lap.yaml}\n"
      "  - {laps: 2, trace: tracks/lap.yaml}\n  - {laps: 1, trace: {time: {unit: s, values: [0, 9]}, "
      "speed: {unit: m/s, values: [3, 4]}}}\n  - {park: '1:30'}\n");
  ReadOptions options;
  options.set = {"air.temperature=30 degC", "session.1.laps=5"};
  options.mesh = session::Mesh::coarse;
  const ReadResult first = read_case(file, options);
  CHECK(first.c.traces.size() == 2);
  CHECK(first.c.traces[0].name == "lap");
  CHECK(first.c.physics.mesh == session::Mesh::coarse);
  CHECK_THAT(first.resolved_yaml, !Contains("include") && !Contains("lap.yaml"));
  const ReadResult again = read_case_text(first.resolved_yaml, "stored");
  CHECK(again.resolved_yaml == first.resolved_yaml);
  CHECK(again.c.name == "top");
  CHECK(again.c.car.mass == first.c.car.mass);
  CHECK(again.c.air.temperature == first.c.air.temperature);
  CHECK(again.c.physics.mesh == session::Mesh::coarse);
  CHECK(again.c.materials.at("mine").density == 7000);
  REQUIRE(again.c.traces.size() == 2);
  for (std::size_t i = 0; i < 2; ++i) {
    CHECK(again.c.traces[i].name == first.c.traces[i].name);
    CHECK(again.c.traces[i].time == first.c.traces[i].time);
    CHECK(again.c.traces[i].distance == first.c.traces[i].distance);
    CHECK(again.c.traces[i].speed == first.c.traces[i].speed);
  }
  REQUIRE(again.c.session.size() == 4);
  CHECK(std::get<session::DriveStep>(again.c.session[1]).laps == 5);
  CHECK(std::get<session::DriveStep>(again.c.session[1]).trace == 0);
  CHECK(std::get<session::ParkStep>(again.c.session[3]).duration == 90);
  REQUIRE(again.c.assumptions.size() == first.c.assumptions.size());
  for (std::size_t i = 0; i < first.c.assumptions.size(); ++i) {
    CHECK(again.c.assumptions[i].key == first.c.assumptions[i].key);
    CHECK(again.c.assumptions[i].value == first.c.assumptions[i].value);
  }
}

TEST_CASE("a one-piece disc needs no hat material, fasteners or float") {
  std::string yaml = replaced(kSample, "        material: al_6061_t6\n", "");
  yaml = replaced(yaml,
                  "        kind: floating\n        fasteners: 10\n        bolt_circle: 172 mm\n        "
                  "fastener_diameter: 8 mm\n        float: "
                  "0.30 mm\n",
                  "        kind: one_piece\n");
  const session::Case c = read_case_text(yaml, "s.yaml").c;
  CHECK(c.brakes.front.rotor.hat.material == "grey_iron");
  CHECK(c.brakes.front.rotor.joint.fasteners == 0);
  CHECK(assumption(c, "brakes.front.rotor.joint.preload") == nullptr);
}

TEST_CASE("a solid ring needs no cheeks or vanes") {
  std::string yaml = replaced(kSample, "        cheek_thickness: 8 mm\n        vanes: {count: 40, thickness: 5 mm}\n",
                              "        kind: solid\n");
  CHECK(read_case_text(yaml, "s.yaml").c.brakes.front.rotor.ring.kind == session::RingKind::solid);
}

TEST_CASE("a rigid joint gets a preload from its bolts") {
  std::string yaml = replaced(kSample, "kind: floating", "kind: rigid");
  yaml = replaced(yaml, "        float: 0.30 mm\n", "");
  const session::Case c = read_case_text(yaml, "s.yaml").c;
  // 0.6 x 830 MPa x 0.78 x pi/4 x (8 mm)^2 = 19.5 kN
  CHECK_THAT(c.brakes.front.rotor.joint.preload, WithinRel(19500.0, 0.005));
}

TEST_CASE("fluid kinds give their boiling points and values override them") {
  const auto fluid = [](const std::string& text) {
    return read_case_text(replaced(kSample, "    pads:", "    fluid: " + text + "\n    pads:"), "s.yaml")
        .c.brakes.front.fluid;
  };
  CHECK_THAT(fluid("{kind: dot5.1}").dry_boiling, WithinRel(260 + 273.15, 1e-12));
  CHECK_THAT(fluid("{kind: dot3}").wet_boiling, WithinRel(140 + 273.15, 1e-12));
  CHECK_THAT(fluid("{dry_boiling: 310 degC}").dry_boiling, WithinRel(310 + 273.15, 1e-12));
  using Judge = session::Fluid::Judge;
  CHECK(fluid("{judge: dry}").judge == Judge::dry);
  CHECK(fluid("{kind: dot4}").judge == Judge::wet);
  CHECK(fluid("{age: 6 month}").judge == Judge::aged);
  CHECK_THAT(fluid("{age: 6 month}").age.value(), WithinRel(0.5 * 365.2422 * 86400, 1e-3));
  CHECK(fluid("{judge: 205 degC}").judge == Judge::own);
  CHECK_THAT(fluid("{judge: 205 degC}").own_boiling, WithinRel(478.15, 1e-12));
}

TEST_CASE("pins of textbook cases") {
  const session::Physics p =
      read_case_text(kSample +
                         "physics: {convection: {constant: 25 W/m2/K}, radiation: off, properties: constant, "
                         "partition: 1.0, links: {hat_hub: 0 W/K}, mesh: lump}\n",
                     "s.yaml")
          .c.physics;
  CHECK(p.convection == 25.0);
  CHECK_FALSE(p.radiation);
  CHECK(p.constant_properties);
  CHECK(p.partition == session::Physics::Partition::fixed);
  CHECK(p.ring_share == 1);
  CHECK(p.links.at("hat_hub") == 0);
  CHECK(p.mesh == session::Mesh::lump);
  const session::Physics q =
      read_case_text(kSample + "physics: {partition: effusivity, pad_pressure: uniform_pressure}\n", "s.yaml")
          .c.physics;
  CHECK(q.partition == session::Physics::Partition::effusivity);
  CHECK(q.pad_pressure == session::Physics::PadPressure::uniform_pressure);
  CHECK_FALSE(q.convection.has_value());
}

TEST_CASE("bench steps") {
  const std::string steps =
      "  - {snubs: {count: 15, from: 120 km/h, to: 60 km/h, deceleration: 3 m/s2, every: 45 s}}\n"
      "  - {hold: 60 s, speed: 90 km/h, heat: {from: 20 kW, to: 0 kW}, axle: front}\n"
      "  - {hold: 60 s, speed: 90 km/h, heat: 5 kW}\n";
  const session::Case c = read_case_text(kSample + steps, "s.yaml").c;
  REQUIRE(c.session.size() == 5);
  const auto& snubs = std::get<session::SnubStep>(c.session[2]);
  CHECK(snubs.count == 15);
  CHECK_THAT(snubs.from, WithinRel(120 / 3.6, 1e-12));
  const auto& ramp = std::get<session::HoldStep>(c.session[3]);
  CHECK(ramp.heat_from == 20000);
  CHECK(ramp.heat_to == 0);
  CHECK(ramp.axle == session::Axle::front);
  const auto& steady = std::get<session::HoldStep>(c.session[4]);
  CHECK(steady.heat_from == 5000);
  CHECK(steady.heat_to == 5000);
  CHECK_FALSE(steady.axle.has_value());
}

TEST_CASE("initial temperatures") {
  const session::Initial initial =
      read_case_text(kSample + "initial: {default: 24 degC, ring_mean: 80 degC}\n", "s.yaml").c.initial;
  CHECK_THAT(initial.everything.value(), WithinRel(297.15, 1e-12));
  CHECK_THAT(initial.node.at("ring_mean"), WithinRel(353.15, 1e-12));
}

TEST_CASE("a pad that covers too much of the track is a warning") {
  const session::Case c = read_case_text(replaced(kSample, "area: 55 cm2", "area: 140 cm2"), "s.yaml").c;
  REQUIRE(c.warnings.size() == 2);  // front and rear
  CHECK_THAT(c.warnings[0], Contains("brakes.front.pads.area"));
}

TEST_CASE("altitude sets the pressure of the standard atmosphere, and is refused beside a pressure") {
  const auto low = io::read_case("configs/demo.yaml", {.set = {"air.pressure=null", "air.altitude=1000 m"}}).c;
  CHECK(low.air.pressure == Approx(89875).epsilon(1e-3));
  // The demo gives 1013 hPa, which is also the default.
  CHECK_THROWS_WITH(io::read_case("configs/demo.yaml", {.set = {"air.altitude=1000 m"}}),
                    Catch::Contains("found both altitude and pressure"));
}
