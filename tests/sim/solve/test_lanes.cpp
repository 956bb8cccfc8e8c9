// SPDX-License-Identifier: MIT
// Scenarios side by side against the same ones alone, for every width that this machine has.
#include <catch2/catch.hpp>
#include <set>

#include "tests/sim/solve/small_networks.hpp"

namespace hatring::solve {
namespace {

constexpr double kDuration = 40;

// The curved chain with other masses, losses and friction in every scenario.
network::Network scenario(int which) {
  network::Network net = test::curved_chain();
  net.nodes[0].mass *= 1 + 0.1 * which;
  net.surfaces[0].scale *= 1 + 0.2 * which;
  return net;
}

LoadFunction load_of(int which) {
  return [which](double t) {
    Load load = test::smooth_load(t);
    load.heat *= 1 - 0.05 * which;
    return load;
  };
}

std::set<int> widths() {
  std::set<int> out;
  for (const int most : {1, 2, 4, 8}) out.insert(widest_kernel(most).lanes);
  return out;
}

struct Batch {
  explicit Batch(int lanes) {
    nets.reserve(static_cast<std::size_t>(lanes));
    for (int i = 0; i < lanes; ++i) {
      nets.push_back(scenario(i));
      pointers.push_back(&nets.back());
      loads.push_back(load_of(i));
    }
  }
  std::vector<network::Network> nets;
  std::vector<const network::Network*> pointers;
  std::vector<LoadFunction> loads;
};

}  // namespace

TEST_CASE("every lane of a batch goes as its scenario does alone and closes its balance") {
  StepOptions options;
  options.tolerance.absolute = 1e-4;
  const auto nothing = [](double, const Eigen::VectorXd&) {};
  for (const int lanes : widths()) {
    const Batch batch(lanes);
    LaneSystem system(batch.pointers, batch.loads, widest_kernel(lanes));
    Eigen::VectorXd x = system.initial_state();
    (void)integrate(system, {0, 11, kDuration}, {}, x, options, ros34pw2(), nothing);
    for (int lane = 0; lane < lanes; ++lane) {
      WheelSystem alone(batch.nets[static_cast<std::size_t>(lane)], load_of(lane));
      Eigen::VectorXd y = alone.initial_state(), t(alone.nodes()), own(alone.nodes());
      const Eigen::VectorXd start = y;
      (void)integrate(alone, {0, 11, kDuration}, {}, y, options, ros34pw2(), nothing);
      const Eigen::VectorXd mine = Eigen::Map<const Eigen::MatrixXd>(x.data(), lanes, x.size() / lanes).row(lane);
      alone.temperatures_of(y, t);
      alone.temperatures_of(mine, own);
      CAPTURE(lanes, lane);
      CHECK((t - own).lpNorm<Eigen::Infinity>() < 2e-3);
      const auto integral = mine.tail(kIntegrals);
      const double stored = (mine - start).head(alone.nodes()).sum();
      CHECK(std::abs(integral[kFriction] - stored - integral[kConvection] - integral[kRadiation] -
                     integral[kWheelLoss]) < 1e-11 * integral[kFriction]);
    }
  }
}

TEST_CASE("lanes that are all alike give the scalar answer") {
  for (const int lanes : widths()) {
    const network::Network net = scenario(0);
    const auto count = static_cast<std::size_t>(lanes);
    LaneSystem system(std::vector<const network::Network*>(count, &net), std::vector<LoadFunction>(count, load_of(0)),
                      widest_kernel(lanes));
    LaneSystem alone({&net}, {load_of(0)}, scalar_kernel());
    Eigen::VectorXd x = system.initial_state(), y = alone.initial_state();
    const auto nothing = [](double, const Eigen::VectorXd&) {};
    const StepCounts many = integrate(system, {0, kDuration}, {}, x, {}, ros34pw2(), nothing);
    const StepCounts one = integrate(alone, {0, kDuration}, {}, y, {}, ros34pw2(), nothing);
    CAPTURE(lanes);
    CHECK(many.steps == one.steps);
    for (Eigen::Index k = 0; k < x.size(); ++k) CHECK(x[k] == Approx(y[k / lanes]).epsilon(1e-9));
  }
}

TEST_CASE("with a limit the kernels that every machine runs are chosen and no wider ones") {
  const int before = limit_lanes(1);
  CHECK(&widest_kernel(8) == &scalar_kernel());
  (void)limit_lanes(2);
  CHECK(&widest_kernel(1) == &scalar_kernel());
  CHECK(widest_kernel(8).lanes == 2);
  (void)limit_lanes(before);
}

TEST_CASE("lanes of unlike networks are refused") {
  const WheelKernel& kernel = widest_kernel(2);
  if (kernel.lanes < 2) return;
  const network::Network net = test::curved_chain(), other = test::linear_chain();
  CHECK_THROWS_WITH(LaneSystem({&net, &other}, {test::smooth_load, test::smooth_load}, kernel),
                    Catch::Matchers::Contains("not alike"));
  CHECK_THROWS_AS(LaneSystem({&net}, {test::smooth_load}, kernel), std::invalid_argument);
}

}  // namespace hatring::solve
