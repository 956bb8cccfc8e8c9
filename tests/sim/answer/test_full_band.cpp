// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/answer/full_band.hpp"
#include "sim/answer/run.hpp"
#include "sim/io/read_case.hpp"
#include "sim/session/error.hpp"

using namespace hatring;
using answer::Level;

namespace {

session::Case bench(std::vector<std::string> set = {}) {
  set.insert(set.begin(), "session=[{hold: 60 s, speed: 110 km/h, heat: 9 kW}, {park: 60 s}]");
  return io::read_case("configs/demo.yaml", {.set = set, .mesh = session::Mesh::lump}).c;
}

const answer::UncertainInput* find(const std::vector<answer::UncertainInput>& inputs, const std::string& key) {
  for (const answer::UncertainInput& i : inputs)
    if (i.key == key) return &i;
  return nullptr;
}

answer::InputPart plain(double low, double high, void (*set)(session::Case&, session::Axle, double)) {
  return {.factor = {low, 1, high}, .set = set};
}

// Three inputs without physics: mass, wheelbase and height of the centre of gravity.
std::vector<answer::UncertainInput> three(double low = 0.5, double high = 1.5) {
  return {{"a", "first", "read a", {plain(low, high, [](auto& c, auto, double f) { c.car.mass *= f; })}},
          {"b", "second", "read b", {plain(low, high, [](auto& c, auto, double f) { c.car.wheelbase *= f; })}},
          {"c", "third", "read c", {plain(low, high, [](auto& c, auto, double f) { c.car.cg_height *= f; })}}};
}

session::Case unit_case() {
  session::Case c;
  c.car.mass = c.car.wheelbase = c.car.cg_height = 1;
  return c;
}

// 4 a + 2 b + 10: of its variance a has 0.8 and b 0.2, since both are spread evenly over (0.5, 1.5); c has none.
answer::Answers synthetic(const session::Case& c, double limit = 100) {
  answer::Answers a;
  answer::Verdict v;
  v.axle = "front";
  v.key = "made_up";
  v.value = 4 * c.car.mass + 2 * c.car.wheelbase + 10;
  v.limit = limit;
  v.margin = limit - v.value;
  v.scale = 100;
  v.level = v.margin < 0 ? Level::exceeded : Level::within;
  if (v.margin < 0) v.advice = "Do something.";
  a.verdicts = {v};
  a.front.peaks["ring_mean"].value = v.value;
  return a;
}

answer::Answers widened(const std::vector<answer::UncertainInput>& inputs, double limit, std::uint64_t runs,
                        std::size_t failed = SIZE_MAX) {
  const session::Case c = unit_case();
  answer::Answers likely = synthetic(c, limit);
  const answer::Answers copy = likely;
  const answer::FullBand band(c, copy, inputs, runs);
  std::vector<answer::BandRow> rows;
  for (std::uint64_t i = 0; i < band.runs(); ++i)
    rows.push_back(i == failed ? answer::BandRow{} : band.row(synthetic(band.at(i), limit)));
  band.widen(likely, rows);
  return likely;
}

}  // namespace

TEST_CASE("full band: a made-up answer has the quantiles and indices of its closed form") {
  const answer::Answers a = widened(three(), 100, 5 * 4096);
  const answer::Doubt& d = *a.verdicts.front().doubt;
  // Sum of two even spreads of widths 4 and 2 about 16: the tails are triangles, P(below low + t) = t^2 / 16.
  const double tail = std::sqrt(0.05 * 16);
  CHECK(d.low == Approx(13 + tail).margin(0.02));
  CHECK(d.likely == Approx(16).margin(0.02));
  CHECK(d.high == Approx(19 - tail).margin(0.02));
  CHECK(d.kept == 1);
  REQUIRE(d.weights.size() == 3);
  CHECK(d.weights[0].input == 0);
  CHECK(d.weights[0].first == Approx(0.8).margin(0.01));
  CHECK(d.weights[0].total == Approx(0.8).margin(0.01));
  CHECK(d.weights[1].input == 1);
  CHECK(d.weights[1].total == Approx(0.2).margin(0.01));
  CHECK(d.weights[2].total == Approx(0).margin(1e-12));
  CHECK(a.verdicts.front().sure == "kept in every run of the full band");
  CHECK(a.verdicts.front().level == Level::within);
  CHECK(a.front.peaks.at("ring_mean").band->low == Approx(d.low));
  CHECK(*a.front.peaks.at("ring_mean").median == Approx(d.likely));
  CHECK(a.full_band->order == std::vector<std::size_t>{0, 1, 2});
  CHECK(a.full_band->sentence.find("read a") != std::string::npos);
}

