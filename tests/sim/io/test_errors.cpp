// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "tests/sim/io/sample.hpp"

using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::Contains;

namespace {

//! One thing spoilt in the sample: `to` holds the marker where the error must stand.
struct Spoilt {
  std::string from, to, key_path, message, hint;
};

//! The sample with a rear wheel of its own, so that one mistake is one error.
std::string sample_once() {
  const std::string rear = R"(
    rotor:
      ring: {outer_diameter: 280 mm, inner_diameter: 170 mm, thickness: 12 mm, swept_inner_diameter: 200 mm,
             kind: solid}
      hat: {outer_diameter: 140 mm, wall_thickness: 6 mm, flange_thickness: 6 mm, face_thickness: 6 mm, depth: 40 mm}
      joint: {kind: one_piece}
    pads: {area: 30 cm2, thickness: 10 mm}
)";
  return replaced(kSample, " *wheel\n", rear);
}

}  // namespace

TEST_CASE("each mistake is reported at its place") {
  const auto s = GENERATE(values<Spoilt>({
      // keys
      {"  mass: 1140 kg", "  @mas: 1140 kg\n  mass: 1140 kg", "car.mas", "unknown key `mas`", "did you mean `mass`?"},
      {"        thickness: 28 mm", "        @thicknes: 28 mm\n        thickness: 28 mm",
       "brakes.front.rotor.ring.thicknes", "unknown key", "did you mean `thickness`?"},
      {"car:", "@sesion: []\ncar:", "sesion", "unknown key", "did you mean `session`?"},
      {"car:", "@upholstery: {}\ncar:", "upholstery", "unknown key `upholstery`",
       "known here: name, cost, materials, car"},
      {"  mass: 1140 kg", "  @drag_area: 0.6 m2", "car.mass", "missing, expected a mass", ""},
      {"        depth: 35 mm\n", "", "brakes.front.rotor.hat.depth", "missing, expected a length", ""},
      {"    pads: {area: 55 cm2, thickness: 14 mm}", "    pads: @{area: 55 cm2}", "brakes.front.pads.thickness",
       "missing", ""},
      {"        vanes: {count: 40, thickness: 5 mm}\n", "", "brakes.front.rotor.ring.vanes",
       "missing, expected a map with the keys count, thickness", ""},
      {"        float: 0.30 mm\n", "", "brakes.front.rotor.joint.float", "missing, expected a length", ""},
      {"  mass: 1140 kg", "  mass: 1140 kg\n  @mass: 1141 kg", "car.mass", "the key `mass` twice", ""},
      // values
      {"28 mm", "@28", "brakes.front.rotor.ring.thickness", "found \"28\" without a unit, expected a length",
       "did you mean `28 mm`?"},
      {"  mass: 1140 kg", "  mass: 1140 kg\n  tyre_radius: @0.305", "car.tyre_radius", "without a unit",
       "did you mean `0.305 m`?"},
      {"28 mm", "@28 kg", "brakes.front.rotor.ring.thickness", "(a mass), expected a length", ""},
      {"28 mm", "@28 mmm", "brakes.front.rotor.ring.thickness", "`mmm` is not a unit", "did you mean `28 mm`?"},
      {"28 mm", "@28,5 mm", "brakes.front.rotor.ring.thickness", "decimal comma", "did you mean `28.5 mm`?"},
      {"28 mm", "@280 mm", "brakes.front.rotor.ring.thickness", "expected a value from 2 mm to 100 mm", ""},
      {"28 mm", "@[28 mm]", "brakes.front.rotor.ring.thickness", "found a list, expected a length", ""},
      {"0.66", "@1.2", "brakes.front_share", "expected a value from 0 to 1", ""},
      {"0.66", "@0.66 mm", "brakes.front_share", "expected a plain number", ""},
      {"count: 40,", "count: @40.5,", "brakes.front.rotor.ring.vanes.count", "expected a whole number", ""},
      {"kind: floating", "kind: @flaoting", "brakes.front.rotor.joint.kind",
       "expected one of rigid, floating, one_piece", "did you mean `floating`?"},
      {"al_6061_t6", "@al_6061", "brakes.front.rotor.hat.material", "there is no material `al_6061`",
       "did you mean `al_6061_t6`?"},
      {"al_6061_t6", "@unobtainium", "brakes.front.rotor.hat.material", "no material", "known: a286, "},
      {"  mass: 1140 kg", "  @heavy", "car", "found \"heavy\", expected a map with the keys mass", ""},
      {"area: 55 cm2,", "area: 55 cm2, window: @[650 degC, 200 degC],", "brakes.front.pads.window",
       "lower end is not below", ""},
      {"area: 55 cm2,", "area: 55 cm2, friction: {temperature: [20 degC, @10 degC], values: [0.4, 0.4]},",
       "brakes.front.pads.friction.temperature.1", "expected temperatures that rise", ""},
      {"area: 55 cm2,", "area: 55 cm2, friction: {temperature: [20 degC, 100 degC], values: @[0.4]},",
       "brakes.front.pads.friction", "found 1 values for 2 temperatures", ""},
      // steps
      {"- {park: 20 min}", "- {park: @20}", "session.1.park", "without a unit, expected a time",
       "did you mean `20 s`?"},
      {"- {park: 20 min}", "- {park: @-5 min}", "session.1.park", "expected a value above 0 s to 24 h", ""},
      {"- {park: 20 min}", "- {@prak: 20 min}", "session.1", "unknown kind of step `prak`", "did you mean `park`?"},
      {"- {park: 20 min}", "- @{wait: 20 min}", "session.1", "expected one of the keys out_lap, laps", ""},
      {"- {park: 20 min}", "- {park: 20 min, @snubs: {}}", "session.1", "found `snubs` beside `park`", ""},
      {"laps: 3\n", "laps: 3\n    pace: @0\n", "session.0.pace", "expected a value above 0", ""},
      {"laps: 3\n", "laps: @0\n", "session.0.laps", "expected a value from 1 to 1000", ""},
      {"- {park: 20 min}", "- {snubs: {count: 1, from: 60 km/h, to: @120 km/h, deceleration: 3 m/s2, every: 45 s}}",
       "session.1.snubs.to", "ends no slower than it starts", ""},
      {"- {park: 20 min}", "- {snubs: {count: 1, from: 120 km/h, to: 60 km/h, deceleration: 3 m/s2, every: @5 s}}",
       "session.1.snubs.every", "more than the 5.556 s that one braking takes", ""},
      // geometry
      {"inner_diameter: 190 mm", "inner_diameter: @320 mm", "brakes.front.rotor.ring.inner_diameter",
       "the ring is inside out", ""},
      {"swept_inner_diameter: 212 mm", "swept_inner_diameter: @315 mm", "brakes.front.rotor.ring.swept_inner_diameter",
       "outside the ring", ""},
      {"cheek_thickness: 8 mm", "cheek_thickness: @15 mm", "brakes.front.rotor.ring.cheek_thickness",
       "thicker than the ring", ""},
      {"thickness: 5 mm}", "thickness: @16 mm}", "brakes.front.rotor.ring.vanes.thickness", "the vanes overlap", ""},
      {"bolt_circle: 172 mm", "bolt_circle: @148 mm", "brakes.front.rotor.joint.bolt_circle", "flange does not reach",
       ""},
      {"bolt_circle: 172 mm\n        fastener_diameter: 8 mm", "bolt_circle: 156 mm\n        fastener_diameter: @8 mm",
       "brakes.front.rotor.joint.fastener_diameter", "holes cut into the bell", ""},
      {"float: 0.30 mm", "float: @4.9 mm", "brakes.front.rotor.joint.float", "larger than the lugs allow: found 4.9 mm",
       ""},
      {"bolt_circle: 172 mm", "bolt_circle: @208 mm", "brakes.front.rotor.joint.bolt_circle",
       "stand in the swept track", ""},
      {"    pads: {area: 30 cm2", "    pads: {area: @400 cm2", "brakes.rear.pads.area",
       "less than the swept track of 301.6 cm2", ""},
      {"    pads: {area: 30 cm2", "    caliper: {piston_wall: @30 mm}\n    pads: {area: 30 cm2",
       "brakes.rear.caliper.piston_wall", "thicker than its radius", ""},
      {"    pads: {area: 30 cm2", "    fluid: {wet_boiling: @240 degC}\n    pads: {area: 30 cm2",
       "brakes.rear.fluid.wet_boiling", "no more than the dry one of 230 degC", ""},
      {"hat: {outer_diameter: 140 mm", "hat: {outer_diameter: @210 mm", "brakes.rear.rotor.hat.outer_diameter",
       "the bell reaches into the swept track", ""},
      // other sections
      {"car:", "initial: {@ring_face_outboard: 80 degC}\ncar:", "initial.ring_face_outboard", "no part of its own",
       "did you mean `ring_mean`?"},
      {"car:", "initial: {@ring_men: 80 degC}\ncar:", "initial.ring_men", "unknown part", "did you mean `ring_mean`?"},
      {"car:", "physics: {partition: @effusivty}\ncar:", "physics.partition", "expected contact, effusivity",
       "did you mean `effusivity`?"},
      {"car:", "physics: {radiation: @maybe}\ncar:", "physics.radiation", "expected on or off", ""},
      {"car:", "physics: {links: {hat_hub: @3}}\ncar:", "physics.links.hat_hub",
       "without a unit, expected a conductance", "did you mean `3 W/K`?"},
      {"car:", "materials: {mine: @{density: 1000 kg/m3, conductivity: 1 W/m/K}}\ncar:", "materials.mine.specific_heat",
       "missing", ""},
      {"car:",
       "materials: {mine: {density: 1000 kg/m3, specific_heat: 500 J/kg/K, conductivity: {temperature: [0 degC, 9 "
       "degC], values: [1 W/m/K, @2]}}}\ncar:",
       "materials.mine.conductivity.values.1", "without a unit", "did you mean `2 W/m/K`?"},
      {"28 mm", "@!!float 28 mm", "", "tags such as", ""},
  }));
  CAPTURE(s.to);
  std::string yaml = sample_once();
  std::string to = s.to;
  if (to.find('@') == std::string::npos) {
    // A key is gone: its map is where it is missed.
    const std::string map = s.key_path.find(".hat.") != std::string::npos     ? "        material: al_6061_t6"
                            : s.key_path.find(".joint.") != std::string::npos ? "        kind: floating"
                                                                              : "        outer_diameter: 310 mm";
    yaml = replaced(yaml, s.from, to);
    yaml = replaced(yaml, map, map.substr(0, 8) + "@" + map.substr(8));
  } else {
    yaml = replaced(yaml, s.from, to);
  }
  const Diagnostic d = only_error(yaml);
  if (!s.key_path.empty()) CHECK(d.key_path == s.key_path);
  CHECK_THAT(d.message, Contains(s.message));
  if (s.hint.empty())
    SUCCEED();
  else
    CHECK_THAT(d.hint, Contains(s.hint));
}

