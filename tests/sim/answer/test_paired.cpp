// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "sim/answer/paired.hpp"

using namespace hatring;

namespace {

session::Case unit_case(double mass) {
  session::Case c;
  c.car.mass = mass;
  c.brakes.front_share = 0.6;
  return c;
}

answer::Measure made_up(double (*value)(const session::Case&, const answer::Answers&, session::Axle)) {
  return {"made_up", "made up", "count", answer::Better::lower, 1, false, true, value};
}

}  // namespace

TEST_CASE("paired: set-ups of one run stand at the same share of every input") {
  const std::vector<session::Case> setups{unit_case(1000), unit_case(800)};
  const answer::Paired paired(setups, 16);
  CHECK(paired.runs() == 16);
  bool varies = false;
  for (std::uint64_t run = 0; run < paired.runs(); ++run) {
    const session::Case a = paired.at(0, run), b = paired.at(1, run);
    CHECK(a.car.mass / 1000 == Approx(b.car.mass / 800));
    CHECK(a.brakes.front.cooling.scale == b.brakes.front.cooling.scale);
    varies = varies || std::abs(a.car.mass - 1000) > 10;
  }
  CHECK(varies);
  const answer::Paired known(setups, 16, {"mass"});
  for (std::uint64_t run = 0; run < 16; ++run) CHECK(known.at(0, run).car.mass == 1000);
}

TEST_CASE("paired: a difference that every run shares keeps its sign where the bands overlap") {
  // Heavier by 1 % against a band of 10 %: the bands overlap nearly whole, the sign never changes.
  const std::vector<session::Case> setups{unit_case(1000), unit_case(1010)};
  const answer::Measure mass = made_up([](const auto& c, const auto&, auto) { return c.car.mass; });
  // Falls on either side of zero by the first input alone: half of the runs.
  const answer::Measure turn = made_up(
      [](const auto& c, const auto&, auto) { return c.car.mass * (c.brakes.front.cooling.scale > 1 ? 1 : -1); });
  answer::Comparison comparison;
  comparison.rows = {{.measure = &mass, .axle = "", .cells = {{}, {.difference = 10}}},
                     {.measure = &turn, .axle = "", .cells = {{}, {.difference = 10}}},
                     {.measure = &mass, .axle = "", .cells = {{}, {.difference = 0}}}};
  const answer::Paired paired(setups, 64);
  std::vector<std::vector<std::vector<double>>> values(2);
  for (std::size_t i = 0; i < 2; ++i)
    for (std::uint64_t run = 0; run < paired.runs(); ++run)
      values[i].push_back(answer::row_values(comparison, paired.at(i, run), {}));
  values[0][5].clear();  // failed
  answer::hold_against_first(comparison, values);
  CHECK(*comparison.rows[0].cells[1].same_sign == 1);
  CHECK(*comparison.rows[1].cells[1].same_sign == Approx(0.5).margin(0.03));
  CHECK_FALSE(comparison.rows[2].cells[1].same_sign);
  CHECK_FALSE(comparison.rows[0].cells[0].same_sign);
}
