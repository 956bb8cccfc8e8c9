// SPDX-License-Identifier: MIT
#include <catch2/catch.hpp>
#include <cmath>

#include "models/constants.hpp"
#include "sim/solve/rubbed_surfaces.hpp"
#include "tests/sim/solve/small_networks.hpp"

namespace hatring::solve {
namespace {

// Largest entry of -d(rates)/dT that linearise() misses, against the largest entry; rows of the integrals included.
double missing_from_matrix(const network::Network& net, const Load& load) {
  WheelSystem system(net, [load](double) { return load; });
  const Eigen::VectorXd x = system.initial_state();
  Eigen::VectorXd f = x, up = x, down = x;
  LaneSystem<double>& lanes = system.lanes();
  lanes.linearise(0, x, {}, f);
  const int n = system.nodes();
  Eigen::MatrixXd stated = Eigen::MatrixXd::Zero(n + system.integrals(), n), exact = stated;
  for (int i = 0; i < n; ++i)
    for (int j = 0; j < n; ++j) {
      try {
        stated(i, j) = -lanes.matrix()[lanes.factor().slot(i, j)];
      } catch (const std::out_of_range&) {
        continue;  // not linked
      }
    }
  stated.middleRows(n, kLossRows) = lanes.loss_rows().transpose();
  const Eigen::VectorXd capacity = lanes.capacity();
  for (int j = 0; j < n; ++j) {
    const double dh = 1e-3 * capacity[j];  // a thousandth of a kelvin
    Eigen::VectorXd y = x;
    y[j] = x[j] + dh;
    system.rates(0, y, up);
    y[j] = x[j] - dh;
    system.rates(0, y, down);
    exact.col(j) = (up - down) / 2e-3;
  }
  // Friction and the heat into the ring are integrals that need no row: their own order follows from the stages.
  const int kept = n + kFriction;
  return (stated - exact).topRows(kept).lpNorm<Eigen::Infinity>() / exact.topRows(kept).lpNorm<Eigen::Infinity>();
}

}  // namespace

TEST_CASE("the matrix is the exact derivative where only convection, radiation to outside and fixed conductances act") {
  network::Network net = test::linear_chain();
  net.tables.emplace_back(net.grid, [](double v, double d) { return 3 + 0.2 * v + 0.01 * std::abs(d); });
  net.surfaces.push_back({1, network::kAmbient, 1, 2, "loss"});
  net.surfaces.push_back({2, 4, 1, 1, "between"});
  net.radiations.push_back({0, network::kAmbient, 0.05});
  CHECK(missing_from_matrix(net, {.speed = 20, .heat = 2e4, .applied = 0.7}) < 1e-5);
}

TEST_CASE(
    "what the matrix leaves out, dk/dT and the difference of T^3 of two radiating nodes, stays small beside the rest") {
  const double missing = missing_from_matrix(test::curved_chain(), {.speed = 20, .heat = 2e4, .applied = 0.7});
  CAPTURE(missing);
  CHECK(missing > 1e-4);  // it is left out
  CHECK(missing < 0.1);
}

TEST_CASE("the kernel gives the rates that the network states") {
  const network::Network net = test::curved_chain();
  WheelSystem system(net, test::smooth_load);
  const Eigen::VectorXd x = system.initial_state();
  Eigen::VectorXd stated = x, fast = x, sloped = x;
  for (const double t : {0.0, 2.0, 4.5}) {
    system.rates(t, x, stated);
    system.lanes().rates(t, x, fast);
    system.lanes().linearise(t, x, {}, sloped);
    CHECK((fast - stated).norm() <= 1e-7 * stated.norm());  // 1/k from tables over heat and over temperature
    CHECK(fast == sloped);
  }
}

TEST_CASE("within a step the rates are followed to third order in the change of temperature") {
  // Convection without curvature in temperature and speed: only there is the expansion of second order.
  network::Network net = test::curved_chain();
  net.tables.clear();
  net.tables.emplace_back(net.grid, [](double, double) { return 20.0; });
  for (network::Surface& s : net.surfaces) s.table = 0;
  WheelSystem system(net, test::smooth_load);
  const Eigen::VectorXd x = system.initial_state();
  Eigen::VectorXd f = x, exact = x, local = x;
  system.lanes().linearise(2, x, {}, f);
  const Eigen::VectorXd capacity = system.lanes().capacity();
  const auto error = [&](double kelvin) {
    const Eigen::VectorXd w =
        Eigen::VectorXd::NullaryExpr(net.size(), [&](Eigen::Index i) { return (i % 2 ? -1 : 1) * kelvin; });
    Eigen::VectorXd y = x;
    y.head(net.size()) += capacity.cwiseProduct(w);
    system.rates(2.3, y, exact);
    system.lanes().local_rates(0.3, 0.3, w, local);
    return (local - exact).lpNorm<Eigen::Infinity>() / exact.lpNorm<Eigen::Infinity>();
  };
  const double coarse = error(40), fine = error(20);
  CAPTURE(coarse, fine);
  CHECK(coarse < 2e-3);
  CHECK(std::log2(coarse / fine) > 2.5);
}

TEST_CASE("a link that pressure closes conducts by its contact while the pads are applied") {
  network::Network net = test::bare_network();
  test::add_node(net, "backing", 1000, 400);
  test::add_node(net, "piston", 1000, 300);
  net.link({0, 1, 0, 0, 0.5, 3, "pad_piston"});
  WheelSystem system(net, [](double t) { return Load{.applied = t}; });
  const Eigen::VectorXd x = system.initial_state();
  Eigen::VectorXd f = x;
  for (const double applied : {0.0, 0.4, 1.0}) {
    system.rates(applied, x, f);
    CHECK(f[1] == Approx(100 * (2 + 3 * applied)));
    CHECK(f[0] == -f[1]);
  }
}

TEST_CASE("a network that is not physical is refused with the name of what is wrong") {
  const auto build = [](const network::Network& net) { return WheelSystem(net, test::smooth_load); };
  network::Network net = test::TwoNodes().network();
  net.nodes[1].mass = 0;
  CHECK_THROWS_WITH(build(net), Catch::Matchers::Contains("second"));
  net = test::TwoNodes().network();
  net.links[0].b = net.links[0].a;
  CHECK_THROWS_AS(build(net), std::invalid_argument);
}

namespace {

// Half a disc under one face: `cells` equal cells, heated by friction alone, all of it into the ring.
struct Slab {
  explicit Slab(int cells) : net(test::bare_network()), d(0.01 / cells) {
    for (int i = 0; i < cells; ++i)
      net.add({"cell" + std::to_string(i), network::Part::ring, 7200 * kArea * d, 0, 300});
    net.add({"pad", network::Part::pad, 1, 0, 300});
    for (int i = 0; i + 1 < cells; ++i) net.link({i, i + 1, d / 2 / kArea, d / 2 / kArea, 0, 0, "ring"});
    net.rubbings.push_back({.ring = 0, .pad = cells, .share = 1, .contact = 0, .shape_ring = d / 2 / kArea});
    net.faces.push_back(
        {.cell = 0, .below = cells > 1 ? 1 : -1, .shape = d / kArea, .area = kArea, .link = cells > 1 ? 0 : -1});
    net.fixed_ring_share = 1;
  }
  static constexpr double kArea = 0.05, kConductivity = 50;  // [m2], [W/m/K] of the plain material
  network::Network net;
  double d;  // [m]
};

}  // namespace

TEST_CASE("the face temperature is exact for a profile that is a parabola, as under steady heating") {
  for (const int cells : {1, 2, 4}) {
    const Slab slab(cells);
    const double power = 40e3, length = 0.01, flux = power / Slab::kArea;
    // Insulated at the far side: T = 500 + flux / (2 k L) (L - x)^2, exact in the mean of each cell.
    const auto mean = [&](double from, double to) {
      return 500 + flux / (2 * Slab::kConductivity * length) * (std::pow(length - from, 3) - std::pow(length - to, 3)) /
                       (3 * (to - from));
    };
    const Load load{.heat = power, .applied = 1};
    RubbedSurfaces surfaces(slab.net);
    Eigen::VectorXd t = Eigen::VectorXd::Constant(cells + 1, 300);
    for (int i = 0; i < cells; ++i) t[i] = mean(i * slab.d, (i + 1) * slab.d);
    CAPTURE(cells);
    surfaces.find(t, load);
    CHECK(surfaces.face(0)[0] == Approx(500 + flux * length / (2 * Slab::kConductivity)).epsilon(1e-9));
  }
}

TEST_CASE("without flux through it the face has the temperature of its cell") {
  Slab slab(1);
  slab.net.pads[0] = 1;
  RubbedSurfaces surfaces(slab.net);
  Eigen::VectorXd t(2);
  t << 640, 300;
  surfaces.find(t, {});
  CHECK(surfaces.face(0)[0] == Approx(640));
  CHECK(surfaces.pad(false)[0] == Approx(300));
  CHECK(std::isnan(surfaces.pad(true)[0]));
}

TEST_CASE("surfaces at several moments are those of each, braked or not") {
  const Slab slab(4);
  RubbedSurfaces together(slab.net), apart(slab.net);
  const std::vector<Load> loads{{}, {.speed = 20, .heat = 4e6, .applied = 1}, {.applied = 0.3}, {}, {.heat = 9e5}};
  const auto moments = static_cast<Eigen::Index>(loads.size());
  Eigen::ArrayXXd t(moments, slab.net.size());
  Loads all;
  all.resize(moments);
  for (Eigen::Index i = 0; i < moments; ++i) {
    all.set(i, loads[static_cast<std::size_t>(i)]);
    for (Eigen::Index k = 0; k < t.cols(); ++k) t(i, k) = 400 + 30 * std::sin(static_cast<double>(7 * i + k));
  }
  together.find(t, all);
  for (Eigen::Index i = 0; i < moments; ++i) {
    apart.find(Eigen::VectorXd(t.row(i).transpose()), loads[static_cast<std::size_t>(i)]);
    CHECK(together.face(0)[i] == Approx(apart.face(0)[0]).epsilon(1e-14));
    CHECK(together.side(false)[i] == Approx(apart.side(false)[0]).epsilon(1e-14));
    CHECK(std::isnan(together.pad(true)[i]) == std::isnan(apart.pad(true)[0]));
  }
  apart.find(Eigen::VectorXd(t.row(1).transpose()), {});
  CHECK(together.face(0)[1] > apart.face(0)[0] + 1);  // than it would be off the brakes
  Loads few;
  few.resize(1);
  CHECK_THROWS_AS(together.find(t, few), std::invalid_argument);
}

namespace {

// Losses from recorded temperatures, by the laws themselves rather than the tables.
struct Losses {
  double brake = 0, radiated = 0, wheel = 0;
};

Losses lost(const Eigen::VectorXd& t, double speed) {
  const double ambient = test::kAmbientTemperature;
  const auto convection = [&](double node, double scale) {
    return scale * (4 + 0.5 * speed + 0.3 * std::cbrt(std::abs(node - ambient) + 5)) * (node - ambient);
  };
  const auto radiation = [&](double node, double factor) {
    return models::kStefanBoltzmann * factor * (std::pow(node, 4) - std::pow(ambient, 4));
  };
  return {convection(t[0], 1), radiation(t[0], 0.05), convection(t[3], 0.7) + radiation(t[3], 0.03)};
}

}  // namespace

TEST_CASE(
    "first law: heat in - stored - lost closes to round-off at any tolerance, k(T), c(T) and radiation included") {
  const network::Network net = test::curved_chain();
  for (const double tolerance : {1.0, 0.02}) {
    for (const Tableau* tableau : {&ros34pw2(), &rodas3()}) {
      WheelSystem system(net, test::smooth_load);
      Eigen::VectorXd x = system.initial_state();
      const Eigen::VectorXd start = x;
      StepOptions options;
      options.tolerance.absolute = tolerance;
      (void)integrate(system, {0, 11, 60}, {}, x, options, *tableau, [](double, const Eigen::VectorXd&) {});
      const int n = system.nodes();
      const double friction = x[n + kFriction], stored = (x - start).head(n).sum();
      const double out = x[n + kConvection] + x[n + kRadiation] + x[n + kWheelLoss];
      CAPTURE(tolerance, tableau->name, friction, stored, out);
      CHECK(friction > 5e5);
      CHECK(std::abs(friction - stored - out) < 1e-11 * friction);
    }
  }
}

TEST_CASE("losses summed a second way, from recorded temperatures and the laws, agree with the running integrals") {
  const network::Network net = test::curved_chain();
  WheelSystem system(net, test::smooth_load);
  Eigen::VectorXd x = system.initial_state(), t(system.nodes());
  StepOptions options;
  options.tolerance.absolute = 1e-3;
  constexpr int kIntervals = 6000;  // even, for Simpson's rule
  constexpr double kEvery = 0.01;
  std::vector<double> times;
  for (int i = 0; i <= kIntervals; ++i) times.push_back(kEvery * i);
  Losses sum;
  int i = 0;
  (void)integrate(system, {0, times.back()}, times, x, options, ros34pw2(),
                  [&](double time, const Eigen::VectorXd& state) {
                    system.temperatures_of(state, t);
                    const Losses now = lost(t, test::smooth_load(time).speed);
                    const double weight = kEvery / 3 * (i == 0 || i == kIntervals ? 1 : i % 2 == 1 ? 4 : 2);
                    sum.brake += weight * now.brake;
                    sum.radiated += weight * now.radiated;
                    sum.wheel += weight * now.wheel;
                    ++i;
                  });
  REQUIRE(i == kIntervals + 1);
  const int n = system.nodes();
  CHECK(x[n + kConvection] == Approx(sum.brake).epsilon(1e-4));
  CHECK(x[n + kRadiation] == Approx(sum.radiated).epsilon(1e-5));
  CHECK(x[n + kWheelLoss] == Approx(sum.wheel).epsilon(1e-4));
}

}  // namespace hatring::solve
