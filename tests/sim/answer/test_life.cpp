// SPDX-License-Identifier: MIT
// Damage, softening and wet patches from histories made by hand.
#include <catch2/catch.hpp>
#include <cmath>

#include "models/fatigue.hpp"
#include "sim/answer/life.hpp"
#include "sim/answer/run.hpp"
#include "tests/sim/answer/demo.hpp"

using namespace hatring;
using test::demo;

namespace {

answer::Column column(const char* group, const char* name, std::vector<double> values) {
  return {group, name, "", "", std::move(values), false};
}

}  // namespace

TEST_CASE("life: damage of equal cycles is their number over the life of one") {
  const session::Case c = demo();
  answer::AxleHistory h{"rear", {}};
  std::vector<double> stress{0};
  for (int i = 0; i < 5; ++i) {
    stress.push_back(120e6);
    stress.push_back(0);
  }
  h.columns.push_back(column("stress", "lug_root", stress));
  h.columns.push_back(column("temperature", "ring_lug", {293.15}));
  const std::vector<answer::DamageRow> rows = answer::damage(c, session::Axle::rear, h);
  REQUIRE(rows.size() == 1);
  const models::Material& iron = c.materials.at("grey_iron");
  const double e = iron.youngs_modulus(293.15);
  const double life = models::strain_life(iron.fatigue, e, iron.ultimate_strength(293.15), {60e6, 60e6, 60e6 / e});
  CHECK(rows[0].cycles == Approx(5));
  CHECK(rows[0].per_session == Approx(5 / life));
  CHECK(rows[0].sessions_left == Approx(life / 5 - 1));
  CHECK(rows[0].largest_range == Approx(120e6));
  CHECK(rows[0].before == 0);
}

TEST_CASE("life: sessions before are counted in and a part that is used up has none left") {
  answer::AxleHistory h{"rear", {}};
  h.columns.push_back(column("stress", "lug_root", {0, 240e6, 0}));
  h.columns.push_back(column("temperature", "ring_lug", {293.15}));
  const auto left = [&](int sessions) {
    const session::Case c = demo({"history.rear.ring_sessions=" + std::to_string(sessions)});
    return answer::damage(c, session::Axle::rear, h).front();
  };
  const answer::DamageRow fresh = left(0), used = left(10);
  CHECK(used.before == Approx(10 * fresh.per_session));
  CHECK(used.sessions_left == Approx(fresh.sessions_left - 10));
  CHECK(left(100000).sessions_left == 0);
}

TEST_CASE("life: 16 h at 199 degC take a 6061-T6 hat to its least allowed strength") {
  answer::AxleHistory h{"rear", {}};
  h.columns.push_back(column("temperature", "hat_flange", {472.15, 472.15}));
  const answer::SofteningAnswer s = answer::softening(demo(), session::Axle::rear, {0, 16 * 3600.0}, h);
  REQUIRE(s.applicable);
  CHECK(s.share == Approx(1));
  CHECK(s.strength_left == Approx(240.0 / 276));
  CHECK(s.time_above[1].second == Approx(16 * 3600.0));  // above 175 degC
  CHECK(s.time_above[2].second == 0);                    // above 200 degC
  // The same hours known from before.
  const session::Case old = demo({"history.rear.hat_soak=[{temperature: 199 degC, time: 8 h}]"});
  const answer::SofteningAnswer half = answer::softening(old, session::Axle::rear, {0, 8 * 3600.0}, h);
  CHECK(half.share_before == Approx(0.5));
  CHECK(half.strength_left == Approx(240.0 / 276));
  const session::Case steel = demo({"brakes.rear.rotor.hat.material=carbon_steel"});
  CHECK_FALSE(answer::softening(steel, session::Axle::rear, {0, 3600}, h).applicable);
}

TEST_CASE("life: a wet patch chills the face between bounds and only where it is hot") {
  const answer::Run run = answer::run(demo({"wet_patches=[{from: 420 m, to: 435 m}, {from: 1 km, to: 1010 m}]"}));
  const std::vector<answer::QuenchRow>& rows = run.answers.front.quenches;
  REQUIRE(rows.size() == 2);
  for (const answer::QuenchRow& q : rows) {
    CHECK(q.drop[0] >= 0);
    CHECK(q.drop[0] <= q.drop[1]);
    CHECK(q.drop[1] <= q.drop[2]);
    CHECK(q.face - q.drop[2] >= 373.15 - 1e-9);
    CHECK(q.stress[2] > 0);
    CHECK(q.utilisation[2] > 0);
  }
  CHECK(rows[0].place.lap_distance >= 420);
  CHECK(rows[0].place.lap_distance <= 435);
  CHECK(answer::run(demo({"session=[{park: 60 s}]", "wet_patches=[{from: 0 m, to: 10 m}]"}))
            .answers.front.quenches.empty());
}

TEST_CASE("rain is one key: the first wet lap slows the car and brings the caution about water on hot discs") {
  const auto rain = [](const std::string& grip) {
    return answer::run(
        demo({"session=[{laps: 2, trace: tracks/tern_hollow.yaml}, {laps: 2, trace: "
              "tracks/tern_hollow.yaml, grip: " +
              grip + "}]"}));
  };
  const answer::Run wet = rain("wet");
  REQUIRE(wet.answers.front.quenches.size() == 1);
  const answer::QuenchRow& row = wet.answers.front.quenches.front();
  CHECK(row.place.lap == 3);
  CHECK(row.face == Approx(wet.answers.front.laps[2].highest.at("ring_face_outboard")).margin(1));
  CHECK(row.drop[0] <= row.drop[2]);
  CHECK(rain("damp").answers.front.quenches.empty());
  CHECK(wet.drive.duration() > rain("dry").drive.duration() + 1);
}
