// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

#include "models/fatigue.hpp"

using namespace hatring::models;
using Catch::WithinRel;

namespace {

FatigueConstants steel(MeanStress correction) {
  return {900e6, -0.1, 0.5, -0.6, correction};
}

double counts(const std::vector<LoadCycle>& cycles) {
  double sum = 0;
  for (const LoadCycle& cycle : cycles) sum += cycle.count;
  return sum;
}

using Values = std::vector<double>;

}  // namespace

TEST_CASE("turning points: plateaus and points on the way go and the ends stay", "[fatigue]") {
  CHECK(turning_points(Values{0, 1, 2, 2, 2, 1, 0, 0, 3}, 0) == Values{0, 2, 0, 3});
  CHECK(turning_points(Values{5, 5, 5}, 0) == Values{5});
  CHECK(turning_points(Values{}, 0).empty());
  CHECK(turning_points(Values{1, 0}, 0) == Values{1, 0});
}

TEST_CASE("turning points: ripples inside the dead band go and the extremes around them stay", "[fatigue]") {
  CHECK(turning_points(Values{0, 5, 4.5, 6, 5.7, 2, 2.3, 1, 8}, 1) == Values{0, 6, 1, 8});
  CHECK(turning_points(Values{0, 0.5, -0.5, 0.4, -0.2}, 2).size() <= 2);
  CHECK(turning_points(Values{0, 0.5, -5, 0}, 1) == Values{0.5, -5, 0});
  CHECK(turning_points(Values{3, 3.4, 2.9, 9, 8.5}, 1) == Values{2.9, 9});
  CHECK_THROWS_AS(turning_points(Values{0}, -1), std::invalid_argument);
}

TEST_CASE("turning points: the largest range of a long noisy series survives any small band", "[fatigue]") {
  std::mt19937 random(7);
  std::normal_distribution<double> noise(0, 0.1);
  Values series;
  for (int i = 0; i < 20000; ++i) series.push_back(10 * std::sin(i * 0.003) + noise(random));
  const auto [low, high] = std::minmax_element(series.begin(), series.end());
  const Values turns = turning_points(series, 1);
  CHECK(turns.size() < 25);
  CHECK(*std::max_element(turns.begin(), turns.end()) == *high);
  CHECK(*std::min_element(turns.begin(), turns.end()) == *low);
  for (std::size_t i = 2; i < turns.size(); ++i) CHECK((turns[i] - turns[i - 1]) * (turns[i - 1] - turns[i - 2]) < 0);
}

TEST_CASE("rainflow: means and halves of small histories", "[fatigue]") {
  CHECK(rainflow(Values{}).empty());
  CHECK(rainflow(Values{1}).empty());
  const std::vector<LoadCycle> one = rainflow(Values{0, 10});
  REQUIRE(one.size() == 1);
  CHECK(one[0].range == 10);
  CHECK(one[0].mean == 5);
  CHECK(one[0].count == 0.5);
  const std::vector<LoadCycle> inner = rainflow(Values{0, 10, 4, 6, -1});  // 4 to 6 closes inside
  REQUIRE_FALSE(inner.empty());
  CHECK(inner[0].range == 2);
  CHECK(inner[0].mean == 5);
  CHECK(inner[0].count == 1);
  // Every range between neighbours is half a cycle.
  const Values history{3, -7, 5, -2, 4, -6, 8, 0, 1, -9};
  CHECK(counts(rainflow(history)) == (static_cast<double>(history.size()) - 1) / 2);
}

TEST_CASE("stress-life: Basquin back and forth with each mean correction (closed form)", "[fatigue]") {
  const double life = 1e5, amplitude = 900e6 * std::pow(2 * life, -0.1), ultimate = 600e6;
  CHECK_THAT(stress_life(steel(MeanStress::none), ultimate, {amplitude, 300e6}), WithinRel(life, 1e-8));
  CHECK_THAT(stress_life(steel(MeanStress::goodman), ultimate, {amplitude / 2, 300e6}), WithinRel(life, 1e-8));
  CHECK_THAT(stress_life(steel(MeanStress::morrow), ultimate, {amplitude / 2, 450e6}), WithinRel(life, 1e-8));
  CHECK_THAT(stress_life(steel(MeanStress::smith_watson_topper), ultimate, {amplitude / 2, 1.5 * amplitude}),
             WithinRel(life, 1e-8));
  for (const MeanStress m :
       {MeanStress::none, MeanStress::goodman, MeanStress::morrow, MeanStress::smith_watson_topper})
    CHECK_THAT(stress_life(steel(m), ultimate, {amplitude, 0}), WithinRel(life, 1e-8));
}

