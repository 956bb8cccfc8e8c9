// SPDX-License-Identifier: MIT
// A day whose air changes: each part in its own air, the heat carried over.
#include <catch2/catch.hpp>

#include "sim/answer/run.hpp"
#include "sim/io/read_case.hpp"

using namespace hatring;

namespace {

answer::Run run_with(const std::string& steps) {
  return answer::run(io::read_case("configs/demo.yaml",
                                   {.set = {"session=" + steps, "output.interval=1 s"}, .mesh = session::Mesh::lump})
                         .c);
}

const std::vector<double>& ring(const answer::Run& r) {
  return r.history.front.find("temperature", "ring_mean")->values;
}

const std::string kSnubs = "{snubs: {count: 4, from: 120 km/h, to: 60 km/h, deceleration: 4 m/s2, every: 20 s}}";

}  // namespace

TEST_CASE("parts end at the air of the day they stand in") {
  const answer::Run r =
      run_with("[" + kSnubs +
               ", {park: 10 h, air: {temperature: 10 degC, wind: 3 m/s}}, {park: 10 h, air: {temperature: "
               "35 degC}}]");
  const auto noon = std::lower_bound(r.history.time.begin(), r.history.time.end(), r.drive.airs()[2].begin);
  CHECK(r.drive.airs().size() == 3);
  CHECK(r.drive.airs()[2].air.wind == 3);
  CHECK(r.drive.airs()[0].air.temperature == Approx(297.15));
  CHECK(ring(r)[static_cast<std::size_t>(noon - r.history.time.begin())] == Approx(283.15).margin(0.5));
  CHECK(ring(r).back() == Approx(308.15).margin(0.5));
  CHECK(std::abs(r.answers.front.balance.residual) < 1e-3 * r.answers.front.balance.friction);
}

TEST_CASE("the air of the first step is that in which the parts begin") {
  const answer::Run r = run_with("[{park: 1 h, air: {temperature: 5 degC}}]");
  CHECK(r.drive.airs().size() == 1);
  CHECK(ring(r).front() == Approx(278.15).margin(1e-6));
  CHECK(ring(r).back() == Approx(278.15).margin(1e-6));
}

TEST_CASE("an air that does not matter cuts the run and changes nothing") {
  const std::vector<std::string> common{"output.interval=1 s", "physics.convection={constant: 30 W/m2/K}"};
  const auto with = [&](const std::string& steps) {
    std::vector<std::string> set = common;
    set.push_back("session=" + steps);
    return answer::run(io::read_case("configs/demo.yaml", {.set = set, .mesh = session::Mesh::lump}).c);
  };
  const answer::Run plain = with("[" + kSnubs + ", {park: 1 min}, " + kSnubs + "]");
  const answer::Run cut = with("[" + kSnubs + ", {park: 1 min, air: {wind: 2 m/s}}, " + kSnubs + "]");
  REQUIRE(cut.history.time == plain.history.time);
  CHECK(cut.drive.airs().size() == 2);
  // The solver begins anew at the cut; each run is good to about a thousandth of the rise.
  for (std::size_t i = 0; i < ring(plain).size(); ++i)
    REQUIRE(ring(cut)[i] == Approx(ring(plain)[i]).margin(2e-3 * (ring(plain)[i] - 297.15) + 1e-3));
  CHECK(cut.answers.front.balance.friction == Approx(plain.answers.front.balance.friction).epsilon(1e-3));
}
