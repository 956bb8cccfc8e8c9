// SPDX-License-Identifier: MIT
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <set>

#include "sim/answer/comparison.hpp"
#include "sim/io/read_case.hpp"

using namespace hatring;
using answer::Change;
using answer::Contender;
using answer::Level;

namespace {

answer::Answers answers(double ring, double fluid, double rotating = 5) {
  answer::Answers a;
  a.front.peaks["ring_mean"] = {ring, {}};
  a.front.rotating_mass = rotating;
  a.front.joint = {.applicable = true,
                   .largest = 0.3e-3,
                   .smallest = -0.05e-3,
                   .largest_place = {},
                   .smallest_place = {},
                   .sign_changes = {}};
  const double limit = 410;
  const Level level = fluid > limit ? Level::exceeded : Level::within;
  a.verdicts.push_back({.axle = "front",
                        .key = "fluid",
                        .part = "brake fluid",
                        .what = "peak",
                        .level = level,
                        .value = fluid,
                        .limit = limit,
                        .margin = limit - fluid,
                        .scale = limit - 300,
                        .unit = "K"});
  a.level = level;
  return a;
}

// Likely, little and much cooling.
Contender contender(const std::string& name, std::array<double, 3> ring, std::array<double, 3> fluid,
                    double rotating = 5) {
  Contender x;
  x.c.name = name;
  x.c.air.temperature = 300;
  x.likely = answers(ring[0], fluid[0], rotating);
  x.ends = {answers(ring[1], fluid[1], rotating), answers(ring[2], fluid[2], rotating)};
  return x;
}

const answer::ComparisonRow& row(const answer::Comparison& c, const std::string& key, const std::string& axle) {
  for (const answer::ComparisonRow& r : c.rows)
    if (r.measure->key == key && r.axle == axle) return r;
  throw std::logic_error("no row " + axle + " " + key);
}

}  // namespace

TEST_CASE("a difference is clear when sign and least size hold in each air") {
  CHECK(answer::clear_difference({10, 20, 30}, {4, 14, 24}, 5) == -1);
  CHECK(answer::clear_difference({10, 20, 30}, {16, 26, 36}, 5) == 1);
  CHECK(answer::clear_difference({10, 20, 30}, {16, 26, 24}, 5) == 0);  // turns in one air
  CHECK(answer::clear_difference({10, 20, 30}, {16, 23, 36}, 5) == 0);  // too small in one air
  CHECK(answer::clear_difference({10}, {16, 0, 0}, 5) == 1);            // one with pinned convection: the likely air
  const double none = std::numeric_limits<double>::quiet_NaN();
  CHECK(answer::clear_difference({none}, {16}, 5) == 0);
}

TEST_CASE("bands may overlap and the difference still be clear, since both set-ups share the air") {
  const std::vector<Contender> xs{contender("first", {700, 800, 600}, {390, 400, 380}),
                                  contender("cooler", {690, 788, 593}, {390, 400, 380}),
                                  contender("crossing", {690, 803, 590}, {390, 400, 380})};
  const answer::Comparison c = answer::compare(xs);
  const answer::ComparisonRow& ring = row(c, "ring", "front");
  CHECK(ring.cells[0].change == Change::none);
  CHECK(ring.cells[1].change == Change::better);
  CHECK(ring.cells[1].difference == Approx(-10));
  CHECK(ring.cells[1].band->low == 593);
  CHECK(ring.cells[1].band->high == 788);
  CHECK(ring.cells[2].change == Change::unclear);
  CHECK(ring.cells[1].best);
  CHECK_FALSE(ring.cells[0].best);
  CHECK_FALSE(ring.same);
  CHECK(row(c, "fluid", "front").same);  // no such peak in any: alike
  CHECK(std::isnan(row(c, "fluid", "front").cells[0].value));
  CHECK(row(c, "closest", "").same);
}

