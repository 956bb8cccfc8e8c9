// SPDX-License-Identifier: MIT
#include "tests/sim/network/mesh_order.hpp"

#include <cmath>
#include <string>

#include "sim/network/mesh.hpp"
#include "sim/network/network.hpp"
#include "sim/solve/integrate.hpp"
#include "sim/solve/rubbed_surfaces.hpp"

namespace hatring::test {
namespace {

constexpr double kHalfThickness = 0.010, kConductivity = 50, kDensity = 7200, kHeat = 500;
constexpr double kFlux = 2e6, kDuration = 5, kMoment = 2.5;

}  // namespace

double slab_face_rise(int layers) {
  using namespace network;
  Network net;
  net.ambient = models::kReferenceTemperature;
  net.fixed_ring_share = 1;
  net.contents.emplace_back(models::Material{.name = "slab",
                                             .density = kDensity,
                                             .conductivity = models::Curve(kConductivity),
                                             .specific_heat = models::Curve(kHeat)});
  const auto thickness = graded(kHalfThickness, layers, std::pow(kLayerSpread, 1.0 / layers));
  for (int i = 0; i < layers; ++i) {
    const double own = thickness[static_cast<std::size_t>(i)];
    net.add({"layer" + std::to_string(i + 1), Part::ring, kDensity * own, 0, net.ambient});
    if (i > 0) net.link({i - 1, i, 0.5 * thickness[static_cast<std::size_t>(i - 1)], 0.5 * own, 0, 0, "ring"});
  }
  const NodeId pad = net.add({"pad", Part::pad, 1, 0, net.ambient});
  net.rubbings.push_back({0, pad, 1, 0, 0.5 * thickness[0], 1});
  net.faces.push_back({0, 1, thickness[0], 1, 0, false});

  solve::RubbedSurfaces surfaces(net);
  solve::WheelSystem system(net, [](double t) { return solve::Load{0, kFlux * (1 - t / kDuration), 1}; });
  Eigen::VectorXd x = system.initial_state(), temperature(net.size());
  double rise = 0;
  solve::StepOptions options;
  options.tolerance.absolute = 1e-6;
  solve::integrate(system, {0, kMoment}, {kMoment}, x, options, solve::ros34pw2(),
                   [&](double t, const Eigen::VectorXd& state) {
                     system.temperatures_of(state, temperature);
                     surfaces.find(temperature, system.load_at(t));
                     rise = surfaces.face(0)[0] - net.ambient;
                   });
  return rise;
}

double slab_face_rise_exact() {
  const double alpha = kConductivity / (kDensity * kHeat),
               fourier = alpha * kMoment / (kHalfThickness * kHalfThickness);
  const double unit = M_PI * M_PI * alpha / (kHalfThickness * kHalfThickness);  // decay of the first term [1/s]
  double step = fourier + 1.0 / 3, integral = fourier * kMoment / 2 + kMoment / 3;
  for (int n = 1; n <= 20000; ++n) {
    const double square = static_cast<double>(n) * n, left = std::exp(-square * unit * kMoment);
    step -= 2 / (M_PI * M_PI) * left / square;
    integral -= 2 / (M_PI * M_PI) * (1 - left) / (square * square * unit);
  }
  return kFlux * kHalfThickness / kConductivity * (step - integral / kDuration);
}

}  // namespace hatring::test
