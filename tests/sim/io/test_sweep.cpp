// SPDX-License-Identifier: MIT
// A session read once gives the Case of every run, as if it were read with --set each time.
#include "sim/io/sweep/sweep.hpp"
#include "tests/sim/io/sample.hpp"

using namespace hatring;
using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

std::vector<Diagnostic> errors_of(const std::filesystem::path& session, const SweepOptions& options) {
  try {
    const Sweep sweep(session, options);
  } catch (const ConfigError& e) {
    return e.diagnostics();
  }
  return {};
}

Diagnostic error_of(const std::string& vary) {
  static const Folder folder("sweep_error");
  static const auto session = folder.write("session.yaml", kSample);
  const auto errors = errors_of(session, {.vary = {vary}});
  REQUIRE(errors.size() == 1);
  CHECK(errors[0].file.starts_with("--vary"));
  return errors[0];
}

}  // namespace

TEST_CASE("a sweep of the session file: values with units and named values and variants in all combinations") {
  const Folder folder("sweep");
  folder.write("steel.yaml", "brakes: {front: {rotor: {hat: {material: steel_4130}}}}\n");
  folder.write("air.yaml", "{temperature: 30 degC}\n");
  const auto session = folder.write("session.yaml", kSample + R"(
sweep:
  vary:
    car.mass: [900 kg, 2000 lb]
    variant: [none, steel.yaml]
    air: {cold: {temperature: 0 degC}, warm: {include: air.yaml}}
)");
  const Sweep sweep(session, {});
  CHECK(sweep.kind() == study::DesignKind::factorial);
  REQUIRE(sweep.design().runs() == 8);
  const auto& p = sweep.parameters();
  REQUIRE(p.size() == 3);
  CHECK(p[0].unit == "kg");
  CHECK_THAT(p[0].values.at(1), WithinRel(907.18474, 1e-9));
  CHECK(p[1].labels == std::vector<std::string>{"none", "steel"});
  CHECK(p[1].unit.empty());
  CHECK(p[2].labels == std::vector<std::string>{"cold", "warm"});
  const session::Case last = sweep.at(7), first = sweep.at(0);
  CHECK(first.car.mass == 900);
  CHECK(first.brakes.front.rotor.hat.material == "al_6061_t6");
  CHECK(first.air.temperature == Approx(273.15));
  CHECK_THAT(last.car.mass, WithinRel(907.18474, 1e-9));
  CHECK(last.brakes.front.rotor.hat.material == "steel_4130");
  CHECK(last.name == "steel");
  CHECK(last.air.temperature == Approx(303.15));
  CHECK(std::isnan(sweep.settings(3)[1].number));
  CHECK(sweep.settings(3)[1].choice == 1);
  // Other commands leave it aside, but mistakes in it are told.
  CHECK(read_case(session).c.car.mass == 1140);
}

TEST_CASE("a run of a sweep is what --set gives and needs no file any more") {
  const Folder folder("sweep_set");
  folder.write("a.yaml", "trace: {time: {unit: s, values: [0, 10]}, speed: {unit: km/h, values: [100, 50]}}\n");
  folder.write("b.yaml", "trace: {time: {unit: s, values: [0, 10]}, speed: {unit: km/h, values: [150, 50]}}\n");
  const auto session = folder.write("session.yaml", kSample);
  const SweepOptions options{.reading = {.set = {"air.wind=3 m/s"}},
                             .vary = {"session.0.trace=a.yaml, b.yaml", "air.temperature=range(10 degC, 20 degC, 3)"}};
  const Sweep sweep(session, options);
  REQUIRE(sweep.design().runs() == 6);
  const session::Case set =
      read_case(session, {.set = {"air.wind=3 m/s", "session.0.trace=b.yaml", "air.temperature=15 degC"}}).c;
  std::filesystem::remove(folder.path() / "a.yaml");
  std::filesystem::remove(folder.path() / "b.yaml");
  for (int again = 0; again < 2; ++again) {
    const session::Case c = sweep.at(4);
    CHECK(c.air.temperature == set.air.temperature);
    CHECK(c.air.wind == 3);
    REQUIRE(c.traces.size() == set.traces.size());
    for (std::size_t i = 0; i < c.traces.size(); ++i) {
      CHECK(c.traces[i].speed == set.traces[i].speed);
      CHECK(c.traces[i].name == set.traces[i].name);
    }
  }
  CHECK(sweep.parameters()[1].labels == std::vector<std::string>{"10 degC", "15 degC", "20 degC"});
}

