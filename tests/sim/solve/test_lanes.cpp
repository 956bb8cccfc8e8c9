// SPDX-License-Identifier: MIT
// Scenarios side by side against the same ones alone, for every width that this machine has.
#include <catch2/catch.hpp>
#include <set>

#include "tests/sim/solve/small_networks.hpp"

namespace hatring::solve {

#ifdef __x86_64__
const WheelKernel<float>& avx2_lanes_kernel(bool wide);  // not the fastest where there is AVX-512
#endif

namespace {

constexpr double kDuration = 40;

// The curved chain with other masses, losses, tables, friction and speeds in every scenario; one stands still.
network::Network scenario(int which) {
  network::Network net = test::curved_chain();
  net.nodes[0].mass *= 1 + 0.1 * which;
  net.surfaces[0].scale *= 1 + 0.2 * which;
  net.grid = network::ConductanceGrid(60 + which);
  for (network::ConductanceTable& table : net.tables)
    table = network::ConductanceTable(net.grid, [which](double v, double d) { return 4 + 0.3 * which + v + 0.01 * d; });
  return net;
}

LoadFunction load_of(int which) {
  return [which](double t) {
    Load load = test::smooth_load(t);
    load.heat *= 1 - 0.05 * which;
    load.speed *= which == 2 ? 0 : 1 - 0.04 * which;
    return load;
  };
}

// Every kernel of lanes that this machine can run.
std::set<const WheelKernel<float>*> kernels() {
  std::set<const WheelKernel<float>*> out;
  const int before = limit_lanes(0);
  for (const int most : {8, before}) {
    (void)limit_lanes(most);
    for (const int scenarios : {4, 8})
      if (const WheelKernel<float>* kernel = lanes_kernel(scenarios)) out.insert(kernel);
  }
  (void)limit_lanes(before);
#ifdef __x86_64__
  if (before == 0 && __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma"))
    for (const bool wide : {false, true}) out.insert(&avx2_lanes_kernel(wide));
#endif
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

TEST_CASE("every lane of a batch goes as its scenario does alone and closes its balance in single precision") {
  StepOptions options;
  options.tolerance.absolute = 1e-3;
  const auto nothing = [](double, const Eigen::VectorXd&) {};
  for (const WheelKernel<float>* kernel : kernels()) {
    const int lanes = kernel->lanes;
    const Batch batch(lanes);
    LaneSystem<float> system(batch.pointers, batch.loads, *kernel);
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
      CHECK((t - own).lpNorm<Eigen::Infinity>() < 5e-3);
      const auto integral = mine.tail(kIntegrals);
      const double stored = (mine - start).head(alone.nodes()).sum();
      CHECK(std::abs(integral[kFriction] - stored - integral[kConvection] - integral[kRadiation] -
                     integral[kWheelLoss]) < 1e-6 * integral[kFriction]);
    }
  }
}

TEST_CASE("lanes that are all alike give the scalar answer") {
  for (const WheelKernel<float>* kernel : kernels()) {
    const network::Network net = scenario(0);
    const auto count = static_cast<std::size_t>(kernel->lanes);
    LaneSystem<float> system(std::vector<const network::Network*>(count, &net),
                             std::vector<LoadFunction>(count, load_of(0)), *kernel);
    LaneSystem<double> alone({&net}, {load_of(0)}, single_kernel());
    Eigen::VectorXd x = system.initial_state(), y = alone.initial_state();
    const auto nothing = [](double, const Eigen::VectorXd&) {};
    const StepCounts many = integrate(system, {0, kDuration}, {}, x, {}, ros34pw2(), nothing);
    const StepCounts one = integrate(alone, {0, kDuration}, {}, y, {}, ros34pw2(), nothing);
    CAPTURE(kernel->lanes);
    CHECK(many.steps == one.steps);
    for (Eigen::Index k = 0; k < x.size(); ++k) CHECK(x[k] == Approx(y[k / kernel->lanes]).epsilon(1e-5));
  }
}

TEST_CASE("a lane without a load of its own is driven as the one before, to the last bit") {
  const auto after = [](const Batch& batch, const WheelKernel<float>& kernel) {
    LaneSystem<float> system(batch.pointers, batch.loads, kernel);
    int lanes = 0;
    system.each_load(5, [&lanes](std::size_t lane, const Load& load) {
      CHECK(load.heat == load_of(static_cast<int>(lane / 2))(5).heat);
      ++lanes;
    });
    CHECK(lanes == kernel.lanes);
    Eigen::VectorXd x = system.initial_state();
    (void)integrate(system, {0, 11, kDuration}, {}, x, {}, ros34pw2(), [](double, const Eigen::VectorXd&) {});
    return x;
  };
  for (const WheelKernel<float>* kernel : kernels()) {
    Batch own(kernel->lanes);
    for (std::size_t lane = 0; lane < own.loads.size(); ++lane) own.loads[lane] = load_of(static_cast<int>(lane / 2));
    Batch shared(kernel->lanes);
    shared.loads = own.loads;
    for (std::size_t lane = 1; lane < own.loads.size(); lane += 2) shared.loads[lane] = {};
    CAPTURE(kernel->lanes);
    CHECK(after(own, *kernel) == after(shared, *kernel));
    shared.loads.front() = {};
    CHECK_THROWS_WITH(after(shared, *kernel), Catch::Matchers::Contains("the first has no load"));
  }
}

TEST_CASE("lanes follow the rates and the matrix of one scenario to single precision") {
  const network::Network net = scenario(0);
  LaneSystem<double> alone({&net}, {load_of(0)}, single_kernel());
  Eigen::VectorXd y = alone.initial_state(), g = y;
  alone.linearise(2, y, {}, g);
  for (const WheelKernel<float>* kernel : kernels()) {
    const auto count = static_cast<std::size_t>(kernel->lanes);
    LaneSystem<float> system(std::vector<const network::Network*>(count, &net),
                             std::vector<LoadFunction>(count, load_of(0)), *kernel);
    Eigen::VectorXd x = system.initial_state(), f = x;
    system.linearise(2, x, {}, f);
    CAPTURE(kernel->lanes);
    for (Eigen::Index k = 0; k < x.size(); ++k)
      CHECK(std::abs(f[k] - g[k / kernel->lanes]) < 1e-6 * g.lpNorm<Eigen::Infinity>());
    const auto mine = system.matrix();
    const auto other = alone.matrix();
    for (Eigen::Index k = 0; k < mine.size(); ++k)
      CHECK(std::abs(mine[k] - other[k / kernel->lanes]) < 1e-6 * other.lpNorm<Eigen::Infinity>());
  }
}

TEST_CASE("with a limit the kernels that every machine runs are chosen and no wider ones") {
  const int before = limit_lanes(0);
  const WheelKernel<double>* const fastest = &single_kernel();
  const WheelKernel<float>* const widest = lanes_kernel(8);
  CHECK(widest->lanes == 8);
  (void)limit_lanes(1);
  const WheelKernel<double>* const plain = &single_kernel();
  CHECK(lanes_kernel(8) == nullptr);
  (void)limit_lanes(4);
  CHECK(&single_kernel() == plain);
  CHECK(lanes_kernel(8)->lanes == 4);
  (void)limit_lanes(8);
  CHECK(lanes_kernel(8)->lanes == 8);
  CHECK(lanes_kernel(5)->lanes == 8);
  CHECK(lanes_kernel(4)->lanes == 4);
#ifdef __x86_64__
  if (__builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma")) {
    CHECK(plain != fastest);
    CHECK(lanes_kernel(8) != widest);
  }
#endif
  (void)limit_lanes(before);
}

TEST_CASE("lanes of unlike networks are refused, and so is a method that needs more than single precision") {
  const int before = limit_lanes(4);
  const WheelKernel<float>& kernel = *lanes_kernel(4);
  (void)limit_lanes(before);
  const network::Network net = test::curved_chain(), other = test::linear_chain();
  const std::vector<LoadFunction> loads(4, test::smooth_load);
  CHECK_THROWS_WITH(LaneSystem<float>({&net, &net, &net, &other}, loads, kernel),
                    Catch::Matchers::Contains("not alike"));
  CHECK_THROWS_AS(LaneSystem<float>({&net}, {test::smooth_load}, kernel), std::invalid_argument);
  LaneSystem<float> system({&net, &net, &net, &net}, loads, kernel);
  Eigen::VectorXd x = system.initial_state();
  CHECK_THROWS_WITH(integrate(system, {0, 1}, {}, x, {}, rodas3(), [](double, const Eigen::VectorXd&) {}),
                    Catch::Matchers::Contains("single precision"));
}

}  // namespace hatring::solve