TEST_CASE("stress-life: limits and signs", "[fatigue]") {
  CHECK(std::isinf(stress_life(steel(MeanStress::goodman), 600e6, {1e3, 0})));
  CHECK(stress_life(steel(MeanStress::goodman), 600e6, {2e9, 0}) == 0.5);
  CHECK(stress_life(steel(MeanStress::goodman), 600e6, {100e6, 600e6}) == 0.5);
  CHECK(std::isinf(stress_life(steel(MeanStress::smith_watson_topper), 600e6, {200e6, -300e6})));
  CHECK(stress_life(steel(MeanStress::goodman), 600e6, {200e6, -300e6}) ==
        stress_life(steel(MeanStress::goodman), 600e6, {200e6, 0}));
  CHECK_THROWS_AS(stress_life({}, 600e6, {1e6, 0}), std::invalid_argument);
  CHECK_THROWS_AS(stress_life(steel(MeanStress::none), 600e6, {-1, 0}), std::invalid_argument);
}

TEST_CASE("strain-life: back and forth over eight decades (closed form)", "[fatigue]") {
  const double modulus = 200e9;
  for (const double life : {1.0, 1e2, 1e4, 1e6, 1e8}) {
    const double elastic = 900e6 * std::pow(2 * life, -0.1), plastic = 0.5 * std::pow(2 * life, -0.6);
    CHECK_THAT(strain_life(steel(MeanStress::none), modulus, 1e9, {elastic, 1e8, elastic / modulus + plastic}),
               WithinRel(life, 1e-8));
    CHECK_THAT(
        strain_life(steel(MeanStress::smith_watson_topper), modulus, 1e9, {elastic, 0, elastic / modulus + plastic}),
        WithinRel(life, 1e-8));
    const double pulled = elastic * 0.75 / modulus + plastic;
    CHECK_THAT(strain_life(steel(MeanStress::morrow), modulus, 1e9, {elastic, 225e6, pulled}), WithinRel(life, 1e-8));
  }
  CHECK(strain_life(steel(MeanStress::morrow), modulus, 1e9, {1e8, 950e6, 1e-3}) == 0.5);
  CHECK(strain_life(steel(MeanStress::none), modulus, 1e9, {1e8, 0, 2}) == 0.5);
  CHECK(std::isinf(strain_life(steel(MeanStress::smith_watson_topper), modulus, 1e9, {1e8, -2e8, 1e-3})));
}

TEST_CASE("universal slopes give Manson's strain range back", "[fatigue]") {
  const FatigueConstants c = universal_slopes(600e6, 0.5);
  const double cycles = 3000, modulus = 200e9;
  const double range = 3.5 * 600e6 / modulus * std::pow(cycles, -0.12) + std::pow(0.5 / cycles, 0.6);
  FatigueConstants plain = c;
  plain.mean_stress = MeanStress::none;
  CHECK_THAT(strain_life(plain, modulus, 600e6, {0, 0, range / 2}), WithinRel(cycles, 1e-8));
  CHECK_THAT(scaled(c, 0.7).strength_coefficient, WithinRel(0.7 * c.strength_coefficient, 1e-12));
  CHECK_THROWS_AS(universal_slopes(0, 0.5), std::invalid_argument);
}

TEST_CASE("Miner's sum adds shares of life and endless lives add nothing", "[fatigue]") {
  const std::vector<LoadCycle> cycles{{1, 0, 10}, {2, 0, 0.5}, {0.1, 0, 1e6}};
  const auto life = [](const LoadCycle& c) {
    return c.range < 0.5 ? std::numeric_limits<double>::infinity() : 100 / c.range;
  };
  CHECK_THAT(miner_sum(cycles, life), WithinRel(0.11, 1e-12));
}