TEST_CASE("spreads are sampled in the unit of the key and the same for the same seed") {
  const Folder folder("sweep_spread");
  const auto session = folder.write("session.yaml", kSample);
  const SweepOptions options{.vary = {"car.mass=uniform(900 kg, 1100 kg)", "air.temperature=normal(68 degF, 9 degF)",
                                      "brakes.front_share=band(0.6, 0.65, 0.7)"},
                             .runs = 40,
                             .seed = 3};
  const Sweep sweep(session, options), again(session, options);
  CHECK(sweep.kind() == study::DesignKind::latin);
  double mean = 0;
  for (std::uint64_t i = 0; i < 40; ++i) {
    const session::Case c = sweep.at(i);
    CHECK((c.car.mass > 900 && c.car.mass < 1100));
    CHECK(c.car.mass == sweep.settings(i)[0].number);
    CHECK(c.car.mass == again.at(i).car.mass);
    mean += c.air.temperature / 40;
  }
  CHECK(mean == Approx(293.15).margin(0.3));  // 5 K over 40 strata
  CHECK(sweep.description() == again.description());
  SweepOptions other = options;
  other.seed = 4;
  CHECK(Sweep(session, other).description() != sweep.description());
  CHECK(Sweep(session, other).at(0).car.mass != sweep.at(0).car.mass);
}

TEST_CASE("ranges of clock times and of mixed units and files of one name in two folders") {
  const Folder folder("sweep_range");
  const auto session = folder.write("session.yaml", kSample);
  folder.write("a/hat.yaml", "car: {mass: 1 t}\n");
  folder.write("b/hat.yaml", "car: {mass: 2 t}\n");
  const Sweep sweep(session, {.vary = {"session.1.park=range(1:30, 2:30, 3)", "air.wind=range(1 m/s, 7.2 km/h, 2)",
                                       "variant=a/hat.yaml, b/hat.yaml"}});
  CHECK(sweep.parameters()[0].values == std::vector<double>{90, 120, 150});
  CHECK_THAT(sweep.parameters()[1].values.at(1), WithinRel(2, 1e-12));
  CHECK(sweep.parameters()[2].labels == std::vector<std::string>{"a/hat.yaml", "b/hat.yaml"});
  CHECK(sweep.at(11).car.mass == 2000);
}

TEST_CASE("mistakes in a sweep are told at their place") {
  CHECK_THAT(error_of("car.mass=uniform(900, 1100 kg)").hint, Contains("900 kg"));
  CHECK_THAT(error_of("car.mas=900 kg").hint, Contains("mass"));
  CHECK_THAT(error_of("car.mass=guess(1 kg, 2 kg)").message, Contains("expected a list of values"));
  CHECK_THAT(error_of("car.mass=uniform(1 kg)").message, Contains("expected 2"));
  CHECK_THAT(error_of("car.mass=uniform(1100 kg, 900 kg)").message, Contains("low end"));
  CHECK_THAT(error_of("car.mass=900 kg, 900 kg").message, Contains("twice"));
  CHECK_THAT(error_of("car.mass=900 kg, 9 t, -1 kg").message, Contains("expected"));
  CHECK_THAT(error_of("car.mass=range(900 kg, 1100 kg, 1)").message, Contains("whole number"));
  CHECK_THAT(error_of("car.mass=range(900 kg, 1100 kg, 1e300)").message, Contains("whole number"));
  CHECK_THAT(error_of("name=uniform(1, 2)").message, Contains("no number"));
  CHECK_THAT(error_of("variant=none, gone.yaml").message, Contains("no file"));
  CHECK_THAT(error_of("variant=uniform(1, 2)").message, Contains("list of files"));
  CHECK_THAT(error_of("car.mass").message, Contains("key.path=value"));

  const Folder folder("sweep_errors");
  const auto none = folder.write("none.yaml", kSample);
  auto errors = errors_of(none, {});
  REQUIRE(errors.size() == 1);
  CHECK_THAT(errors[0].message, Contains("nothing is varied"));
  const auto flow = folder.write("flow.yaml", kSample + "sweep:\n  vary: {car.mass: uniform(900 kg, 1100 kg)}\n");
  errors = errors_of(flow, {});
  REQUIRE_FALSE(errors.empty());
  CHECK_THAT(errors[0].hint, Contains("quotes"));
  CHECK_THROWS_AS(read_case(folder.write("key.yaml", kSample + "sweep: {desing: latin}\n")), ConfigError);
  errors = errors_of(none, {.vary = {"car.mass=uniform(900 kg, 1100 kg)"}, .design = study::DesignKind::factorial});
  REQUIRE(errors.size() == 1);
  CHECK_THAT(errors[0].message, Contains("levels"));
}

TEST_CASE("a plan in a file of its own and the command line go before the session's sweep") {
  const Folder folder("sweep_plan");
  const auto session = folder.write("session.yaml", kSample + "sweep: {runs: 7, vary: {car.mass: [900 kg, 950 kg]}}\n");
  const auto plan = folder.write("plan.yaml", "sweep:\n  vary:\n    car.mass: [1000 kg, 1050 kg]\n");
  CHECK(Sweep(session, {.plan = plan}).at(0).car.mass > 960);
  const Sweep sweep(session, {.plan = plan, .vary = {"car.mass=uniform(1 t, 1.1 t)"}, .runs = 9});
  CHECK(sweep.design().runs() == 9);
  CHECK(sweep.at(0).car.mass > 1000);
  const auto wrong = folder.write("wrong.yaml", "car: {mass: 1 t}\n");
  CHECK_THAT(errors_of(session, {.plan = wrong}).at(0).message, Contains("one top key `sweep:`"));
}
