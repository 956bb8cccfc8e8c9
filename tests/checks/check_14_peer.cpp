// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/network/assemble.hpp"
#include "sim/solve/integrate.hpp"
#include "tests/checks/peer/wheel_peer.hpp"
#include "tests/checks/track_session.hpp"

namespace hatring {

TEST_CASE(
    "check 14: the whole nonlinear network against SUNDIALS CVODE, both at tight tolerance, right-hand sides written "
    "apart: every node within 0.05 K all the time") {
  const session::Case c = test::track_session(session::Mesh::standard, 1);
  const session::Drive drive(c);
  std::vector<double> times;
  for (int i = 0; 0.5 * i < drive.duration(); ++i) times.push_back(0.5 * i);
  const network::Network net = network::assemble(c, session::Axle::front, 65);
  test::WheelPeer peer(c, session::Axle::front, net, test::load_of(drive, session::Axle::front));
  const std::vector<std::vector<double>> expected = peer.solve(drive.restarts(), times);

  solve::WheelSystem system(net, test::load_of(drive, session::Axle::front));
  Eigen::VectorXd x = system.initial_state(), t(system.nodes());
  std::size_t i = 0;
  double worst = 0, hottest = 0, when = 0;
  std::string where;
  solve::StepOptions options;
  options.tolerance.absolute = 1e-3;
  (void)solve::integrate(system, drive.restarts(), times, x, options, solve::ros34pw2(),
                         [&](double time, const Eigen::VectorXd& state) {
                           system.temperatures_of(state, t);
                           for (int k = 0; k < system.nodes(); ++k) {
                             const double error = std::abs(t[k] - expected.at(i)[static_cast<std::size_t>(k)]);
                             hottest = std::max(hottest, t[k]);
                             if (error <= worst) continue;
                             worst = error;
                             when = time;
                             where = system.network().nodes[static_cast<std::size_t>(k)].name;
                           }
                           ++i;
                         });
  REQUIRE(i == times.size());
  CAPTURE(worst, where, when, hottest);
  CHECK(hottest > 600);  // a session worth the name
  CHECK(worst < 0.05);
}

}  // namespace hatring
