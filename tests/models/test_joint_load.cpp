// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "models/joint_load.hpp"

using namespace hatring::models;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

constexpr JointSprings kSprings{4e9, 4e9, 5e-9,
                                0.5e-9};  // ring and flange in series: 5e-9 m/N for each of 10 fasteners
constexpr JointSetting kRigid{10, 0.1e-3, 0.15, 1};

}  // namespace

TEST_CASE("joint load: grips then slides then bears (series springs by hand)", "[joint]") {
  const double preload = 20e3;  // holds 3 kN: 15 um of expansion
  const JointLoad grip = joint_load(kSprings, kRigid, 10e-6, 0, preload);
  CHECK(grip.regime == JointRegime::gripping);
  CHECK_THAT(grip.radial, WithinRel(2e3, 1e-12));
  CHECK(grip.carried == 0);
  CHECK(grip.slip == 0);
  const JointLoad slide = joint_load(kSprings, kRigid, 65e-6, 0, preload);
  CHECK(slide.regime == JointRegime::slipping);
  CHECK_THAT(slide.radial, WithinRel(3e3, 1e-12));
  CHECK_THAT(slide.slip, WithinRel(50e-6, 1e-9));
  CHECK_THAT(slide.carried, WithinAbs(0, 1e-9));
  const JointLoad bear = joint_load(kSprings, kRigid, 136e-6, 0, preload);  // 21 um more over 10.5e-9 m/N
  CHECK(bear.regime == JointRegime::bearing);
  CHECK_THAT(bear.radial, WithinRel(5e3, 1e-9));
  CHECK_THAT(bear.carried, WithinRel(2e3, 1e-9));
  CHECK_THAT(bear.slip, WithinRel(136e-6 - 25e-6, 1e-9));
}

TEST_CASE("joint load: a hat that outgrows the ring loads it alike with the sign turned", "[joint]") {
  for (const double expansion : {5e-6, 60e-6, 300e-6}) {
    const JointLoad out = joint_load(kSprings, kRigid, expansion, 1e3, 20e3);
    const JointLoad in = joint_load(kSprings, kRigid, -expansion, 1e3, 20e3);
    CHECK(out.radial > 0);
    CHECK(in.radial == -out.radial);
    CHECK(in.slip == -out.slip);
    CHECK(in.carried == out.carried);
    CHECK(in.regime == out.regime);
  }
}

TEST_CASE("joint load: braking takes its part of the friction as a vector", "[joint]") {
  // 3 kN of hold and 1.8 kN of brake leave 2.4 kN for the radial load
  const JointLoad load = joint_load(kSprings, kRigid, 50e-6, 1.8e3, 20e3);
  CHECK_THAT(load.radial, WithinRel(2.4e3, 1e-12));
  CHECK_THAT(load.total, WithinRel(3e3, 1e-12));
  const JointLoad torn = joint_load(kSprings, kRigid, 0, 4e3, 20e3);
  CHECK(torn.regime == JointRegime::bearing);
  CHECK_THAT(torn.carried, WithinRel(1e3, 1e-12));
  CHECK(torn.radial == 0);
}

TEST_CASE("joint load: continuous and monotone in the expansion and in the tangential load", "[joint]") {
  JointLoad before = joint_load(kSprings, kRigid, 0, 1e3, 20e3);
  for (int i = 1; i <= 3000; ++i) {
    const JointLoad now = joint_load(kSprings, kRigid, i * 0.1e-6, 1e3, 20e3);
    REQUIRE(now.radial >= before.radial - 1e-9);
    REQUIRE(now.slip >= before.slip - 1e-15);
    REQUIRE(now.carried >= before.carried - 1e-9);
    REQUIRE(now.radial - before.radial < 0.1e-6 / 5e-9 * 1.001);
    REQUIRE(now.slip - before.slip < 0.1e-6 * 1.001);
    REQUIRE(static_cast<int>(now.regime) >= static_cast<int>(before.regime));
    before = now;
  }
  before = joint_load(kSprings, kRigid, 150e-6, 0, 20e3);
  for (int i = 1; i <= 5000; ++i) {
    const JointLoad now = joint_load(kSprings, kRigid, 150e-6, i, 20e3);
    REQUIRE(now.carried >= before.carried - 1e-9);
    REQUIRE(now.carried - before.carried < 100);  // steepest where the brake takes the last of the friction
    REQUIRE(std::abs(now.total - before.total) < 100);
    before = now;
  }
}