TEST_CASE("full band: a limit inside it takes the certainty from a verdict") {
  // The upper triangle beyond 18 holds (19 - 18)^2 / 16.
  const answer::Answers near = widened(three(), 18, 5 * 4096);
  CHECK(near.verdicts.front().doubt->kept == Approx(1 - 1.0 / 16).margin(0.005));
  CHECK(near.verdicts.front().level == Level::near);
  CHECK(near.verdicts.front().crosses);
  CHECK(near.verdicts.front().advice == "Do something.");
  const answer::Answers over = widened(three(), 15.5, 5 * 1024);
  CHECK(over.verdicts.front().level == Level::exceeded);
  CHECK(over.verdicts.front().crosses);
  const answer::Answers surely = widened(three(), 12, 5 * 64);
  CHECK_FALSE(surely.verdicts.front().crosses);
  CHECK(surely.verdicts.front().sure == "not kept in any run of the full band");
}

TEST_CASE("full band: how sure in words") {
  CHECK(answer::how_sure(0.97) == "very likely kept (in 97 % of the runs of the full band)");
  CHECK(answer::how_sure(0.8).starts_with("likely kept"));
  CHECK(answer::how_sure(0.5).starts_with("as likely kept as not"));
  CHECK(answer::how_sure(0.2).starts_with("probably not kept"));
  CHECK(answer::how_sure(0.999).find("99 %") != std::string::npos);
  CHECK(answer::how_sure(0.001).find("very likely not kept (in 1 %") != std::string::npos);
}

TEST_CASE("full band: priors without width give bands without width") {
  const answer::Answers a = widened(three(1, 1), 100, 80);
  const answer::Verdict& v = a.verdicts.front();
  CHECK(v.band->low == v.value);
  CHECK(v.band->high == v.value);
  CHECK(v.doubt->weights.empty());
}

TEST_CASE("full band: a run that cannot be done takes its block with it and is told") {
  const answer::Answers a = widened(three(), 100, 5 * 64, 7);
  CHECK(a.full_band->runs == 320);
  CHECK(a.full_band->failed == 1);
  REQUIRE(a.warnings.size() == 1);
  CHECK(a.warnings.front().starts_with("1 of 320 runs"));
  CHECK(a.verdicts.front().doubt->weights.front().total == Approx(0.8).margin(0.1));

  const session::Case c = unit_case();
  answer::Answers likely = synthetic(c);
  const answer::Answers copy = likely;
  const answer::FullBand band(c, copy, three(), 10);
  CHECK_THROWS_AS(band.widen(likely, std::vector<answer::BandRow>(band.runs())), session::CaseError);
  CHECK_THROWS_AS(answer::FullBand(c, copy, {}, 10), std::invalid_argument);
}

TEST_CASE("full band: blocks are the largest power of two that the runs allow") {
  const session::Case c = unit_case();
  const answer::Answers likely = synthetic(c);
  CHECK(answer::FullBand(c, likely, three(), 288).runs() == 5 * 32);
  CHECK(answer::FullBand(c, likely, three(), 159).runs() == 5 * 16);
  CHECK(answer::FullBand(c, likely, three(), 1).runs() == 5 * 2);
}