TEST_CASE("the one that keeps a limit the others pass is recommended, with that reason") {
  const std::vector<Contender> xs{contender("first", {700, 800, 600}, {420, 440, 400}),
                                  contender("good", {700, 800, 600}, {400, 420, 380}, 6)};
  const answer::Comparison c = answer::compare(xs);
  CHECK(c.recommended == 1);
  CHECK(c.sentence == "Take good: it alone is within limits, at the price of more rotating mass.");
}

TEST_CASE("a limit missed by a hair in one air only is no reason: then cost decides, then mass") {
  // Over by 1 K of 110 in the likely air: less than the least share.
  std::vector<Contender> xs{contender("first", {700, 800, 600}, {411, 430, 390}),
                            contender("light", {700, 800, 600}, {410, 429, 389}, 4)};
  answer::Comparison c = answer::compare(xs);
  CHECK(c.recommended == 1);
  CHECK(c.sentence.find("turns the least mass") != std::string::npos);
  xs[0].c.cost = session::Cost{100, "EUR", "100 EUR"};
  xs[1].c.cost = session::Cost{300, "EUR", "300 EUR"};
  c = answer::compare(xs);
  CHECK(c.recommended == 0);
  CHECK(c.sentence.starts_with("Keep the set-up as it is: "));  // not the least bad: the other one is within limits
  CHECK(c.sentence.ends_with("it costs least. It is over a limit, by less than can be told."));
  CHECK(row(c, "cost", "").cells[1].change == Change::worse);
  xs[1].c.cost->currency = "GBP";
  CHECK(row(answer::compare(xs), "cost", "").cells[1].change == Change::none);
}

TEST_CASE("when none keeps its limits the furthest from passing is named as such") {
  const std::vector<Contender> xs{contender("first", {700, 800, 600}, {430, 450, 415}),
                                  contender("milder", {700, 800, 600}, {420, 440, 412})};
  const answer::Comparison c = answer::compare(xs);
  CHECK(c.recommended == 1);
  CHECK(c.sentence ==
        "None stays within limits; the least bad is milder: it goes 109 % of the way to the closest limit (front brake "
        "fluid); the "
        "set-up as it is would go 118 % of the way to the closest limit (front brake fluid).");
}

TEST_CASE("sorting puts the best first behind the reference, and what has no value last") {
  std::vector<Contender> xs{
      contender("a", {700, 800, 600}, {390, 400, 380}), contender("b", {720, 820, 620}, {390, 400, 380}),
      contender("c", {680, 780, 580}, {390, 400, 380}), contender("d", {0, 0, 0}, {390, 400, 380})};
  xs[3].likely.front.peaks.clear();
  const answer::Comparison c = answer::compare(xs);
  using Order = std::vector<std::size_t>;
  CHECK(answer::order_by(c, "ring") == Order{0, 2, 1, 3});
  CHECK(answer::order_by(c, "front.ring") == Order{0, 2, 1, 3});
  CHECK(answer::order_by(c, "rear.ring") == Order{0, 1, 2, 3});
  CHECK(answer::order_by(c, "named") == Order{0, 1, 2, 3});
}

TEST_CASE("measures have keys of their own, and a joint that is not there has no value") {
  std::set<std::string> keys;
  for (const answer::Measure& m : answer::measures()) CHECK(keys.insert(m.key).second);
  session::Case c = io::read_case("configs/demo.yaml", {.set = {"session=[{park: 60 s}]"},
                                                        .mesh = session::Mesh::lump,
                                                        .variant = "configs/variants/one_piece.yaml"})
                        .c;
  const Contender x{c, answer::run(c).answers, std::nullopt};
  const answer::Comparison alone = answer::compare({x});
  CHECK(std::isnan(row(alone, "outward", "front").cells[0].value));
  CHECK(std::isnan(row(alone, "float", "front").cells[0].value));
  CHECK(row(alone, "rotating", "front").cells[0].value > 5);
  CHECK(alone.sentence.find("nothing to compare it with") != std::string::npos);
}