TEST_CASE("two keys that contradict each other are both shown") {
  const auto errors = errors_of(replaced(sample_once(), "bolt_circle: 172 mm", "bolt_circle: 148 mm"));
  REQUIRE(errors.size() == 1);
  CHECK_THAT(errors[0].message, Contains("flange does not reach"));
  REQUIRE(errors[0].notes.size() == 1);
  CHECK(errors[0].notes[0].line == 16);
  CHECK_THAT(errors[0].notes[0].message, Contains("brakes.front.rotor.hat.outer_diameter"));
  CHECK_THAT(errors[0].notes[0].excerpt, Contains("outer_diameter: 150 mm"));
}

TEST_CASE("over-ageing that is slower when hotter is refused with both places") {
  const auto errors =
      errors_of(sample_once() + "materials:\n  al_6061_t6:\n    overageing: {hotter_temperature: 180 degC}\n");
  REQUIRE(errors.size() == 1);
  CHECK(errors[0].key_path == "materials.al_6061_t6.overageing.hotter_temperature");
  CHECK_THAT(errors[0].message, Contains("expected the hotter soak to be the shorter"));
}

TEST_CASE("a hat whose growth is not known is refused at its material") {
  const std::string odd =
      "materials:\n  odd: {density: 7800 kg/m3, conductivity: 40 W/m/K, specific_heat: 480 J/kg/K}\n";
  const auto errors = errors_of(replaced(sample_once(), "material: al_6061_t6", "material: odd") + odd);
  REQUIRE(errors.size() == 1);
  CHECK(errors[0].key_path == "brakes.front.rotor.hat.material");
  CHECK_THAT(errors[0].message, Contains("no `mean_expansion`"));
}

