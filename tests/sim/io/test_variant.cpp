// SPDX-License-Identifier: MIT
// A variant is merged over its session as an including file over what it includes.
#include "tests/sim/io/sample.hpp"

using namespace hatring;
using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

std::vector<Diagnostic> errors_of_variant(const std::filesystem::path& session, const std::filesystem::path& variant) {
  try {
    (void)read_case(session, {.variant = variant});
  } catch (const ConfigError& e) {
    return e.diagnostics();
  }
  return {};
}

}  // namespace

TEST_CASE("a variant changes what it names, may include, and gives its name") {
  const Folder folder("variant");
  const auto session = folder.write("session.yaml", kSample + "name: as it is\ncost: 100 EUR\n");
  folder.write("variants/parts/hat.yaml", "material: steel_4130\nwall_thickness: 3 mm\n");
  const auto variant = folder.write("variants/steel.yaml",
                                    "cost: EUR 250.5\n"
                                    "brakes: {front: {rotor: {hat: {include: parts/hat.yaml, depth: 36 mm}}}}\n");
  const ReadResult read = read_case(session, {.set = {"car.mass=1000 kg"}, .variant = variant});
  CHECK(read.c.name == "steel");  // of its file, not of the session
  CHECK(read.c.brakes.front.rotor.hat.material == "steel_4130");
  CHECK_THAT(read.c.brakes.front.rotor.hat.wall_thickness, WithinRel(0.003, 1e-12));
  CHECK_THAT(read.c.brakes.front.rotor.hat.depth, WithinRel(0.036, 1e-12));
  CHECK_THAT(read.c.brakes.front.rotor.hat.flange_thickness, WithinRel(0.007, 1e-12));
  CHECK(read.c.brakes.rear.rotor.hat.material ==
        "al_6061_t6");  // an alias of the front in the session, but its own now
  CHECK(read.c.car.mass == 1000);
  REQUIRE(read.c.cost);
  CHECK(read.c.cost->amount == 250.5);
  CHECK(read.c.cost->currency == "EUR");
  CHECK(read.c.cost->text == "EUR 250.5");
  // The resolved config repeats the variant without its file.
  CHECK(read_case_text(read.resolved_yaml, "again.yaml").c.name == "steel");
  const auto named = folder.write("variants/named.yaml", "name: other\n");
  CHECK(read_case(session, {.variant = named}).c.name == "other");
}

TEST_CASE("mistakes in a variant are told at their place in it") {
  const Folder folder("variant_errors");
  const auto session = folder.write("session.yaml", kSample);
  const auto variant =
      folder.write("hat.yaml", "name: x\nbrakes:\n  front:\n    rotor: {hat: {materiel: steel_4130}}\n");
  auto errors = errors_of_variant(session, variant);
  REQUIRE(errors.size() == 1);
  CHECK(errors[0].file == variant.string());
  CHECK(errors[0].line == 4);
  CHECK_THAT(errors[0].hint, Contains("material"));

  // Two files that contradict each other: both are named.
  folder.write("wide.yaml", "brakes: {front: {rotor: {hat: {outer_diameter: 180 mm}}}}\n");
  errors = errors_of_variant(session, folder.path() / "wide.yaml");
  REQUIRE(errors.size() == 1);
  CHECK(errors[0].file == session.string());
  REQUIRE(errors[0].notes.size() == 1);
  CHECK(errors[0].notes[0].file == (folder.path() / "wide.yaml").string());

  errors = errors_of_variant(session, folder.write("drive.yaml", "session: [{park: 60 s}]\n"));
  REQUIRE(errors.size() == 1);
  CHECK_THAT(errors[0].message, Contains("found a session in a variant"));
  errors = errors_of_variant(session, folder.write("list.yaml", "- 1\n"));
  REQUIRE(errors.size() == 1);
  CHECK_THAT(errors[0].message, Contains("at the top of a variant"));
  CHECK(errors_of_variant(session, folder.path() / "missing.yaml").size() == 1);
}

TEST_CASE("a cost is one amount with or without a currency") {
  CHECK(read_case_text(kSample + "cost: 450\n", "x").c.cost->currency.empty());
  CHECK(read_case_text(kSample + "cost: 450\n", "x").c.cost->amount == 450);
  CHECK_FALSE(read_case_text(kSample, "x").c.cost);
  for (const char* bad : {"cost: much\n", "cost: 3 or 4\n", "cost: -5 EUR\n", "cost: [1]\n"}) {
    INFO(bad);
    CHECK_THROWS_AS(read_case_text(kSample + bad, "x"), ConfigError);
  }
}
