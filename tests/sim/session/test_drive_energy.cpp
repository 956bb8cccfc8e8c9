// SPDX-License-Identifier: MIT
// Energy ledgers, ramps, and outside checks of the energy of one braking.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/session/cubic.hpp"
#include "sim/session/drive.hpp"
#include "synthetic_lap.hpp"

using namespace hatring::session;
using namespace hatring::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kKmh = 1 / 3.6;

Case snub_case(Case c, int count = 1) {
  return with(std::move(c), {},
              {SnubStep{.count = count, .from = 120 * kKmh, .to = 60 * kKmh, .deceleration = 3, .every = 45}});
}

// Closes to round-off of the largest term.
void check_closure(const Drive& d) {
  for (const Braking& b : d.brakings()) {
    CHECK(std::abs(b.brake + b.tyre_slip + b.clipped - (b.kinetic - b.resisted)) <
          1e-10 * (std::abs(b.kinetic) + b.brake));
    CHECK(b.clipped <= 0);
    CHECK(b.brake > 0);
  }
  const DriveEnergy& e = d.energy();
  const double left = e.brake + e.tyre_slip + e.clipped + e.off_brake;
  const double right = e.kinetic - e.drag - e.rolling - e.grade - e.engine;
  CHECK(std::abs(left - right) < 1e-10 * (std::abs(e.off_brake) + e.brake));
}

// Integral of the power that at() gives, by quadrature between restarts and piece ends.
double delivered(const Drive& d) {
  std::vector<double> cuts = d.restarts();
  for (const Piece& p : d.pieces()) cuts.push_back(p.begin);
  std::sort(cuts.begin(), cuts.end());
  double sum = 0;
  std::size_t hint = 0;
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i)
    for (int k = 0; k < 32; ++k)
      sum += integrate(cuts[i] + (cuts[i + 1] - cuts[i]) * k / 32, cuts[i] + (cuts[i + 1] - cuts[i]) * (k + 1) / 32,
                       [&](double t) { return d.at(t, hint).brake_power; });
  return sum;
}

}  // namespace

TEST_CASE("a 3,000 lb car at 60 mph carries about half a megajoule (common practice, no source)") {
  Case c = frictionless_case(3000 * 0.45359237);
  Trace t;
  t.name = "one stop";
  t.time = {0, 5};
  t.speed = {60 * 0.44704, 0};
  const Drive d(with(c, {t}, {DriveStep{}}));
  REQUIRE(d.brakings().size() == 1);
  CHECK_THAT(d.brakings()[0].brake, WithinRel(0.5e6, 0.05));
  CHECK_THAT(d.brakings()[0].brake, WithinRel(0.5 * 1360.77711 * 26.8224 * 26.8224, 1e-9));
}

TEST_CASE(
    "a heating snub from 120 to 60 km/h of 1500 kg is 625 kJ with all resistances off (49 CFR 571.135, from memory)") {
  const Drive d(snub_case(frictionless_case(1500)));
  REQUIRE(d.brakings().size() == 1);
  CHECK_THAT(d.brakings()[0].brake, WithinRel(625e3, 0.005));
  CHECK_THAT(d.brakings()[0].brake, WithinRel(625e3, 1e-9));
  CHECK_THAT(d.brakings()[0].end - d.brakings()[0].begin, WithinAbs(5.5556, 1e-3));
}

TEST_CASE("a real snub is the kinetic energy less drag, rolling and engine (49 CFR 571.135, from memory)") {
  Case c = plain_case();
  c.car.mass = 1500;
  const Drive d(snub_case(c));
  const Braking& b = d.brakings().at(0);
  const double v0 = 120 * kKmh, v1 = 60 * kKmh, a = 3, distance = (v0 * v0 - v1 * v1) / (2 * a);
  const double rho = 101325 / (287.05 * c.air.temperature);
  const double drag =
      0.5 * rho * c.car.drag_area * (std::pow(v0, 4) - std::pow(v1, 4)) / (4 * a);  // integral of v^3 dt
  const double rolling = 1500 * 9.80665 * c.car.rolling_resistance * distance, engine = c.car.engine_drag * distance;
  const double kinetic = 0.5 * 1500 * c.car.rotating_factor * (v0 * v0 - v1 * v1);
  CHECK_THAT(b.kinetic, WithinRel(kinetic, 1e-9));
  CHECK_THAT(b.resisted, WithinRel(drag + rolling + engine, 1e-3));
  CHECK_THAT(b.brake, WithinRel((1 - c.car.tyre_slip_share) * (kinetic - drag - rolling - engine), 5e-4));
  CHECK(b.clipped == 0);
}

TEST_CASE("the ledger closes over noisy traces at any pace, with parking, snubs and a bench between") {
  const Case c = plain_case();
  const Lap lap = drive_lap(c);
  for (const double rate : {25.0, 5.0, 1.0}) {
    const Drive d(with(c, {log_lap(lap, {.rate = rate, .jitter = 0.1, .uneven = true})},
                       {DriveStep{.kind = LapKind::out_lap, .pace = 0.6}, DriveStep{.laps = 3},
                        DriveStep{.kind = LapKind::cooldown, .pace = 0.4}, ParkStep{.duration = 300},
                        SnubStep{.count = 3, .from = 30, .to = 0, .deceleration = 6, .every = 30},
                        HoldStep{.duration = 20, .speed = 25, .heat_from = 1e4, .axle = {}}, DriveStep{}}));
    check_closure(d);
    // This quadrature does not know where the demand changes sign inside a braking; make_ledger does.
    CHECK_THAT(delivered(d), WithinRel(d.energy().brake, 1e-5));
  }
}