TEST_CASE("a bolt circle far from the ring, a bell without inside, fasteners that overlap") {
  std::string yaml = replaced(sample_once(), "        outer_diameter: 150 mm\n        wall_thickness: 5 mm",
                              "        outer_diameter: 100 mm\n        wall_thickness: 50 mm");
  yaml = replaced(yaml, "bolt_circle: 172 mm", "bolt_circle: 120 mm");
  yaml = replaced(yaml, "fasteners: 10", "fasteners: 48");
  const auto errors = errors_of(yaml);
  REQUIRE(errors.size() == 2);  // the bolt circle is wrong already, so nothing more is said about what depends on it
  CHECK(errors[0].line == 17);
  CHECK_THAT(errors[0].message, Contains("the bell has no inside"));
  CHECK(errors[1].line == 24);
  CHECK_THAT(errors[1].message, Contains("not near the ring's inner edge"));
  yaml = replaced(sample_once(), "fasteners: 10", "fasteners: 60");
  const auto overlap = errors_of(replaced(yaml, "fastener_diameter: 8 mm", "fastener_diameter: 12 mm"));
  REQUIRE(overlap.size() == 1);
  CHECK_THAT(overlap[0].message, Contains("the fasteners overlap"));
}

TEST_CASE("a hat thicker than deep and a wall into the bore and heads that fall through their holes") {
  const auto one = [](const char* from, const char* to) {
    const auto errors = errors_of(replaced(sample_once(), from, to));
    REQUIRE(errors.size() == 1);
    return errors[0].key_path + ": " + errors[0].message;
  };
  CHECK_THAT(one("depth: 35 mm", "depth: 6 mm"),
             Contains("hat.face_thickness: the face is thicker than the hat is deep"));
  CHECK_THAT(one("wall_thickness: 5 mm", "wall_thickness: 45 mm"),
             Contains("hat.wall_thickness: the wall leaves no face"));
  CHECK_THAT(one("kind: floating", "kind: rigid\n        hole_clearance: 4 mm"),
             Contains("joint.hole_clearance: the heads fall through their holes"));
}

