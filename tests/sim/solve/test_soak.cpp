// SPDX-License-Identifier: MIT
// Heat soak: what lies behind a hot body is hottest after the heating has ended.
#include <catch2/catch.hpp>
#include <unsupported/Eigen/MatrixFunctions>

#include "tests/sim/solve/small_networks.hpp"

namespace hatring::solve {

TEST_CASE("soak peak of a three-node chain (disc and pad - piston - fluid) is that of the matrix exponential") {
  // Capacities [J/K], links and losses [W/K], starts above ambient [K]: of the size of a parked brake.
  const Eigen::Vector3d c(3000, 250, 60), start(380, 90, 60);
  const double disc_piston = 1.2, piston_fluid = 4, loss_disc = 2.5, loss_fluid = 0.3;
  network::Network net = test::bare_network();
  net.ambient = test::kAmbientTemperature;
  for (int i = 0; i < 3; ++i)
    test::add_node(net, std::string(1, static_cast<char>('a' + i)), c[i], net.ambient + start[i]);
  net.link(0, 1, disc_piston, "pad_piston");
  net.link(1, 2, piston_fluid, "piston_fluid");
  net.surfaces.push_back({0, network::kAmbient, 0, loss_disc, "loss"});
  net.surfaces.push_back({2, network::kAmbient, 0, loss_fluid, "loss"});

  Eigen::Matrix3d a;
  a << -(disc_piston + loss_disc), disc_piston, 0, disc_piston, -(disc_piston + piston_fluid), piston_fluid, 0,
      piston_fluid, -(piston_fluid + loss_fluid);
  a = c.cwiseInverse().asDiagonal() * a;
  const auto exact = [&](double t) -> Eigen::Vector3d { return (a * t).exp() * start; };

  WheelSystem system(net, [](double) { return Load{}; });
  Eigen::VectorXd x = system.initial_state(), node(3);
  std::vector<double> times;
  for (int i = 0; i <= 600; ++i) times.push_back(2.0 * i);
  double peak = 0, when = 0, worst = 0, exact_peak = 0;
  StepOptions options;
  options.tolerance.reference = net.ambient;
  integrate(system, {0, times.back()}, times, x, options, ros34pw2(), [&](double t, const Eigen::VectorXd& state) {
    system.temperatures_of(state, node);
    const double fluid = node[2] - net.ambient;
    if (fluid > peak) peak = fluid, when = t;
    worst = std::max(worst, (node.array() - net.ambient - exact(t).array()).abs().maxCoeff());
    exact_peak = std::max(exact_peak, exact(t)[2]);
  });
  CHECK(when > 60);  // it comes after the start, when nothing heats any more
  CHECK(peak > start[2] + 30);
  CHECK(peak == Approx(exact_peak).margin(0.05));
  CHECK(worst < 0.2);  // of 380 K, at the default tolerance
}

}  // namespace hatring::solve