TEST_CASE("what the speed gains is not lost when the resistance of a slow lap exceeds the braking: it is clipped") {
  Case c = plain_case();
  c.car.engine_drag = 3000;
  Trace t;
  t.name = "light braking";
  t.time = {0, 4, 8, 12};
  t.speed = {40, 40, 14, 14};
  t.brake = {0, 1, 1, 0};
  t.brake_threshold = 0.5;
  const Drive d(with(c, {t}, {DriveStep{.pace = 0.75}}));
  check_closure(d);
  CHECK(d.energy().clipped < -1e3);
}

TEST_CASE("ramps leave the energy of each braking as it is") {
  Case c = snub_case(frictionless_case(1500), 2);
  for (const double rise : {0.0, 0.15, 0.5, 20.0}) {
    c.brakes.rise_time = rise;
    const Drive d(c);
    CAPTURE(rise);
    CHECK_THAT(d.energy().brake, WithinRel(2 * 625e3, 1e-9));
    CHECK_THAT(delivered(d), WithinRel(2 * 625e3, 1e-9));
  }
}

TEST_CASE("brake power and pad contact rise and fall smoothly over the rise time, centred on brake on and off") {
  const Drive d(snub_case(frictionless_case(1500), 2));
  const Braking& b = d.brakings()[1];
  std::size_t hint = 0;
  CHECK(d.at(b.begin - 0.0751, hint).applied == 0);
  CHECK(d.at(b.begin - 0.0751, hint).brake_power == 0);
  CHECK_THAT(d.at(b.begin, hint).applied, WithinAbs(0.5, 1e-9));
  CHECK(d.at(b.begin + 0.0751, hint).applied == 1);
  CHECK_THAT(d.at(b.end, hint).applied, WithinAbs(0.5, 1e-9));
  CHECK(d.at(b.end + 0.0751, hint).applied == 0);
  // The steepest a smoothstep gets is 1.5 over its width; nothing may jump.
  double before = d.at(b.begin - 0.2, hint).brake_power;
  for (double t = b.begin - 0.2; t < b.end + 0.2; t += 1e-4) {
    const Moment m = d.at(t, hint);
    CHECK(std::abs(m.brake_power - before) <= 1.6 * b.peak_power / 0.15 * 1e-4);
    CHECK(m.applied >= 0);
    CHECK(m.applied <= 1);
    CHECK(m.brake_power <= b.peak_power * 1.001);
    before = m.brake_power;
  }
}

TEST_CASE("power goes to zero with the speed in a stop to standstill") {
  const Case c = with(plain_case(), {}, {SnubStep{.count = 1, .from = 30, .to = 0, .deceleration = 6, .every = 40}});
  const Drive d(c);
  const Braking& b = d.brakings().at(0);
  std::size_t hint = 0;
  CHECK(b.exit_speed == Approx(0).margin(1e-9));
  CHECK(d.at(b.end - 0.2, hint).brake_power < 0.05 * b.peak_power);
  CHECK(d.at(b.end, hint).brake_power < 1e-6 * b.peak_power);
  check_closure(d);
}

TEST_CASE("wheel heat splits the brake power by axle share, half a wheel each, and scales the hotter side") {
  Case c = snub_case(plain_case());
  c.brakes.front_share = 0.7;
  c.brakes.hot_side_factor = 1.1;
  const Drive d(c);
  std::size_t hint = 0;
  const Moment m = d.at(2, hint);
  REQUIRE(m.brake_power > 0);
  CHECK_THAT(d.wheel_heat(Axle::front, 2, m), WithinRel(0.35 * 1.1 * m.brake_power, 1e-12));
  CHECK_THAT(d.wheel_heat(Axle::rear, 2, m), WithinRel(0.15 * 1.1 * m.brake_power, 1e-12));
}

TEST_CASE("two drives are as one another when they ask the same of the brakes, whatever cools them") {
  const Case c = snub_case(plain_case(), 3);
  const Drive d(c);
  const auto changed = [&c](auto change) {
    Case other = c;
    change(other);
    return Drive(other);
  };
  CHECK(d.as(d));
  CHECK(d.as(Drive(c)));
  CHECK(d.as(changed([](Case& x) { x.brakes.front.cooling.scale *= 1.2; })));
  CHECK_FALSE(d.as(changed([](Case& x) { x.car.mass += 1; })));
  CHECK_FALSE(d.as(changed([](Case& x) { x.brakes.front_share += 0.01; })));
  CHECK_FALSE(d.as(changed([](Case& x) { x.brakes.hot_side_factor += 0.01; })));
  CHECK_FALSE(d.as(changed([](Case& x) { x.brakes.rise_time += 0.01; })));
  CHECK_FALSE(d.as(changed([](Case& x) { x.car.drag_area += 0.01; })));
  CHECK_FALSE(d.as(changed([](Case& x) { std::get<SnubStep>(x.session.front()).from += 1; })));
  Drive moving(c);
  moving.set_front_share({{0, 10}, {0.6, 0.7}});
  CHECK_FALSE(d.as(moving));
  Drive otherwise(c);
  otherwise.set_front_share({{0, 10}, {0.6, 0.8}});
  CHECK_FALSE(moving.as(otherwise));
  CHECK_FALSE(d.as(changed([](Case& x) { x.car.engine_drag += 50; })));
  const auto bench = [&c](double heat, std::optional<Axle> axle) {
    return Drive(
        with(c, {}, {HoldStep{.duration = 20, .speed = 30, .heat_from = heat, .heat_to = heat, .axle = axle}}));
  };
  CHECK(bench(5e4, {}).as(bench(5e4, {})));
  CHECK_FALSE(bench(5e4, {}).as(bench(6e4, {})));
  CHECK_FALSE(bench(5e4, {}).as(bench(5e4, Axle::rear)));
}