TEST_CASE("joint load: a float without preload is free until it is used up", "[joint]") {
  const JointSetting floating{10, 0.3e-3, 0.15, 1};
  const JointLoad free = joint_load(kSprings, floating, 0.29e-3, 2e3, 0);
  CHECK(free.radial == 0);
  CHECK(free.carried == 2e3);  // all of the torque goes through the bobbin
  CHECK_THAT(free.slip, WithinRel(0.29e-3, 1e-12));
  const JointLoad locked = joint_load(kSprings, floating, -0.405e-3, 0, 0);
  CHECK_THAT(locked.radial, WithinRel(-10e3, 1e-9));
  CHECK(locked.regime == JointRegime::bearing);
}

TEST_CASE("joint load: nonsense is refused", "[joint]") {
  CHECK_THROWS_AS(joint_load(kSprings, {0, 0, 0, 1}, 0, 0, 0), std::invalid_argument);
  CHECK_THROWS_AS(joint_load({0, 1e9, 0, 0}, kRigid, 0, 0, 0), std::invalid_argument);
  CHECK_THROWS_AS(joint_load(kSprings, kRigid, 0, 0, -1), std::invalid_argument);
}

TEST_CASE("springs of a fastener and its holes (Tate and Rosenfeld by hand)", "[joint]") {
  // d 8, t 8 and 8 mm: shear 32*16e-3*1.3/(9 pi 64e-6 205e9) = 1.7943e-9, bending 8*12*512e-9/(5 pi 4096e-12 205e9)
  // = 3.7266e-9
  const LapJoint lap{0.008, 0.008, 0.008, 110e9, 70e9, 205e9, 0.3};
  CHECK_THAT(fastener_compliance(lap), WithinRel(1.7943e-9 + 3.7266e-9, 1e-4));
  CHECK_THAT(hole_compliance(lap), WithinRel(125 * (1 / 110e9 + 1 / 70e9 + 2 / 205e9), 1e-12));
  CHECK_THAT(lug_compliance(0.01, 0.02, 0.008, 100e9), WithinRel(0.625e-9, 1e-12));
  CHECK_THROWS_AS(fastener_compliance({}), std::invalid_argument);
}

TEST_CASE("tangential load: four of ten bobbins that carry take two and a half times the even share", "[joint]") {
  CHECK_THAT(tangential_load(1700, 0.085, 10, 1), WithinRel(2000.0, 1e-12));
  CHECK_THAT(tangential_load(1700, 0.085, 10, 2.5), WithinRel(5000.0, 1e-12));
  CHECK_THROWS_AS(tangential_load(1700, 0.085, 10, 0.5), std::invalid_argument);
  CHECK_THROWS_AS(tangential_load(1700, 0.085, 10, 11), std::invalid_argument);
}

TEST_CASE("stresses of a fastener that carries 2 kN (by hand)", "[joint]") {
  const FastenerStress s = fastener_stress({40e-6, 0.008, 0.008, 0.010, 0.001, 0.020, 0.0085}, -2e3);
  CHECK_THAT(s.shear, WithinRel(50e6, 1e-12));
  CHECK_THAT(s.bending, WithinRel(32 * 2e3 * 0.005 / (std::numbers::pi * 512e-9), 1e-12));
  CHECK_THAT(s.bearing_hat, WithinRel(31.25e6, 1e-12));
  CHECK_THAT(s.bearing_ring, WithinRel(25e6, 1e-12));
  CHECK_THAT(s.lug_net_section, WithinRel(2e3 / (11.5e-3 * 10e-3), 1e-12));
  CHECK_THROWS_AS(fastener_stress({40e-6, 0.008, 0.008, 0.010, 0, 0.008, 0.0085}, 1), std::invalid_argument);
}
