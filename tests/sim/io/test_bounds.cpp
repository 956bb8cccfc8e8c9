// SPDX-License-Identifier: MIT
// Input that is larger, deeper or longer than any that makes sense ends in an error, soon and with little memory.
#include <fmt/format.h>

#include <numeric>

#include "log_sample.hpp"
#include "sample.hpp"

using namespace hatring::io;
using namespace hatring::io::testing;
using Catch::Matchers::Contains;

namespace {

std::string repeated(const std::string& text, int times) {
  std::string out;
  out.reserve(text.size() * static_cast<std::size_t>(times));
  for (int i = 0; i < times; ++i) out += text;
  return out;
}

}  // namespace

TEST_CASE("maps and lists nest only so deep") {
  for (const std::string opening : {"[", "{a: ", "- ", "? "}) {
    CAPTURE(opening);
    const auto errors = errors_of(repeated(opening, 100'000));
    REQUIRE(errors.size() == 1);
    CHECK_THAT(errors[0].message, Contains("deep"));
    CHECK(errors[0].line == 1);
  }
  CHECK_THAT(errors_of("a: " + repeated("[", 400) + repeated("]", 400)).at(0).message, !Contains("deep"));
}

TEST_CASE("after a hundred errors nobody reads on") {
  std::string many = kSample;
  for (int i = 0; i < 50'000; ++i) many += fmt::format("key{}: 1\n", i);
  const auto errors = errors_of(many);
  CHECK(errors.size() == 100);
  CHECK_THAT(errors.back().hint, Contains("after 100 errors"));
}

TEST_CASE("a value that is an essay is not repeated in the message") {
  const std::string essay = repeated("no ", 100'000);
  const auto errors = errors_of(replaced(kSample, "1140 kg", "\"" + essay + "\""));
  REQUIRE(errors.size() == 1);
  CHECK(errors[0].message == "found a text of 299999 characters, expected a mass");
  CHECK(std::string(to_text(errors[0])).size() < 1000);
}

TEST_CASE("a session has only so many steps") {
  CHECK_THAT(errors_of(replaced(kSample, "  - {park: 20 min}\n", repeated("  - {park: 1 s}\n", 10'001))).at(0).message,
             Contains("10002 steps"));
}

TEST_CASE("large maps are merged") {
  const Folder folder("bounds_merge");
  std::string materials = "materials:\n";
  for (int i = 0; i < 20'000; ++i) materials += fmt::format("  m{}: {{density: 1 kg/m3}}\n", i);
  folder.write("a.yaml", materials);
  folder.write("b.yaml", materials);
  CHECK_THROWS_WITH(read_case(folder.write("c.yaml", "include: [a.yaml, b.yaml]\n" + kSample)),
                    Contains("a.yaml") || Contains("b.yaml"));
}

TEST_CASE("a log has only so many columns") {
  CHECK_THAT(refusal("time,speed\n" + repeated("1,", 100'000) + "\n" + repeated("2,", 100'000) + "\n"),
             Contains("more than 2000 columns"));
}

TEST_CASE("a long drive is searched for laps in bounded work") {
  // Some 700 km round one lap: the search grows with the drive and not with its square.
  const std::string text = log_text("Time (s),Speed (km/h)", invented_drive(2, 250),
                                    [](const Sample& s) { return number(s.time) + "," + number(3.6 * s.speed); });
  const LogReading r = read(text);
  CHECK(guess(r, "laps").choice == "by the repeated speed");
  CHECK(r.laps.laps.size() > 200);
}
