// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "sim/network/heat_content.hpp"
#include "tests/sim/network/track_case.hpp"

namespace hatring::network {
namespace {

constexpr double kLowest = 173.15, kHighest = 1773.15;  // [K]

}  // namespace

TEST_CASE("temperature of the enthalpy of a temperature is that temperature, within 3e-4 K, for every material") {
  for (const auto& [name, material] : test::track_case(session::Mesh::standard).materials) {
    const HeatContent content(material);
    double worst = 0;
    for (double t = kLowest; t <= kHighest; t += 0.37)
      worst = std::max(worst, std::abs(content.temperature(content.enthalpy(t)) - t));
    CAPTURE(name, worst);
    CHECK(worst < 3e-4);
  }
}

TEST_CASE("temperature rises with enthalpy everywhere, beyond the table too, and its slope is 1/cp") {
  const models::Material iron = test::track_case(session::Mesh::standard).materials.at("iron");
  const HeatContent content(iron);
  const double low = content.enthalpy(kLowest), high = content.enthalpy(kHighest);
  double last = -1e9;
  for (double h = low - 2e5; h < high + 2e5; h += 311) {
    const HeatContent::Value v = content.at(h);
    REQUIRE(v.temperature > last);
    REQUIRE(v.slope > 0);
    last = v.temperature;
    const double numeric = (content.temperature(h + 1) - content.temperature(h - 1)) / 2;
    CHECK(v.slope == Approx(numeric).epsilon(1e-4));
    if (h > low + 5000 && h < high - 5000)
      CHECK(1 / v.slope == Approx(iron.specific_heat(v.temperature)).epsilon(2e-3));
  }
}

TEST_CASE("resistivity follows 1/k(T) and is held beyond the table") {
  const models::Material iron = test::track_case(session::Mesh::standard).materials.at("iron");
  const HeatContent content(iron);
  for (double t = 200; t < 1700; t += 13)
    CHECK(content.at(content.enthalpy(t)).resistivity == Approx(1 / iron.conductivity(t)).epsilon(1e-4));
  CHECK(content.at(content.enthalpy(kHighest) + 1e6).resistivity == Approx(1 / iron.conductivity(kHighest)));
  CHECK(content.at(content.enthalpy(kLowest) - 1e5).resistivity == Approx(1 / iron.conductivity(kLowest)));
}

TEST_CASE("beyond the table temperature goes on straight at the last heat capacity") {
  const models::Material iron = test::track_case(session::Mesh::standard).materials.at("iron");
  const HeatContent content(iron);
  const double high = content.enthalpy(kHighest);
  CHECK(content.temperature(high) == Approx(kHighest).epsilon(1e-9));
  CHECK(content.temperature(high + 79000) == Approx(kHighest + 79000 / iron.specific_heat(kHighest)).epsilon(1e-6));
}

TEST_CASE("constant properties are those of 20 degC") {
  const models::Material iron = test::track_case(session::Mesh::standard).materials.at("iron");
  const HeatContent content(iron, true);
  const double cp = iron.specific_heat(models::kReferenceTemperature);
  for (double t = 200; t < 1700; t += 77) {
    CHECK(content.enthalpy(t) == Approx(cp * (t - models::kReferenceTemperature)));
    CHECK(content.temperature(content.enthalpy(t)) == Approx(t).epsilon(1e-11));
    CHECK(content.at(content.enthalpy(t)).resistivity == Approx(1 / iron.conductivity(models::kReferenceTemperature)));
  }
}

TEST_CASE("an enthalpy that is not a number gives a temperature that is not one, and a usable resistivity") {
  const HeatContent content(test::track_case(session::Mesh::standard).materials.at("iron"));
  const HeatContent::Value v = content.at(std::numeric_limits<double>::quiet_NaN());
  CHECK(std::isnan(v.temperature));
  CHECK(v.resistivity > 0);
  CHECK(content.at(std::numeric_limits<double>::infinity()).resistivity > 0);
}

namespace {

// How far a content says that the expansion about a temperature reaches [K].
double room(const HeatContent& content, double t) {
  const double cell = (content.enthalpy(t) - content.lowest()) * content.inverse_step();
  return content.cells()[HeatContent::kCellNumbers * static_cast<int>(cell) + 6];
}

}  // namespace

TEST_CASE("a cell knows how far its parabola for T and its line for 1/k follow the table") {
  for (const auto& [name, material] : test::track_case(session::Mesh::standard).materials) {
    const HeatContent content(material);
    CAPTURE(name);
    double worst = 0, worst_resistivity = 0;
    for (double t = 260; t < 1300; t += 7.3) {
      const double h = content.enthalpy(t), cell = 1 / content.inverse_step();
      const HeatContent::Value from = content.at(h), next = content.at(h + cell), before = content.at(h - cell);
      const double bend = (next.temperature - 2 * from.temperature + before.temperature) / (2 * cell * cell),
                   slope = (content.at(h + 0.01 * cell).resistivity - from.resistivity) / (0.01 * cell);
      for (const double side : {-1.0, 1.0}) {
        const double w = side * 0.8 * std::min(45.0, room(content, t)) / from.slope;
        const HeatContent::Value there = content.at(h + w);
        worst = std::max(worst, std::abs(from.temperature + w * (from.slope + bend * w) - there.temperature));
        worst_resistivity =
            std::max(worst_resistivity, std::abs((from.resistivity + slope * w) / there.resistivity - 1));
      }
    }
    CAPTURE(worst, worst_resistivity);
    CHECK(worst < 0.05);
    CHECK(worst_resistivity < 0.005);
  }
}

TEST_CASE("the end of a property's table and a steep rise in it end what a cell reaches, constants do not") {
  models::Material iron{.name = "iron",
                        .conductivity = models::Curve({300, 700}, {50, 40}),
                        .specific_heat = models::Curve({290, 900}, {450, 700})};
  const HeatContent straight(iron);
  CHECK(room(straight, 500) > 20);
  CHECK(room(straight, 880) > 15);
  CHECK(room(straight, 880) < 30);
  CHECK(room(straight, 898) < 10);
  CHECK(room(straight, 900) > 1);
  iron.specific_heat = models::Curve({290, 590, 600, 900}, {450, 500, 1000, 1100});
  CHECK(room(HeatContent(iron), 580) < 13);
  CHECK(room(HeatContent(iron), 595) < 6);
  CHECK(room(HeatContent(iron, true), 595) > 90);
}

TEST_CASE("equal materials share their tables, others do not") {
  const models::Material iron{.name = "iron",
                              .conductivity = models::Curve({300, 700}, {50, 40}),
                              .specific_heat = models::Curve({290, 900}, {450, 700})};
  models::Material other = iron;
  other.name = "by another name";
  const HeatContent first(iron);
  CHECK(HeatContent(other).cells() == first.cells());
  CHECK(HeatContent(iron, true).cells() != first.cells());
  other.conductivity = models::Curve({300, 700}, {50, 41});
  CHECK(HeatContent(other).cells() != first.cells());
  CHECK(HeatContent(other).resistivity(710) == Approx(1 / 41.0));
  // Many others in between: made again, and the same.
  for (int i = 0; i < 200; ++i) {
    other.conductivity = models::Curve(10.0 + i);
    CHECK(HeatContent(other).resistivity(300) == Approx(1 / (10.0 + i)));
  }
  CHECK(HeatContent(iron).at(2e5).temperature == first.at(2e5).temperature);
}

}  // namespace hatring::network
