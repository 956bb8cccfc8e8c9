// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "sim/network/assemble.hpp"
#include "sim/solve/integrate.hpp"
#include "tests/checks/track_session.hpp"

namespace hatring {

TEST_CASE(
    "check 20: energy closes over a whole session on every mesh, both axles (first law): 1e-6 asked, round-off met") {
  for (const session::Mesh mesh :
       {session::Mesh::lump, session::Mesh::coarse, session::Mesh::standard, session::Mesh::fine}) {
    const session::Case c = test::track_session(mesh, 2);
    const session::Drive drive(c);
    for (const session::Axle axle : {session::Axle::front, session::Axle::rear}) {
      const network::Network net = network::assemble(c, axle, 65);
      solve::WheelSystem system(net, test::load_of(drive, axle));
      Eigen::VectorXd x = system.initial_state();
      const Eigen::VectorXd start = x;
      (void)solve::integrate(system, drive.restarts(), {}, x, {}, solve::ros34pw2(),
                             [](double, const Eigen::VectorXd&) {});
      const int n = system.nodes();
      const double friction = x[n + solve::kFriction], stored = (x - start).head(n).sum();
      const double lost = x[n + solve::kConvection] + x[n + solve::kRadiation] + x[n + solve::kWheelLoss];
      CAPTURE(static_cast<int>(mesh), friction, stored, lost);
      CHECK(std::abs(friction - stored - lost) < 1e-10 * friction);
      // What went in is what the drive's ledger says this wheel was given, as far as the tolerance on temperatures
      // tells.
      const double share = (axle == session::Axle::front ? c.brakes.front_share : 1 - c.brakes.front_share) / 2;
      CHECK(friction == Approx(share * drive.energy().brake).epsilon(5e-4));
      // The network gives its heat up: most of it is gone after parking.
      CHECK(lost > 0.3 * friction);
    }
  }
}

}  // namespace hatring
