// SPDX-License-Identifier: MIT
#include "sim/answer/wheel_lanes.hpp"

#include <algorithm>
#include <utility>

namespace hatring::answer {
namespace {

// The wheel in a lane; lanes that are left over repeat the last one.
std::size_t wheel_in(int lane, std::size_t wheels) {
  return std::min(static_cast<std::size_t>(lane), wheels - 1);
}

std::vector<std::vector<double>> starting_heats(const std::vector<Wheel>& wheels) {
  std::vector<std::vector<double>> out;
  out.reserve(wheels.size());
  for (const Wheel& w : wheels) {
    if (const AxleState* before = w.passage != nullptr ? w.passage->start : nullptr)
      out.emplace_back(before->heat.begin(), before->heat.end());
    else
      out.push_back(w.network.initial_heat());
  }
  return out;
}

network::Symmetry symmetry_of(const std::vector<Wheel>& wheels, const std::vector<std::vector<double>>& heats) {
  std::vector<const network::Network*> networks;
  networks.reserve(wheels.size());
  for (const Wheel& w : wheels) networks.push_back(&w.network);
  return network::symmetry(networks, heats);
}

std::vector<network::Network> reduced(const std::vector<Wheel>& wheels, const network::Symmetry& symmetry) {
  std::vector<network::Network> out;
  out.reserve(wheels.size());
  for (const Wheel& w : wheels) out.push_back(network::reduced(w.network, symmetry));
  return out;
}

template <class Real>
solve::LaneSystem<Real> lanes_of(session::Axle axle, const std::vector<Wheel>& wheels,
                                 const std::vector<network::Network>& networks,
                                 const solve::WheelKernel<Real>& kernel) {
  std::vector<const network::Network*> in_lanes;
  std::vector<solve::LoadFunction> loads;
  for (int lane = 0; lane < kernel.lanes; ++lane) {
    const std::size_t i = wheel_in(lane, wheels.size());
    in_lanes.push_back(&networks[i]);
    if (lane > 0 && wheels[i].drive.as(wheels[wheel_in(lane - 1, wheels.size())].drive)) {
      loads.emplace_back();
      continue;
    }
    loads.emplace_back([&drive = wheels[i].drive, axle, piece = std::size_t{0}](double t) mutable {
      const session::Moment m = drive.at(t, piece);
      return solve::Load{m.speed, drive.wheel_heat(axle, t, m), m.applied};
    });
  }
  return {std::move(in_lanes), std::move(loads), kernel};
}

}  // namespace

template <class Real>
WheelLanes<Real>::WheelLanes(session::Axle axle, const std::vector<Wheel>& wheels,
                             const solve::WheelKernel<Real>& kernel)
    : wheels_(wheels),
      heats_(starting_heats(wheels)),
      symmetry_(symmetry_of(wheels, heats_)),
      networks_(reduced(wheels, symmetry_)),
      system_(lanes_of(axle, wheels, networks_, kernel)),
      kept_(wheels.size()) {
  for (Moments& m : kept_) m.resize(solve::kMostMoments, system_.nodes());
}

template <class Real>
Eigen::VectorXd WheelLanes<Real>::start() const {
  const int lanes = system_.lanes();
  Eigen::VectorXd x = Eigen::VectorXd::Zero((system_.nodes() + solve::kIntegrals) * lanes);
  for (int lane = 0; lane < lanes; ++lane) {
    const std::vector<double>& heat = heats_[wheel_in(lane, wheels_.size())];
    for (std::size_t i = 0; i < heat.size(); ++i) x[symmetry_.group[i] * lanes + lane] += heat[i];
  }
  return x;
}

template <class Real>
Eigen::VectorXd WheelLanes<Real>::state(const Eigen::VectorXd& x, std::size_t wheel) const {
  using Lane = Eigen::Map<const Eigen::VectorXd, 0, Eigen::InnerStride<>>;
  return Lane(x.data() + wheel, system_.nodes() + solve::kIntegrals, Eigen::InnerStride<>(system_.lanes()));
}

template <class Real>
void WheelLanes<Real>::keep(double time, const solve::DenseState<Vector>& at) {
  const Eigen::Index lanes = system_.lanes(), nodes = system_.nodes();
  temperature_ = at.temperature();
  sums_ = at.x_tail(solve::kBehindNodes * lanes);
  for (std::size_t i = 0; i < kept_.size(); ++i) {
    Moments& m = kept_[i];
    const auto lane = static_cast<Eigen::Index>(i);
    for (Eigen::Index k = 0; k < nodes; ++k) m.node(count_, k) = temperature_[k * lanes + lane];
    const auto sum = [&](Eigen::Index k) { return sums_[k * lanes + lane]; };
    for (Eigen::Index k = 0; k < solve::kIntegrals; ++k) m.integral(count_, k) = sum(k);
    m.heat[count_] = sum(solve::kAllHeat);
    m.beyond[count_] = sum(solve::kWheelHeat);
  }
  system_.each_load(time, [this](std::size_t lane, const solve::Load& load) {
    if (lane < kept_.size()) kept_[lane].load.set(count_, load);
  });
  ++count_;
}

template <class Real>
void WheelLanes<Real>::hand_over(const std::function<void(std::size_t, Moments&)>& take) {
  if (count_ == 0) return;
  for (std::size_t i = 0; i < kept_.size(); ++i) {
    kept_[i].resize(count_, system_.nodes());
    take(i, kept_[i]);
    kept_[i].resize(solve::kMostMoments, system_.nodes());
  }
  count_ = 0;
}

template class WheelLanes<double>;
template class WheelLanes<float>;

}  // namespace hatring::answer
