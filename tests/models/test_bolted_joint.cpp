// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <vector>

#include "models/bolted_joint.hpp"

using namespace hatring::models;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

constexpr Fastener kBolt{0.008, 1.25e-3, 0.004, 0.013, 0.009};

}  // namespace

TEST_CASE("stress area: M6 20.1 and M8 36.6 and M10 58.0 mm2 (table of ISO 898-1 from memory)", "[bolt]") {
  CHECK_THAT(stress_area(0.006, coarse_pitch(0.006)), WithinAbs(20.1e-6, 0.05e-6));
  CHECK_THAT(stress_area(0.008, coarse_pitch(0.008)), WithinAbs(36.6e-6, 0.05e-6));
  CHECK_THAT(stress_area(0.010, coarse_pitch(0.010)), WithinAbs(58.0e-6, 0.05e-6));
  CHECK(coarse_pitch(0.0079) == 1e-3);
  CHECK_THROWS_AS(coarse_pitch(0.002), std::invalid_argument);
  CHECK_THROWS_AS(coarse_pitch(0.03), std::invalid_argument);
  CHECK_THROWS_AS(stress_area(0.003, 0.003), std::invalid_argument);
}

TEST_CASE("bolt spring: M8 over 16 mm by hand", "[bolt]") {
  // d3 = 6.46641 mm on 32.8410 mm2; full 50.2655 mm2: (7.2 + 4)/50.2655 + (12 + 4)/32.8410 = 0.710009 /mm over 205 GPa
  CHECK_THAT(bolt_compliance(kBolt, 0.016, 205e9), WithinRel(710.009 / 205e9, 1e-4));
  CHECK_THROWS_AS(bolt_compliance(kBolt, 0.003, 205e9), std::invalid_argument);
}

TEST_CASE("clamped parts: full cones by hand and the cut-off ones by summing thin slices", "[bolt]") {
  const std::vector<ClampedLayer> aluminium{{0.016, 70e9}};
  CHECK_THAT(clamped_compliance(kBolt, aluminium, 0.1), WithinRel(1.4512e-9, 1e-4));
  const auto sliced = [](double outside) {
    constexpr int kSlices = 20000;
    double sum = 0;
    for (int i = 0; i < kSlices; ++i) {
      const double z = 0.016 * (i + 0.5) / kSlices, d = std::min(outside, 0.013 + 1.2 * std::min(z, 0.016 - z));
      sum += 0.016 / kSlices / (std::numbers::pi / 4 * (d * d - 0.009 * 0.009) * 70e9);
    }
    return sum;
  };
  for (const double outside : {0.05, 0.020, 0.015, 0.013, 0.012})
    CHECK_THAT(
        clamped_compliance(kBolt, aluminium, outside),
        WithinRel(outside < 0.013 ? 4 * 0.016 / (std::numbers::pi * 70e9 * (0.012 * 0.012 - 81e-6)) : sliced(outside),
                  1e-6));
  const std::vector<ClampedLayer> mixed{{0.008, 70e9}, {0.008, 110e9}};
  CHECK_THAT(clamped_compliance(kBolt, mixed, 0.1) / clamped_compliance(kBolt, aluminium, 0.1),
             WithinRel((1 + 70.0 / 110) / 2, 1e-12));
  CHECK_THROWS_AS(clamped_compliance(kBolt, aluminium, 0.008), std::invalid_argument);
}

TEST_CASE("preload: a steel bolt in aluminium gains when both are hot and none is lost below yield", "[bolt]") {
  const double grip = 0.016, cold = bolt_compliance(kBolt, grip, 205e9) +
                                    clamped_compliance(kBolt, std::vector<ClampedLayer>{{grip, 70e9}}, 0.1);
  const double mismatch = grip * (24e-6 - 12e-6) * 130;
  CHECK_THAT(preload_change(mismatch, 3e-9, 2e-9), WithinRel(mismatch / 5e-9, 1e-12));
  Preload preload(15e3, cold);
  CHECK_THAT(preload.step({mismatch, cold, 1e6, 423}), WithinRel(15e3 + mismatch / cold, 1e-12));
  CHECK(preload.step({0, cold, 1e6, 293}) == Approx(15e3));
  CHECK(preload.cold() == 15e3);
  CHECK(preload.yielded_at() == 0);
  CHECK(preload.hottest() == 423);
  // Moduli that fall by a tenth take a tenth of it.
  CHECK_THAT(preload.step({0, cold / 0.9, 1e6, 423}), WithinRel(13.5e3, 1e-12));
}

TEST_CASE("preload: what is pressed in while hot is missing when cold and is lost once", "[bolt]") {
  Preload preload(20e3, 5e-9);
  CHECK_THAT(preload.step({20e-6, 5e-9, 22e3, 473}), WithinRel(22e3, 1e-12));  // 24 kN would act
  CHECK_THAT(preload.cold(), WithinRel(18e3, 1e-12));
  CHECK(preload.yielded_at() == 473);
  CHECK_THAT(preload.step({0, 5e-9, 40e3, 293}), WithinRel(18e3, 1e-12));
  CHECK_THAT(preload.step({20e-6, 5e-9, 22e3, 473}), WithinRel(22e3, 1e-9));
  CHECK_THAT(preload.cold(), WithinRel(18e3, 1e-9));
  preload.step({20e-6, 5e-9, 15e3, 523});
  CHECK_THAT(preload.cold(), WithinRel(11e3, 1e-9));
  preload.step({20e-6, 5e-9, 0, 623});
  CHECK(preload.cold() == 0);
}

TEST_CASE("preload: a bolt that outgrows its stack goes slack and comes back", "[bolt]") {
  Preload preload(5e3, 5e-9);
  CHECK(preload.step({-40e-6, 5e-9, 1e6, 473}) == 0);
  CHECK(preload.step({0, 5e-9, 1e6, 293}) == Approx(5e3));
  CHECK_THROWS_AS(Preload(-1, 5e-9), std::invalid_argument);
  CHECK_THROWS_AS(preload.step({0, 0, 1, 293}), std::invalid_argument);
}

TEST_CASE("bearing area under a 13 mm head on a 9 mm hole", "[bolt]") {
  CHECK_THAT(bearing_area(kBolt), WithinRel(std::numbers::pi / 4 * (169e-6 - 81e-6), 1e-12));
}