TEST_CASE("a float whose holes would meet or reach the swept track is refused") {
  const std::string many = replaced(sample_once(), "fasteners: 10", "fasteners: 55");
  CHECK(errors_of(many).empty());
  const auto meeting = errors_of(replaced(many, "float: 0.30 mm", "float: 1 mm"));
  REQUIRE(meeting.size() == 1);
  CHECK_THAT(meeting[0].message, Contains("larger than the hole pattern allows: found 1 mm"));
  const std::string tight = replaced(sample_once(), "bolt_circle: 172 mm", "bolt_circle: 202 mm");
  const auto swept = errors_of(replaced(tight, "float: 0.30 mm", "float: 1.5 mm"));
  REQUIRE(swept.size() == 1);
  CHECK_THAT(swept[0].message, Contains("expected no more than 1 mm"));
}

TEST_CASE("all errors of a file come at once, by line") {
  std::string yaml = replaced(sample_once(), "1140 kg", "1140");
  yaml = replaced(yaml, "kind: floating", "kind: loose");
  yaml = replaced(yaml, "{park: 20 min}", "{park: soon}");
  yaml = replaced(yaml, "28 mm", "28 kg");
  const auto errors = errors_of(yaml);
  REQUIRE(errors.size() == 4);
  CHECK(errors[0].key_path == "car.mass");
  CHECK(errors[1].key_path == "brakes.front.rotor.ring.thickness");
  CHECK(errors[2].key_path == "brakes.front.rotor.joint.kind");
  CHECK(errors[3].key_path == "session.1.park");
}

TEST_CASE("a mistake in a part that two wheels share is told once") {
  const Diagnostic d = only_error(replaced(kSample, "28 mm", "@28"));
  CHECK(d.key_path == "brakes.front.rotor.ring.thickness");
}

