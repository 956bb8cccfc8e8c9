// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "sim/answer/beyond_tables.hpp"
#include "sim/io/read_case.hpp"

using namespace hatring;

TEST_CASE("fasteners hotter than their material's data are told, with what to do") {
  const session::Case c = io::read_case("configs/demo.yaml", {.set = {"brakes.front.rotor.joint.material=a286"}}).c;
  answer::AxleAnswers answers;
  answers.peaks["fastener"] = {800, {}};
  answers.peaks["hat_flange"] = {400, {}};
  CHECK(answer::beyond_tables(c, session::Axle::front, answers).empty());
  answers.peaks["fastener"].value = 273.15 + 561;  // the table of a286 ends at 540 degC
  const auto warnings = answer::beyond_tables(c, session::Axle::front, answers);
  REQUIRE(warnings.size() == 1);
  CHECK(warnings[0].find("front fasteners reach 561 degC") != std::string::npos);
  CHECK(warnings[0].find("known only to 540 degC") != std::string::npos);
  CHECK(warnings[0].find("materials: {a286: ...}") != std::string::npos);
}
