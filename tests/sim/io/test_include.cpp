// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "tests/sim/io/sample.hpp"

using namespace hatring;
using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

TEST_CASE("includes merge deep and the including file wins") {
  const Folder folder("merge");
  folder.write("base.yaml", kSample);
  folder.write("parts/car.yaml", "car: {mass: 900 kg, drag_area: 0.7 m2}\n");
  folder.write("parts/pads.yaml", "area: 50 cm2\nthickness: 12 mm\n");
  const auto file = folder.write("top.yaml",
                                 "include: [base.yaml, parts/car.yaml]\n"
                                 "car: {drag_area: 0.8 m2}\n"
                                 "brakes: {rear: {pads: {include: parts/pads.yaml, thickness: 9 mm}}}\n"
                                 "session: [{park: 60 s}]\n");
  const session::Case c = read_case(file).c;
  CHECK(c.car.mass == 900);                            // the later include wins
  CHECK_THAT(c.car.drag_area, WithinRel(0.8, 1e-12));  // the including file wins
  CHECK(c.session.size() == 1);                        // lists replace
  CHECK_THAT(c.brakes.rear.pads.area, WithinRel(0.0050, 1e-12));
  CHECK_THAT(c.brakes.rear.pads.thickness, WithinRel(0.009, 1e-12));
  CHECK_THAT(c.brakes.front.pads.thickness, WithinRel(0.014, 1e-12));
}

TEST_CASE("null clears a value but not a map") {
  const Folder folder("null");
  folder.write("base.yaml", kSample + "name: base\n");
  const auto file = folder.write("top.yaml", "include: base.yaml\nname: ~\ncar:\n");
  const session::Case c = read_case(file).c;
  CHECK(c.name == "top");
  CHECK(c.car.mass == 1140);
}

TEST_CASE("includes may stand in steps and in included files") {
  const Folder folder("nested");
  folder.write("a/base.yaml", "include: ../b/more.yaml\n" + kSample);
  folder.write("b/more.yaml", "air: {temperature: 5 degC}\n");
  folder.write("snubs.yaml", "count: 3\nfrom: 100 km/h\nto: 50 km/h\ndeceleration: 3 m/s2\nevery: 60 s\n");
  const auto file =
      folder.write("top.yaml", "include: a/base.yaml\nsession: [{snubs: {include: snubs.yaml, count: 5}}]\n");
  const session::Case c = read_case(file).c;
  CHECK_THAT(c.air.temperature, WithinRel(278.15, 1e-12));
  CHECK(std::get<session::SnubStep>(c.session[0]).count == 5);
}

TEST_CASE("errors keep the file they stand in") {
  const Folder folder("place");
  folder.write("parts/base.yaml", replaced(kSample, "1140 kg", "1140"));
  const auto file = folder.write("top.yaml", "include: parts/base.yaml\n");
  const auto errors = errors_of_file(file);
  REQUIRE(errors.size() == 1);
  CHECK(errors[0].file == (folder.path() / "parts/base.yaml").string());
  CHECK(errors[0].line == 2);
  CHECK(errors[0].column == 9);
}

TEST_CASE("includes that cannot be had") {
  const Folder folder("bad");
  const auto first = [&](const std::string& name) {
    const auto errors = errors_of_file(folder.path() / name);
    REQUIRE_FALSE(errors.empty());
    return errors[0];
  };
  folder.write("loop.yaml", "include: loop2.yaml\n");
  folder.write("loop2.yaml", "include:\n  - loop.yaml\n");
  CHECK_THAT(first("loop.yaml").message, Contains("includes itself"));
  CHECK(first("loop.yaml").file == (folder.path() / "loop2.yaml").string());
  CHECK(first("loop.yaml").line == 2);

  folder.write("gone.yaml", "car: {include: nowhere.yaml}\n");
  CHECK_THAT(first("gone.yaml").message, Contains("there is no file"));
  CHECK(first("gone.yaml").column == 16);
  CHECK_THAT(first("not_there.yaml").message, Contains("there is no file"));

  folder.write("list.yaml", "- a\n");
  folder.write("top.yaml", "include: list.yaml\n");
  CHECK_THAT(first("top.yaml").message, Contains("found no map at the top of an included file"));

  folder.write("map.yaml", "include: {a: b}\n");
  CHECK_THAT(first("map.yaml").message, Contains("expected the path of a file"));

  folder.write("dir/x.yaml", "");
  folder.write("dir.yaml", "include: dir\n");
  CHECK_THAT(first("dir.yaml").message, Contains("is not a file"));

  folder.write("binary.yaml", std::string("a\0b", 3));
  CHECK_THAT(first("binary.yaml").message, Contains("not UTF-8"));

  folder.write("large.yaml", std::string(16 * 1024 * 1024 + 1, '#'));
  folder.write("big.yaml", "include: large.yaml\n");
  CHECK_THAT(first("big.yaml").message, Contains("larger than 16 MiB"));
}