TEST_CASE("the text of an error has place, key, excerpt, caret and hint") {
  try {
    static_cast<void>(read_case_text(replaced(sample_once(), "28 mm", "28"), "dir/my session.yaml"));
    FAIL("no error");
  } catch (const ConfigError& e) {
    CHECK(std::string(e.what()) ==
          "dir/my session.yaml:10:20: error: brakes.front.rotor.ring.thickness: found \"28\" without a unit, expected "
          "a length\n"
          "   10 |         thickness: 28\n"
          "      |                    ^\n"
          "        did you mean `28 mm`?\n");
  }
}

TEST_CASE("what a terminal would obey is neither taken nor printed") {
  const std::string escape = "\"\\e[2J\"";
  for (const std::string& text : {sample_once() + "name: " + escape + "\n", sample_once() + escape + ": 1\n",
                                  sample_once() + "na\x1b[2Jme: [\n"}) {
    try {
      (void)read_case_text(text, "s.yaml");
      FAIL("taken");
    } catch (const ConfigError& e) {
      CHECK(std::string(e.what()).find('\x1b') == std::string::npos);
    }
  }
  CHECK_THAT(errors_of(sample_once() + "name: " + escape + "\n").at(0).message, Contains("a control character"));
}

TEST_CASE("a long line is cut around its caret") {
  std::string list = "[0";
  for (int i = 1; i < 400; ++i) list += fmt::format(", {}", i);
  const std::string yaml = replaced(sample_once(), "[0, 10, 20, 30]", list + ", oops]");
  const auto errors = errors_of(yaml);
  REQUIRE(errors.size() == 1);
  CHECK(to_text(errors[0]).size() < 500);
  CHECK_THAT(to_text(errors[0]), Contains("..., ") || Contains("oops"));
}

TEST_CASE("a document that is no map") {
  CHECK_THAT(only_error("@").message, Contains("the file is empty"));
  CHECK_THAT(only_error("@# nothing but a comment\n").message, Contains("the file is empty"));
  CHECK_THAT(only_error("@- a\n- b\n").message, Contains("found a list at the top"));
  CHECK_THAT(only_error("@just words\n").message, Contains("expected `key: value` lines"));
  CHECK_THAT(only_error("car: {mass: 1 kg\nsession@: []\n").message, Contains("not valid YAML"));
  CHECK_THAT(only_error("car: {}\n---\n@car: {}\n").message, Contains("second document"));
  CHECK_THAT(only_error("car: {@[a]: b}\n").message, Contains("a key that is not plain text"));
}

TEST_CASE("a decimal comma inside braces is recognised") {
  const auto errors = errors_of(replaced(sample_once(), "area: 55 cm2", "area: 55,5 cm2"));
  REQUIRE(errors.size() == 2);
  CHECK_THAT(errors[0].message + errors[1].message, Contains("after a comma"));
}

TEST_CASE("aliases that blow up are refused") {
  std::string yaml = "a0: &a0 [1, 1, 1, 1, 1, 1, 1, 1, 1, 1]\n";
  for (int i = 1; i < 30; ++i) {
    yaml += fmt::format("a{0}: &a{0} [*a{1}", i, i - 1);
    for (int k = 0; k < 9; ++k) yaml += fmt::format(", *a{}", i - 1);
    yaml += "]\n";
  }
  const auto errors = errors_of(yaml);
  REQUIRE(errors.size() == 1);
  CHECK_THAT(errors[0].message, Contains("too large once its aliases are written out"));
  CHECK(errors[0].line == 6);
  CHECK_THAT(only_error("a: &a [1, @*a]\n").message, Contains("inside the very"));
}

TEST_CASE("an empty session and a missing section") {
  std::string yaml = sample_once();
  yaml.resize(yaml.find("session:"));
  CHECK_THAT(only_error(yaml + "session: @[]\n").message, Contains("found an empty session"));
  const auto errors = errors_of("car: {mass: 1000 kg}\n");
  REQUIRE(errors.size() == 2);
  CHECK(errors[0].key_path == "brakes");
  CHECK(errors[1].key_path == "session");
}
