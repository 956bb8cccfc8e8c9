// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "sim/answer/band.hpp"
#include "sim/answer/verdicts.hpp"
#include "sim/io/read_case.hpp"

using namespace hatring;
using answer::Level;

namespace {

// Long enough for the air to matter, and quick on the coarsest network.
session::Case bench(std::vector<std::string> set = {}) {
  set.insert(set.begin(), "session=[{hold: 300 s, speed: 110 km/h, heat: 9 kW}, {park: 300 s}]");
  return io::read_case("configs/demo.yaml", {.set = set, .mesh = session::Mesh::lump}).c;
}

answer::Answers banded(const session::Case& c) {
  answer::BandedRun run = answer::run_with_band(c);
  REQUIRE(run.ends);
  answer::widen(run.likely.answers, *run.ends);
  return run.likely.answers;
}

const answer::Verdict& ring(const answer::Answers& a) {
  for (const answer::Verdict& v : a.verdicts)
    if (v.axle == "front" && v.key == "ring_mean") return v;
  throw std::logic_error("no verdict on the front ring");
}

std::string limit(double kelvin) {
  return "limits.ring_mean=" + std::to_string(kelvin - 273.15) + " degC";
}

}  // namespace

TEST_CASE("every verdict and peak lies inside its band, and the ring's is tens of kelvin wide") {
  const answer::Answers a = banded(bench());
  for (const answer::Verdict& v : a.verdicts) {
    INFO(v.axle << ' ' << v.key << ' ' << v.what);
    REQUIRE(v.band);
    CHECK(v.band->low <= v.value);
    CHECK(v.value <= v.band->high);
  }
  for (const auto& [name, peak] : a.front.peaks) {
    INFO(name);
    REQUIRE(peak.band);
    CHECK(peak.band->low <= peak.value);
    CHECK(peak.value <= peak.band->high);
  }
  const answer::Band ring_band = *a.front.peaks.at("ring_mean").band;
  CHECK(ring_band.high - ring_band.low > 30);
}

TEST_CASE("the ends of the band are the case with its cooling knob scaled by the prior 0.67 and 1.5") {
  const answer::BandedRun run = answer::run_with_band(bench());
  const answer::Answers little =
      answer::run(bench({"brakes.front.cooling.scale=0.67", "brakes.rear.cooling.scale=0.67"})).answers;
  const double solver = 0.1;  // [K]
  CHECK(run.ends->little.front.peaks.at("ring_mean").value ==
        Approx(little.front.peaks.at("ring_mean").value).epsilon(0).margin(solver));
  CHECK(run.ends->much.front.peaks.at("ring_mean").value < little.front.peaks.at("ring_mean").value);
}

TEST_CASE("a limit inside the band is near at best and told as unsure, from either side of the likely value") {
  const answer::Answers wide = banded(bench({"limits.ring_mean=1500 degC"}));
  const answer::Band band = *ring(wide).band;
  const double likely = ring(wide).value;
  CHECK(ring(wide).level == Level::within);
  CHECK_FALSE(ring(wide).crosses);
  CHECK(ring(wide).sure == "kept over the whole band of cooling");

  // Far enough above the likely value to be within limits by itself, were it not for the band.
  const double above = 0.5 * (likely + band.high);
  const std::vector<std::string> ring_alone{limit(above), "limits.near=0"};
  CHECK(ring(answer::run(bench(ring_alone)).answers).level == Level::within);
  const answer::Answers doubtful = banded(bench(ring_alone));
  CHECK(ring(doubtful).level == Level::near);
  CHECK(ring(doubtful).crosses);
  CHECK(ring(doubtful).sure == "not kept if the air cools less than assumed");
  CHECK_FALSE(ring(doubtful).advice.empty());
  CHECK(answer::first_sentence({ring(doubtful)}).find("not surely") != std::string::npos);

  const answer::Answers likely_over = banded(bench({limit(0.5 * (likely + band.low))}));
  CHECK(ring(likely_over).level == Level::exceeded);
  CHECK(ring(likely_over).sure == "kept only if the air cools more than assumed");

  const answer::Answers surely_over = banded(bench({limit(band.low - 1)}));
  CHECK(ring(surely_over).level == Level::exceeded);
  CHECK_FALSE(ring(surely_over).crosses);
  CHECK(ring(surely_over).sure == "not kept anywhere in the band of cooling");
}

TEST_CASE("a case that pins convection has no band") {
  CHECK_FALSE(answer::run_with_band(bench({"physics.convection={constant: 25 W/m2/K}"})).ends);
}
