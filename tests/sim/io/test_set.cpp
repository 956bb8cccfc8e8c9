// SPDX-License-Identifier: MIT
#include "tests/sim/io/sample.hpp"

using namespace hatring;
using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

session::Case with(const std::vector<std::string>& set) {
  ReadOptions options;
  options.set = set;
  return read_case_text(kSample, "s.yaml", options).c;
}

std::vector<Diagnostic> errors_with(const std::string& set) {
  ReadOptions options;
  options.set = {set};
  return errors_of(kSample, options);
}

}  // namespace

TEST_CASE("the option --set changes values, adds keys and reaches into lists") {
  CHECK(with({"car.mass=1200 kg"}).car.mass == 1200);
  CHECK_THAT(with({"air.temperature = 35 degC"}).air.temperature, WithinRel(308.15, 1e-12));
  CHECK(std::get<session::ParkStep>(with({"session.1.park=5 min"}).session[1]).duration == 300);
  CHECK(with({"brakes.front.rotor.joint.kind=rigid"}).brakes.front.rotor.joint.kind == session::JointKind::rigid);
  CHECK(with({"car={mass: 1000 kg, drag_area: 0.5 m2}"}).car.mass == 1000);
  CHECK(with({"session=[{park: 10 s}]"}).session.size() == 1);
  CHECK(with({"car.mass=1 t", "car.mass=1200 kg"}).car.mass == 1200);
  CHECK(with({"session.0.trace.speed.values.1=144"}).traces[0].speed[1] == 40);
}

TEST_CASE("the option --set of a wheel that is an alias changes that wheel only") {
  const session::Case c = with({"brakes.rear.pads.thickness=8 mm"});
  CHECK_THAT(c.brakes.rear.pads.thickness, WithinRel(0.008, 1e-12));
  CHECK_THAT(c.brakes.front.pads.thickness, WithinRel(0.014, 1e-12));
}

TEST_CASE("the option --set says what is wrong, with its own name as the place") {
  struct Wrong {
    std::string set, file, key_path, message, hint;
  };
  const auto w = GENERATE(values<Wrong>({
      {"car.mas=1200 kg", "--set car.mas", "car.mas", "unknown key `mas`", "did you mean `mass`?"},
      {"cra.mass=1200 kg", "--set cra.mass", "cra", "unknown key `cra`", "did you mean `car`?"},
      {"car.mass=1200", "--set car.mass", "car.mass", "without a unit", "did you mean `1200 kg`?"},
      {"car.mass.x=1", "--set car.mass.x", "car.mass.x", "nothing can be set below `mass`", ""},
      {"session.7.park=1 s", "--set session.7.park", "session.7.park",
       "expected the index of a list entry, counted from 0 and below 2", ""},
      {"session.first.park=1 s", "--set session.first.park", "session.first.park", "expected the index", ""},
      {"car.mass", "--set car.mass", "", "expected key.path=value", ""},
      {"=3", "--set ", "", "expected key.path=value", ""},
      {"car..mass=3", "--set car..mass", "", "expected key.path=value", ""},
      {"include=x.yaml", "--set include", "include", "cannot be included from the command line", ""},
      {"car={include: x.yaml}", "--set car", "car", "cannot be included from the command line", ""},
      {"car.mass=[1, 2", "--set car.mass", "", "not valid YAML", ""},
  }));
  CAPTURE(w.set);
  const auto errors = errors_with(w.set);
  REQUIRE(errors.size() == 1);
  CHECK(errors[0].file == w.file);
  CHECK(errors[0].line == 0);
  CHECK(errors[0].key_path == w.key_path);
  CHECK_THAT(errors[0].message, Contains(w.message));
  CHECK_THAT(errors[0].hint, Contains(w.hint));
}

TEST_CASE("the text of a --set error shows the value") {
  const auto errors = errors_with("car.mass=1200");
  REQUIRE(errors.size() == 1);
  CHECK_THAT(to_text(errors[0]), Contains("--set car.mass: error: car.mass: found \"1200\"") && Contains("| 1200\n"));
}
