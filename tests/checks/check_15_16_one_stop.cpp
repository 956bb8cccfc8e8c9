// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "models/brake_power.hpp"
#include "sim/session/drive.hpp"
#include "tests/sim/solve/small_networks.hpp"

namespace hatring {
namespace {

constexpr double kPound = 0.45359237, kMilePerHour = 0.44704, kBtu = 1055.06, kFahrenheit = 5.0 / 9;

// 3,000 lb from 60 mph to rest; nothing but the brakes resists, nothing else spins.
session::Case one_stop() {
  session::Case c;
  c.car = {.mass = 3000 * kPound,
           .drag_area = 0,
           .rolling_resistance = 0,
           .rotating_factor = 1,
           .engine_drag = 0,
           .tyre_slip_share = 0};
  c.brakes.front_share = 0.5;
  c.session = {session::SnubStep{.count = 1, .from = 60 * kMilePerHour, .to = 0, .deceleration = 8, .every = 60}};
  return c;
}

}  // namespace

TEST_CASE("check 15: a 3,000 lb car at 60 mph carries about half a megajoule (common practice, no source)") {
  CHECK(models::kinetic_energy({.mass = 3000 * kPound}, 60 * kMilePerHour) == Approx(0.5e6).epsilon(0.05));
  const session::Drive drive(one_stop());
  REQUIRE(drive.brakings().size() == 1);
  CHECK(drive.brakings()[0].brake == Approx(0.5e6).epsilon(0.05));
}

TEST_CASE(
    "check 16: the same car, one stop, four equal 10 lb discs of 0.13 BTU/lb/F that lose nothing rise by 90 F (common "
    "practice, no source)") {
  const session::Drive drive(one_stop());
  network::Network net = test::bare_network();
  const double specific_heat = 0.13 * kBtu / kPound / kFahrenheit;
  for (const auto axle : {session::Axle::front, session::Axle::rear}) {
    net = test::bare_network();
    test::add_node(net, "disc", 10 * kPound * specific_heat, test::kAmbientTemperature);
    test::add_node(net, "pad", 100, test::kAmbientTemperature);
    net.rubbings.push_back({.ring = 0, .pad = 1, .share = 1});
    net.fixed_ring_share = 1;
    solve::WheelSystem system(net, [&, hint = std::size_t{0}](double t) mutable {
      const session::Moment m = drive.at(t, hint);
      return solve::Load{m.speed, drive.wheel_heat(axle, t, m), m.applied};
    });
    Eigen::VectorXd x = system.initial_state(), t(system.nodes());
    (void)solve::integrate(system, drive.restarts(), {}, x, {}, solve::ros34pw2(),
                           [](double, const Eigen::VectorXd&) {});
    system.temperatures_of(x, t);
    CHECK((t[0] - test::kAmbientTemperature) / kFahrenheit == Approx(90).margin(1));
  }
}

}  // namespace hatring
