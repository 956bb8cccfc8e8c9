// SPDX-License-Identifier: MIT
#include "tools/bench/wheel_run.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <variant>

#include "sim/network/assemble.hpp"
#include "tests/checks/track_session.hpp"

namespace hatring::bench {
namespace {

constexpr int kHotLaps = 11;
constexpr double kDuration = 1200;  // [s]

// Parked for as long as makes it 20 minutes.
session::Case twenty_minutes(session::Mesh mesh) {
  session::Case c = test::track_session(mesh, kHotLaps);
  auto& park = std::get<session::ParkStep>(c.session.back());
  park.duration += kDuration - session::Drive(c).duration();
  return c;
}

}  // namespace

WheelRun::WheelRun(session::Mesh mesh) : WheelRun(twenty_minutes(mesh)) {}

WheelRun::WheelRun(const session::Case& c) : drive_(c), network_(network::assemble(c, session::Axle::front, 65)) {
  for (int i = 0; 0.1 * i < drive_.duration(); ++i) outputs_.push_back(0.1 * i);
}

solve::WheelSystem WheelRun::system() const {
  return {network_, test::load_of(drive_, session::Axle::front)};
}

solve::LaneSystem WheelRun::lanes(const solve::WheelKernel& kernel, std::vector<network::Network>& store) const {
  store.assign(static_cast<std::size_t>(kernel.lanes), network_);
  std::vector<const network::Network*> networks;
  std::vector<solve::LoadFunction> loads;
  for (std::size_t lane = 0; lane < store.size(); ++lane) {
    for (network::Surface& s : store[lane].surfaces) s.scale *= 1 + 0.05 * static_cast<double>(lane);
    networks.push_back(&store[lane]);
    loads.push_back(test::load_of(drive_, session::Axle::front));
  }
  return {networks, loads, kernel};
}

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
