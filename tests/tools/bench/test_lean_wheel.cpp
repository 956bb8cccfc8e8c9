// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>

#include "sim/network/assemble.hpp"
#include "sim/solve/integrate.hpp"
#include "tests/checks/track_session.hpp"
#include "tools/bench/lean_wheel.hpp"

namespace hatring::bench {

TEST_CASE("the peers of the benchmark are given the rates that the network states, all through a session") {
  const session::Case c = test::track_session(session::Mesh::standard, 1);
  const session::Drive drive(c);
  const auto load = test::load_of(drive, session::Axle::front);
  network::Network net = network::assemble(c, session::Axle::front, 65);
  const double by_contact = net.fixed_ring_share;
  for (const double share : {by_contact, 0.9}) {
    net.fixed_ring_share = share;
    solve::WheelSystem driven(net, load), system(net, load);
    LeanWheel lean(net, load);
    system.set_window(0, drive.duration());
    lean.set_window(0, drive.duration());
    const Eigen::Index n = system.nodes();
    Eigen::VectorXd x = system.initial_state(), f = x, given(n);
    REQUIRE(lean.initial_state() == x.head(n));
    std::vector<double> times;
    for (int i = 0; 0.7 * i < drive.duration(); ++i) times.push_back(0.7 * i);
    bool braked = false, released = false;
    double from_stated = 0, from_kernel = 0;
    const auto compare = [&](double t, const Eigen::VectorXd& state) {
      lean.rates(t, state.data(), given.data());
      const auto apart = [&](const Eigen::VectorXd& other) {
        constexpr double kLittle = 100;  // rates of a wheel at rest are differences of far larger ones [W]
        return (given - other.head(n)).lpNorm<Eigen::Infinity>() / (other.head(n).lpNorm<Eigen::Infinity>() + kLittle);
      };
      system.rates(t, state, f);
      from_stated = std::max(from_stated, apart(f));
      system.lanes().rates(t, state, f);
      from_kernel = std::max(from_kernel, apart(f));
      (system.load_at(t).applied > 0.5 ? braked : released) = true;
    };
    (void)solve::integrate(driven, drive.restarts(), times, x, {}, solve::ros34pw2(), compare);
    CHECK(braked);
    CHECK(released);
    CHECK(from_kernel < 1e-12);
    CHECK(from_stated < 1e-5);  // 1/k from tables over heat and over temperature
  }
}

}  // namespace hatring::bench
