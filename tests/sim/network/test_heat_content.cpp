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

TEST_CASE("a cell knows how far its material goes on smoothly: to the nearer end of a property's table") {
  const models::Material iron{.name = "iron",
                              .conductivity = models::Curve({300, 700}, {50, 40}),
                              .specific_heat = models::Curve({290, 900}, {450, 700})};
  const auto room = [](const HeatContent& content, double t) {
    const double cell = (content.enthalpy(t) - content.lowest()) * content.inverse_step();
    return content.cells()[7 * static_cast<int>(cell) + 6];
  };
  const HeatContent content(iron);
  CHECK(room(content, 500) == Approx(200).margin(3));
  CHECK(room(content, 640) == Approx(60).margin(3));
  CHECK(room(content, 760) == Approx(60).margin(3));
  CHECK(room(content, 850) == Approx(50).margin(3));
  CHECK(room(content, 1200) == Approx(300).margin(3));
  CHECK(room(content, 700) > 1);
  CHECK(room(content, 700) < 5);
  CHECK(room(HeatContent(iron, true), 700) > 1e6);
}

}  // namespace hatring::network