TEST_CASE("inputs: what the config gives is spread less and what it pins is left out") {
  const auto usual = answer::uncertain_inputs(bench());
  CHECK(usual.size() == answer::input_keys().size() - 1);  // no age of the fluid is given
  CHECK(find(usual, "fluid_age") == nullptr);
  const auto& wide = find(usual, "convection")->parts.front().factor;
  CHECK(wide.low == 0.67);
  CHECK(wide.high == 1.5);
  // The demo gives its front share; the narrow prior holds.
  CHECK(find(usual, "front_share")->parts.front().factor.low == 0.96);

  const auto fitted = answer::uncertain_inputs(bench({"brakes.front.cooling.scale=1.2"}));
  const auto& parts = find(fitted, "convection")->parts;
  CHECK(parts[0].factor.low > 0.8);
  CHECK(parts[1].factor.low == 0.67);

  const auto gone = [](const char* set, const char* key) {
    return find(answer::uncertain_inputs(bench({set})), key) == nullptr;
  };
  CHECK(gone("physics.convection={constant: 25 W/m2/K}", "convection"));
  CHECK(gone("physics.links={ring_hat: 20 W/K}", "joint"));
  CHECK(gone("physics.partition=0.95", "heat_split"));
  CHECK(gone("physics.radiation=off", "emissivity"));
  CHECK(gone("brakes.front_share=ideal", "front_share"));
  // Nothing radiates more than a black body.
  const auto black = answer::uncertain_inputs(bench({"brakes.front.rotor.hat.emissivity=0.95"}));
  CHECK(find(black, "emissivity")->parts[1].factor.high == Approx(1 / 0.95));
  CHECK(find(answer::uncertain_inputs(bench(), {"mass"}), "mass") == nullptr);
  CHECK(find(answer::uncertain_inputs(bench({"brakes.front.fluid.age=2 year"})), "fluid_age")->parts.size() == 1);
}

TEST_CASE("inputs: half of each prior lies on either side of the case as it is") {
  const session::Case c = bench({"brakes.front.fluid.age=2 year", "brakes.rear.pads.contact=3e4 W/m2/K"});
  session::Case middle = c, low = c;
  for (const answer::UncertainInput& i : answer::uncertain_inputs(c)) {
    answer::set_input(middle, i, 0.5);
    answer::set_input(low, i, 1e-9);
  }
  CHECK(middle.brakes.front.cooling.scale == Approx(1));
  CHECK(middle.brakes.rear.rotor.joint.conductance_scale == Approx(1));
  CHECK(*middle.brakes.rear.pads.contact == Approx(3e4));
  CHECK(middle.brakes.rear.rotor.hat.emissivity == Approx(c.brakes.rear.rotor.hat.emissivity));
  CHECK(middle.brakes.front_share == Approx(c.brakes.front_share));
  CHECK(middle.car.mass == Approx(c.car.mass));
  CHECK(low.brakes.rear.cooling.scale == Approx(0.67));
  CHECK(low.car.mass == Approx(0.96 * c.car.mass));
  CHECK(*low.brakes.front.fluid.age == Approx(0.7 * *c.brakes.front.fluid.age));
}

TEST_CASE("full band: of a wheel on the bench every verdict lies in its band and its likely value too") {
  const session::Case c = bench();
  answer::Answers a = answer::run(c).answers;
  const answer::Answers likely = a;
  const answer::FullBand band(c, likely, answer::uncertain_inputs(c), 32);
  std::vector<answer::BandRow> rows;
  for (std::uint64_t i = 0; i < band.runs(); ++i) rows.push_back(band.row(answer::run(band.at(i)).answers));
  band.widen(a, rows);
  for (const answer::Verdict& v : a.verdicts) {
    INFO(v.axle << ' ' << v.key);
    REQUIRE(v.doubt);
    CHECK(v.doubt->low <= v.doubt->likely);
    CHECK(v.doubt->likely <= v.doubt->high);
    CHECK(v.band->low <= v.value);
    CHECK(v.value <= v.band->high);
    CHECK(v.doubt->kept >= 0);
    CHECK(v.doubt->kept <= 1);
  }
  // A hold has its heat from the config: neither the car's mass nor its brake share has a part in it.
  for (const answer::Verdict& v : a.verdicts)
    if (v.key == "ring_mean")
      for (const answer::InputWeight& w : v.doubt->weights)
        if (const std::string key = a.full_band->inputs[w.input].key; key == "mass" || key == "front_share")
          CHECK(w.total == Approx(0).margin(1e-9));
}