TEST_CASE("includes nest only so deep and only so often") {
  const Folder folder("deep");
  for (int i = 0; i < 20; ++i) folder.write(fmt::format("f{}.yaml", i), fmt::format("include: f{}.yaml\n", i + 1));
  const auto deep = errors_of_file(folder.path() / "f0.yaml");
  REQUIRE_FALSE(deep.empty());
  CHECK_THAT(deep[0].message, Contains("nested deeper than 16"));

  folder.write("leaf.yaml", "name: x\n");
  std::string many = "include: [";
  for (int i = 0; i < 300; ++i) many += "leaf.yaml, ";
  const auto often = errors_of_file(folder.write("many.yaml", many + "]\n"));
  REQUIRE(often.size() == 1);
  CHECK_THAT(often[0].message, Contains("more than 256 files"));
}

TEST_CASE("includes may hold only so much together") {
  const Folder folder("much");
  std::string numbers = "name: [";
  for (int i = 0; i < 50'000; ++i) numbers += "1, ";
  folder.write("numbers.yaml", numbers + "]\n");
  std::string many = "include: [";
  for (int i = 0; i < 30; ++i) many += "numbers.yaml, ";
  const auto errors = errors_of_file(folder.write("much.yaml", many + "]\n"));
  REQUIRE(errors.size() == 1);
  CHECK_THAT(errors[0].message, Contains("more than a million values"));
}

TEST_CASE("includes reach only the folders that they may") {
  const Folder folder("reach");
  folder.write("secret.yaml", kSample);
  folder.write("configs/cars/base.yaml", kSample);
  const auto inside = folder.write("configs/sessions/top.yaml", "include: ../cars/base.yaml\n");
  CHECK(read_case(inside).c.car.mass == 1140);
  const auto outside = folder.write("configs/sessions/out.yaml", "include: ../../secret.yaml\n");
  const auto errors = errors_of_file(outside);
  REQUIRE(errors.size() == 1);  // and no word of all the keys that are missing without it
  CHECK_THAT(errors[0].message, Contains("outside the folders"));
  CHECK_THAT(errors[0].hint, Contains("--allow-include"));
  ReadOptions options;
  options.allowed_include_dirs = {folder.path()};
  CHECK(read_case(outside, options).c.car.mass == 1140);
  const auto log = folder.write("configs/sessions/log.yaml",
                                "include: ../cars/base.yaml\nsession: [{laps: 1, trace: ../../secret.yaml}]\n");
  CHECK_THAT(errors_of_file(log).at(0).message, Contains("outside the folders"));
  const auto whole = folder.write("configs/sessions/whole.yaml", "include: /etc/hostname\n");
  CHECK_THAT(errors_of_file(whole).at(0).message, Contains("outside the folders"));
  std::filesystem::create_symlink(folder.path() / "secret.yaml", folder.path() / "configs/sessions/link.yaml");
  const auto linked = errors_of_file(folder.write("configs/sessions/through.yaml", "include: link.yaml\n"));
  REQUIRE_FALSE(linked.empty());
  CHECK_THAT(linked[0].message, Contains("outside the folders"));
}
