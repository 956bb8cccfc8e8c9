// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <limits>
#include <random>
#include <string>

#include "sim/network/conductance_table.hpp"
#include "sim/network/cooling.hpp"
#include "tests/sim/network/track_case.hpp"

namespace hatring::network {
namespace {

constexpr double kFastest = 65;  // [m/s]

struct Named {
  const char* name;
  Law law;
};

// Every law of a wheel with a duct.
std::vector<Named> laws() {
  return {{"ring face", RingFace{0.103, 0.153, false}},
          {"ring rim", RingEdge{0.153}},
          {"vanes", VanePassages{{0.153, 0.096, 0.0103, 0.0052, 44}}},
          {"bell", BluntBody{0.15}},
          {"caliper", BluntBody{0.12}},
          {"duct", DuctedAir{0.2, 0.06}},
          {"air exchange", AirExchange{}}};
}

}  // namespace

TEST_CASE(
    "tables give the real cooling laws within 0.5 % above 5 m/s and 20 K (rim 1.2 %, its flow turns turbulent within a "
    "few "
    "m/s), within 1 % of their scale elsewhere") {
  const session::Case c = test::track_case(session::Mesh::standard);
  const Cooling cooling(c, session::Axle::front);
  const ConductanceGrid grid(kFastest);
  std::mt19937 random(3);
  std::uniform_real_distribution<double> unit(0, 1);
  for (const auto& [name, law] : laws()) {
    const ConductanceTable table = cooling.table(law, grid);
    double worst = 0, worst_slow = 0;
    for (int i = 0; i < 4000; ++i) {
      const double speed = kFastest * unit(random), difference = -100 + 1100 * unit(random);
      const double exact = cooling.at(law, speed, difference), got = table(grid.locate(speed), difference);
      const double scale =
          cooling.at(law, 5, 100);  // what the surface conducts when it is merely warm and hardly moves
      if (speed > 5 && std::abs(difference) > 20)
        worst = std::max(worst, std::abs(got / exact - 1));
      else
        worst_slow = std::max(worst_slow, std::abs(got - exact) / std::max(exact, scale));
    }
    CAPTURE(name, worst, worst_slow);
    CHECK(worst < (std::string(name) == "ring rim" ? 0.012 : 0.005));
    CHECK(worst_slow < 0.01);
  }
}

TEST_CASE("equal laws in equal cooling share a table at any scale, and whatever else differs parts them") {
  const session::Case plain = test::track_case(session::Mesh::standard);
  const ConductanceGrid grid(kFastest);
  const auto numbers = [&](const std::function<void(session::Case&)>& change, const Law& law) {
    session::Case c = plain;
    change(c);
    return Cooling(c, session::Axle::front).table(law, grid).cubics();
  };
  const auto as_it_is = [](session::Case&) {};
  const std::vector<std::function<void(session::Case&)>> changes{
      [](session::Case& c) { c.physics.convection = 40; },
      [](session::Case& c) { c.air.temperature += 1; },
      [](session::Case& c) { c.air.pressure -= 100; },
      [](session::Case& c) { c.air.wind += 1; },
      [](session::Case& c) { c.car.tyre_radius += 0.01; },
      [](session::Case& c) { c.brakes.front.rotor.ring.outer_diameter += 0.001; },
      [](session::Case& c) { c.brakes.front.cooling.duct_area += 1e-4; },
      [](session::Case& c) { c.brakes.front.cooling.duct_efficiency += 0.01; }};
  for (const auto& [name, law] : laws()) {
    CAPTURE(name);
    const double* const known = numbers(as_it_is, law);
    CHECK(numbers([](session::Case& c) { c.brakes.front.cooling.scale *= 1.3; }, law) == known);
    CHECK(numbers([](session::Case& c) { c.car.mass *= 1.3; }, law) == known);
    for (const auto& change : changes) CHECK(numbers(change, law) != known);
    for (const auto& [other, another] : laws())
      if (std::string(other) != name) CHECK(numbers(as_it_is, another) != known);
  }
  CHECK(numbers(as_it_is, RingFace{0.103, 0.153, true}) != numbers(as_it_is, RingFace{0.103, 0.153, false}));
  CHECK(numbers(as_it_is, DuctedAir{0.2, 0.06, 0.01}) != numbers(as_it_is, DuctedAir{0.2, 0.06}));

  const Cooling cooling(plain, session::Axle::front);
  CHECK(cooling.table(BluntBody{0.12}, ConductanceGrid(kFastest + 1)).cubics() !=
        cooling.table(BluntBody{0.12}, grid).cubics());
  session::Case scaled = plain;
  scaled.brakes.front.cooling.scale *= 1.3;
  const Cooling brisk(scaled, session::Axle::front);
  const auto at = grid.locate(31);
  CHECK(brisk.table(BluntBody{0.12}, grid)(at, 200) == Approx(1.3 * cooling.table(BluntBody{0.12}, grid)(at, 200)));
  CHECK(brisk.at(BluntBody{0.12}, 31, 200) == Approx(1.3 * cooling.at(BluntBody{0.12}, 31, 200)));
}

TEST_CASE("tables are exact at their points and for what a cubic can hold") {
  const ConductanceGrid grid(kFastest);
  const auto law = [](double v, double d) {
    return (2 + std::sqrt(v)) * (5 + std::copysign(std::sqrt(std::abs(d)), d) / 10);
  };
  const ConductanceTable table(grid, law);
  for (int i = 0; i < ConductanceGrid::kSpeeds; ++i)
    for (int j = 0; j < ConductanceGrid::kDifferences; ++j)
      CHECK(table(grid.locate(grid.speed(i)), grid.difference(j)) == Approx(law(grid.speed(i), grid.difference(j))));
  // Bilinear in the two square roots, hence met everywhere.
  CHECK(table(grid.locate(17.3), 123) == Approx(law(17.3, 123)).epsilon(1e-12));
}

TEST_CASE("heat flow from a table is C1 in difference and in speed") {
  const session::Case c = test::track_case(session::Mesh::standard);
  const Cooling cooling(c, session::Axle::front);
  const ConductanceGrid grid(kFastest);
  for (const auto& [name, law] : laws()) {
    CAPTURE(name);
    const ConductanceTable table = cooling.table(law, grid);
    const auto flow = [&](double v, double d) { return table(grid.locate(v), d) * d; };
    // Slopes on both sides of every grid line; a kink would show as a difference that does not shrink.
    constexpr double kStep = 1e-5;
    for (int j = 1; j + 1 < ConductanceGrid::kDifferences; ++j) {
      const double d = grid.difference(j), v = 23.4;
      const double left = (flow(v, d) - flow(v, d - kStep)) / kStep, right = (flow(v, d + kStep) - flow(v, d)) / kStep;
      CHECK(left == Approx(right).epsilon(1e-3).margin(1e-6));
    }
    for (int i = 1; i + 1 < ConductanceGrid::kSpeeds; ++i) {
      const double v = grid.speed(i), d = 321;
      const double left = (flow(v, d) - flow(v - kStep, d)) / kStep, right = (flow(v + kStep, d) - flow(v, d)) / kStep;
      CHECK(left == Approx(right).epsilon(1e-3).margin(1e-4));
    }
  }
}

TEST_CASE("beyond the table its edge is held, and what is not a number never becomes an index") {
  const ConductanceGrid grid(kFastest);
  const ConductanceTable table(grid, [](double v, double d) { return 1 + v + 0.01 * d; });
  const double hottest = grid.difference(ConductanceGrid::kDifferences - 1);
  CHECK(table(grid.locate(1000), 100) == Approx(table(grid.locate(kFastest), 100)));
  CHECK(table(grid.locate(-3), 100) == Approx(table(grid.locate(0), 100)));
  CHECK(table(grid.locate(10), 5000) == Approx(table(grid.locate(10), hottest)));
  CHECK(table(grid.locate(10), -5000) == Approx(table(grid.locate(10), grid.difference(0))));
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(std::isfinite(table(grid.locate(nan), 100)));
  CHECK(std::isfinite(table(grid.locate(10), nan)));
}

}  // namespace hatring::network
