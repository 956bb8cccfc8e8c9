// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "tests/sim/solve/small_networks.hpp"

namespace hatring {

TEST_CASE("check 4: exact relaxation of two nodes, both eigenvalues (closed form)") {
  const test::TwoNodes two;
  // The closed form itself, against values computed elsewhere.
  CHECK(two.exact(10).first == Approx(351.4991).margin(1e-4));
  CHECK(two.exact(10).second == Approx(129.9918).margin(1e-4));
  CHECK(two.exact(30).first == Approx(311.9115).margin(1e-4));
  CHECK(two.exact(60).second == Approx(231.3532).margin(1e-4));
  CHECK(two.exact(120).first == Approx(225.7960).margin(1e-4));

  const network::Network net = two.network();
  for (const solve::Tableau* tableau : {&solve::ros34pw2(), &solve::rodas3()}) {
    solve::WheelSystem system(net, [](double) { return solve::Load{}; });
    solve::StepOptions options;
    options.tolerance.absolute = 1e-4;
    Eigen::VectorXd x = system.initial_state(), t(system.nodes());
    std::vector<double> times;
    for (int i = 0; i <= 1200; ++i) times.push_back(0.5 * i);
    double worst = 0;
    (void)solve::integrate(system, {0, times.back()}, times, x, options, *tableau,
                           [&](double time, const Eigen::VectorXd& state) {
                             system.temperatures_of(state, t);
                             const auto [first, second] = two.exact(time);
                             worst = std::max({worst, std::abs(t[0] - test::kAmbientTemperature - first),
                                               std::abs(t[1] - test::kAmbientTemperature - second)});
                           });
    CAPTURE(tableau->name, worst);
    CHECK(worst < 1e-5 * two.start1);
  }
}

}  // namespace hatring
