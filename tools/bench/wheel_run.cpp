// SPDX-License-Identifier: MIT
#include "tools/bench/wheel_run.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <variant>

#include "tests/checks/track_session.hpp"

namespace hatring::bench {
namespace {

// Parked for as long as makes it that long.
session::Case session_of(double duration) {
  constexpr auto kMesh = session::Mesh::standard;  // of no matter: each run brings its own
  const auto lasts = [](int laps) { return session::Drive(test::track_session(kMesh, laps)).duration(); };
  const auto parked = [](session::Case& c) -> double& {
    return std::get<session::ParkStep>(c.session.back()).duration;
  };
  session::Case c = test::track_session(kMesh, 1);
  const double least = lasts(1) - parked(c), lap = lasts(2) - lasts(1);
  const int laps = 1 + std::max(0, static_cast<int>((duration - least) / lap));
  c = test::track_session(kMesh, laps);
  parked(c) = std::max(1.0, duration - least - (laps - 1) * lap);
  return c;
}

}  // namespace

WheelRun::WheelRun(const network::MeshCounts& mesh, double duration) : WheelRun(session_of(duration), mesh) {}

WheelRun::WheelRun(const session::Case& c, const network::MeshCounts& mesh)
    : drive_(c),
      network_(network::assemble(c, session::Axle::front, 65, mesh)),
      symmetry_(network::symmetry({&network_}, {network_.initial_heat()})) {
  for (int i = 0; 0.1 * i < drive_.duration(); ++i) outputs_.push_back(0.1 * i);
}

solve::WheelSystem WheelRun::system() const {
  return {network_, test::load_of(drive_, session::Axle::front)};
}

LeanWheel WheelRun::lean() const {
  return {network_, test::load_of(drive_, session::Axle::front)};
}

Eigen::VectorXd WheelRun::per_kelvin() const {
  constexpr double kLoosePad = 3, kLooseAir = 5;  // as solve::LaneSystem has them
  Eigen::VectorXd out(nodes());
  for (int i = 0; i < nodes(); ++i) {
    const network::Node& node = network_.nodes[static_cast<std::size_t>(i)];
    out[i] = network_.heat_capacity(node, node.temperature) * (node.part == network::Part::air ? kLooseAir : 1);
  }
  std::vector<bool> loose(network_.nodes.size());
  for (const network::Rubbing& r : network_.rubbings) loose[static_cast<std::size_t>(r.pad)] = true;
  for (int i = 0; i < nodes(); ++i)
    if (loose[static_cast<std::size_t>(i)]) out[i] *= kLoosePad;
  return out;
}

// By the power method on differences of the rates.
double WheelRun::fastest_rate() const {
  constexpr int kIterations = 100;
  constexpr double kSmall = 0.1;  // [K]
  auto load = test::load_of(drive_, session::Axle::front);
  double when = 0, fastest = 0;
  for (const double t : outputs_) {
    const solve::Load l = load(t);
    if (l.applied < 1 || l.speed < fastest) continue;
    fastest = l.speed;
    when = t;
  }
  LeanWheel wheel = lean();
  const Eigen::VectorXd x = wheel.initial_state(), scale = per_kelvin();
  Eigen::VectorXd f(x.size()), g(x.size()), y(x.size());
  wheel.rates(when, x.data(), f.data());
  Eigen::VectorXd v = Eigen::VectorXd::NullaryExpr(x.size(), [](Eigen::Index i) { return i % 2 ? 1.0 : -1.0; });
  double radius = 0;
  for (int i = 0; i < kIterations; ++i) {
    v *= kSmall / v.lpNorm<Eigen::Infinity>();
    y = x + v.cwiseProduct(scale);
    wheel.rates(when, y.data(), g.data());
    v = (g - f).cwiseQuotient(scale);
    radius = v.lpNorm<Eigen::Infinity>() / kSmall;
  }
  return radius;
}

template <class Real>
solve::LaneSystem<Real> WheelRun::lanes(const solve::WheelKernel<Real>& kernel, std::vector<network::Network>& store,
                                        bool load_each) const {
  store.assign(static_cast<std::size_t>(kernel.lanes), network::reduced(network_, symmetry_));
  std::vector<const network::Network*> networks;
  std::vector<solve::LoadFunction> loads;
  for (std::size_t lane = 0; lane < store.size(); ++lane) {
    for (network::Surface& s : store[lane].surfaces) s.scale *= 1 + 0.05 * static_cast<double>(lane);
    networks.push_back(&store[lane]);
    loads.push_back(lane == 0 || load_each ? test::load_of(drive_, session::Axle::front) : solve::LoadFunction());
  }
  return {networks, loads, kernel};
}

template solve::LaneSystem<double> WheelRun::lanes(const solve::WheelKernel<double>&, std::vector<network::Network>&,
                                                   bool) const;
template solve::LaneSystem<float> WheelRun::lanes(const solve::WheelKernel<float>&, std::vector<network::Network>&,
                                                  bool) const;

void Tape::put(const solve::WheelSystem& system, const Eigen::VectorXd& x) {
  system.temperatures_of(x, column_);
  put_temperatures(system, column_);
}

void Tape::put_temperatures(const solve::WheelSystem& system, Eigen::Ref<const Eigen::VectorXd> t) {
  column_ = t;
  for (int i = 0; i < system.nodes(); ++i)
    if (system.network().nodes[static_cast<std::size_t>(i)].part == network::Part::air) column_[i] = 0;
  values_.col(next_++) = column_;
}

double Tape::error(const Tape& reference) const {
  if (next_ != values_.cols() || reference.next_ != values_.cols()) return std::numeric_limits<double>::infinity();
  const double worst = (values_ - reference.values_).lpNorm<Eigen::Infinity>();
  return values_.allFinite() ? worst : std::numeric_limits<double>::infinity();
}

}  // namespace hatring::bench
