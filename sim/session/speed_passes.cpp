// SPDX-License-Identifier: MIT
#include "sim/session/speed_passes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/session/error.hpp"

namespace hatring::session {
namespace {

constexpr int kMostRounds = 500;
constexpr double kSettled = 1e-9;  // relative change of the energy that counts as none

using Slope = std::function<double(std::size_t, double)>;

// Energy at the other end of a cell of this length.
double across(const Slope& slope, std::size_t cell, double energy, double length) {
  const auto f = [&](double e) { return slope(cell, std::sqrt(2 * std::max(0.0, e))); };
  const double a = f(energy), b = f(energy + length / 2 * a), c = f(energy + length / 2 * b),
               d = f(energy + length * c);
  return energy + length / 6 * (a + 2 * b + 2 * c + d);
}

class Passes {
 public:
  explicit Passes(const SpeedBounds& bounds) : b_(bounds) {
    for (const double v : b_.ceiling) energy_.push_back(v * v / 2);
  }

  std::vector<double> run() {
    for (int round = 0; round < kMostRounds; ++round) {
      changed_ = false;
      join_ends();
      for (std::size_t i = 0; i + 1 < energy_.size(); ++i) lower(i + 1, across(b_.gain, i, energy_[i], length(i)));
      join_ends();
      for (std::size_t i = energy_.size() - 1; i-- > 0;) lower(i, across(b_.loss, i, energy_[i + 1], length(i)));
      if (!changed_) return speeds();
    }
    throw CaseError("the speed along the track does not settle");
  }

 private:
  [[nodiscard]] double length(std::size_t cell) const { return b_.distance[cell + 1] - b_.distance[cell]; }

  void lower(std::size_t node, double energy) {
    if (energy >= energy_[node]) return;
    if (energy <= 0)
      throw CaseError(fmt::format("the car would come to a stand {:.0f} m into the lap: too steep or too little grip",
                                  b_.distance[node]));
    if (energy < energy_[node] * (1 - kSettled)) changed_ = true;
    energy_[node] = energy;
  }

  void join_ends() {
    if (!b_.closed) return;
    lower(0, energy_.back());
    lower(energy_.size() - 1, energy_.front());
  }

  [[nodiscard]] std::vector<double> speeds() const {
    std::vector<double> out;
    for (const double e : energy_) out.push_back(std::sqrt(2 * e));
    return out;
  }

  const SpeedBounds& b_;
  std::vector<double> energy_;  // v^2/2 at every node [J/kg]
  bool changed_ = false;
};

}  // namespace

std::vector<double> fastest(const SpeedBounds& bounds) {
  return Passes(bounds).run();
}

double time_along(const std::vector<double>& distance, const std::vector<double>& speed) {
  double time = 0;
  for (std::size_t i = 1; i < distance.size(); ++i)
    time += 2 * (distance[i] - distance[i - 1]) / (speed[i] + speed[i - 1]);
  return time;
}

}  // namespace hatring::session
