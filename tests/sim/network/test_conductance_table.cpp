// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <string>

#include "sim/network/conductance_table.hpp"
#include "sim/network/cooling.hpp"
#include "tests/sim/network/track_case.hpp"

namespace hatring::network {
namespace {

constexpr double kHighestSpeed = 65;  // [m/s]

using Law = std::function<double(double, double)>;

struct Named {
  const char* name;
  Law law;
};

// Every law of a wheel with a duct.
std::vector<Named> laws(const Cooling& cooling) {
  const models::VaneGeometry vanes{0.153, 0.096, 0.0103, 0.0052, 44};
  return {{"ring face", [&](double v, double d) { return cooling.ring_face(v, d, 0.103, 0.153, false); }},
          {"ring rim", [&](double v, double d) { return cooling.ring_edge(v, d, 0.153); }},
          {"vanes", [&, vanes](double v, double d) { return cooling.vanes(v, d, vanes); }},
          {"bell", [&](double v, double d) { return cooling.body(v, d, 0.15); }},
          {"caliper", [&](double v, double d) { return cooling.body(v, d, 0.12); }},
          {"duct", [&](double v, double d) { return cooling.duct(v, d, 0.2, 0.06); }},
          {"air exchange", [&](double v, double d) { return cooling.exchange(v, d); }}};
}

}  // namespace

TEST_CASE(
    "tables give the real cooling laws within 0.5 % above 5 m/s and 20 K (rim 1.2 %, its flow turns turbulent within a "
    "few "
    "m/s), within 1 % of their scale elsewhere") {
  const session::Case c = test::track_case(session::Mesh::standard);
  const Cooling cooling(c, session::Axle::front);
  const ConductanceGrid grid(kHighestSpeed);
  std::mt19937 random(3);
  std::uniform_real_distribution<double> unit(0, 1);
  for (const auto& [name, law] : laws(cooling)) {
    const ConductanceTable table(grid, law);
    double worst = 0, worst_slow = 0;
    for (int i = 0; i < 4000; ++i) {
      const double speed = kHighestSpeed * unit(random), difference = -100 + 1100 * unit(random);
      const double exact = law(speed, difference), got = table(grid.locate(speed), difference);
      const double scale = law(5, 100);  // what the surface conducts when it is merely warm and hardly moves
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

TEST_CASE("a law asked after others gives what it gives by itself") {
  const session::Case c = test::track_case(session::Mesh::standard);
  const Cooling shared(c, session::Axle::front);
  const std::vector<Named> all = laws(shared);
  for (const double difference : {50.0, 50.0, 300.0, -20.0, 50.0})
    for (std::size_t k = 0; k < all.size(); ++k) {
      const Cooling fresh(c, session::Axle::front);
      CAPTURE(all[k].name, difference);
      CHECK(all[k].law(20, difference) == laws(fresh)[k].law(20, difference));
    }
}

TEST_CASE("tables are exact at their points and for what a cubic can hold") {
  const ConductanceGrid grid(kHighestSpeed);
  const Law law = [](double v, double d) {
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
  const ConductanceGrid grid(kHighestSpeed);
  for (const auto& [name, law] : laws(cooling)) {
    CAPTURE(name);
    const ConductanceTable table(grid, law);
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
  const ConductanceGrid grid(kHighestSpeed);
  const ConductanceTable table(grid, [](double v, double d) { return 1 + v + 0.01 * d; });
  const double hottest = grid.difference(ConductanceGrid::kDifferences - 1);
  CHECK(table(grid.locate(1000), 100) == Approx(table(grid.locate(kHighestSpeed), 100)));
  CHECK(table(grid.locate(-3), 100) == Approx(table(grid.locate(0), 100)));
  CHECK(table(grid.locate(10), 5000) == Approx(table(grid.locate(10), hottest)));
  CHECK(table(grid.locate(10), -5000) == Approx(table(grid.locate(10), grid.difference(0))));
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(std::isfinite(table(grid.locate(nan), 100)));
  CHECK(std::isfinite(table(grid.locate(10), nan)));
}

}  // namespace hatring::network
