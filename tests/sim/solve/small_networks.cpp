// SPDX-License-Identifier: MIT
#include "tests/sim/solve/small_networks.hpp"

#include <cmath>

namespace hatring::test {

using network::Network;

models::Material plain_material(double specific_heat, double conductivity) {
  return {.name = "plain",
          .density = 7200,
          .conductivity = models::Curve(conductivity),
          .specific_heat = models::Curve(specific_heat)};
}

models::Material curved_material() {
  return {.name = "curved",
          .density = 7200,
          .conductivity = models::Curve({293.15, 473.15, 773.15, 973.15}, {50, 47.5, 43.5, 39}),
          .specific_heat = models::Curve({293.15, 473.15, 773.15, 973.15}, {425, 491, 606, 790})};
}

Network bare_network() {
  Network net;
  net.ambient = kAmbientTemperature;
  net.contents.emplace_back(plain_material(500));
  net.tables.emplace_back(net.grid, [](double, double) { return 1.0; });
  return net;
}

network::NodeId add_node(Network& net, const std::string& name, double capacity, double temperature) {
  return net.add({name, network::Part::ring, capacity / 500, 0, temperature});
}

Network TwoNodes::network() const {
  Network net = bare_network();
  const auto a = add_node(net, "first", c1, kAmbientTemperature + start1);
  const auto b = add_node(net, "second", c2, kAmbientTemperature + start2);
  net.link(a, b, link, "between");
  net.surfaces.push_back({a, network::kAmbient, 0, loss1, "loss"});
  net.surfaces.push_back({b, network::kAmbient, 0, loss2, "loss"});
  return net;
}

std::pair<double, double> TwoNodes::exact(double time) const {
  const double a = (link + loss1) / c1, b = (link + loss2) / c2;
  const double mean = (a + b) / 2, half = std::sqrt((a - b) * (a - b) / 4 + link * link / (c1 * c2));
  // Each mode has T2/T1 = (a - lambda) c1 / link.
  const double fast = mean + half, slow = mean - half;
  const double fast_ratio = (a - fast) * c1 / link, slow_ratio = (a - slow) * c1 / link;
  const double fast_part = (start2 - slow_ratio * start1) / (fast_ratio - slow_ratio), slow_part = start1 - fast_part;
  const double f = fast_part * std::exp(-fast * time), s = slow_part * std::exp(-slow * time);
  return {f + s, fast_ratio * f + slow_ratio * s};
}

namespace {

// Ring cells, a hat and a pad; `content` of every node but the pad.
Network chain(Network net, int content) {
  const double mass[] = {0.4, 0.6, 0.9, 0.5};
  for (int i = 0; i < 4; ++i)
    net.add(
        {"cell" + std::to_string(i + 1), network::Part::ring, mass[i], content, kAmbientTemperature + 200 - 40 * i});
  net.add({"pad", network::Part::pad, 0.2, 0, kAmbientTemperature + 60});
  for (int i = 0; i < 3; ++i) net.link({i, i + 1, 0.5, 0.4, 0.01, 0, "ring"});
  net.link(3, 4, 0.8, "pad");
  net.rubbings.push_back({.ring = 0, .pad = 4, .share = 1, .contact = 60, .shape_ring = 0.15, .shape_pad = 1});
  return net;
}

}  // namespace

Network linear_chain() {
  Network net = chain(bare_network(), 0);
  net.surfaces.push_back({0, network::kAmbient, 0, 6, "loss"});
  net.surfaces.push_back({2, 3, 0, 3, "between"});
  net.surfaces.push_back({4, network::kAmbient, 0, 2, "loss"});
  return net;
}

Network curved_chain() {
  Network net = bare_network();
  net.contents.emplace_back(curved_material());
  net = chain(std::move(net), 1);
  net.nodes[3].part = network::Part::wheel;
  net.tables.emplace_back(net.grid, [](double speed, double difference) {
    return 4 + 0.5 * speed + 0.3 * std::cbrt(std::abs(difference) + 5);
  });
  net.surfaces.push_back({0, network::kAmbient, 1, 1.0, "loss"});
  net.surfaces.push_back({2, 3, 1, 0.5, "between"});
  net.surfaces.push_back({3, network::kAmbient, 1, 0.7, "loss"});
  net.radiations.push_back({0, network::kAmbient, 0.05});
  net.radiations.push_back({1, 3, 0.02});
  net.radiations.push_back({3, network::kAmbient, 0.03});
  return net;
}

solve::Load smooth_load(double time) {
  const double pulse = std::sin(0.35 * time);
  return {.speed = 35 + 15 * std::cos(0.35 * time), .heat = 30e3 * pulse * pulse, .applied = pulse * pulse};
}

solve::StepOptions fixed_step(double step) {
  return {.tolerance = {.absolute = 1e12}, .largest_step = step};
}

Eigen::VectorXd after_a_minute(const Network& network, double tolerance) {
  solve::WheelSystem system(network, smooth_load);
  Eigen::VectorXd x = system.initial_state(), t(system.nodes());
  solve::StepOptions options;
  options.tolerance.absolute = tolerance;
  (void)integrate(system, {0, 60}, {}, x, options, solve::ros34pw2(), [](double, const Eigen::VectorXd&) {});
  system.temperatures_of(x, t);
  return t;
}

Eigen::VectorXd march_explicit(solve::WheelSystem& system, const Eigen::VectorXd& start, double duration, int steps) {
  const double h = duration / steps;
  Eigen::VectorXd x = start, k1 = start, k2 = start, k3 = start, k4 = start;
  for (int i = 0; i < steps; ++i) {
    const double t = i * h;
    system.lanes().rates(t, x, k1);
    system.lanes().rates(t + h / 2, x + h / 2 * k1, k2);
    system.lanes().rates(t + h / 2, x + h / 2 * k2, k3);
    system.lanes().rates(t + h, x + h * k3, k4);
    x += h / 6 * (k1 + 2 * k2 + 2 * k3 + k4);
  }
  return x;
}

}  // namespace hatring::test
