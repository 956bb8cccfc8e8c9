// SPDX-License-Identifier: MIT
#include "tools/bench/lean_wheel.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "models/constants.hpp"
#include "sim/network/index.hpp"
#include "sim/solve/flows.hpp"

namespace hatring::bench {
namespace {

using network::at;
using network::ConductanceTable;
using network::kAmbient;
using Grid = network::ConductanceGrid;

double fourth(double t) {
  return t * t * t * t;
}

}  // namespace

LeanWheel::LeanWheel(const network::Network& network, solve::LoadFunction load)
    : network_(network), load_function_(std::move(load)) {
  inverse_mass_.reserve(network.nodes.size());
  for (const network::Node& n : network.nodes) inverse_mass_.push_back(1 / n.mass);
  for (auto* v : {&temperature_, &resistivity_}) v->setZero(network.size());
  for (auto* v : {&fourth_, &radiance_}) v->assign(network.nodes.size(), 0.0);
  for (const network::Link& l : network.links) {
    if (l.pressed > 0)
      pressed_.push_back(l);
    else
      conductors_.push_back({l.a, l.b, l.shape_a, l.shape_b, l.resistance});
  }
  for (const network::Radiation& r : network.radiations) {
    const double factor = models::kStefanBoltzmann * r.factor;
    if (r.b == kAmbient)
      radiance_[at(r.a)] += factor;
    else
      pairs_.push_back({r.a, r.b, factor});
  }
  cooled_.reserve(network.surfaces.size());
  for (const network::Surface& s : network.surfaces)
    cooled_.push_back({s.node, s.air, s.table, s.scale * network.tables[at(s.table)].factor()});
  std::stable_sort(cooled_.begin(), cooled_.end(), [](const Cooled& x, const Cooled& y) {
    return std::pair{x.table, x.scale} < std::pair{y.table, y.scale};
  });
  for (auto* v : {&difference_, &place_}) v->assign(cooled_.size(), 0.0);
}

void LeanWheel::set_window(double begin, double end) {
  constexpr double kInside = 1e-8;  // as solve::LaneSystem has it [s]
  const double inset = std::min(kInside, 0.25 * (end - begin));
  begin_ = begin + inset;
  end_ = end - inset;
  time_ = -1e300;
}

Eigen::VectorXd LeanWheel::initial_state() const {
  const std::vector<double> heat = network_.initial_heat();
  return Eigen::Map<const Eigen::VectorXd>(heat.data(), network_.size());
}

// Many methods evaluate several times at one moment.
void LeanWheel::load_at(double t) {
  if (t == time_) return;
  time_ = t;
  load_ = load_function_(std::clamp(t, begin_, end_));
  speed_ = network_.grid.locate(load_.speed);
}

// Places in one sweep, through vectors; a cubic once for all surfaces in a row that lie in one interval of one table.
void LeanWheel::cool(double* rate) {
  for (std::size_t k = 0; k < cooled_.size(); ++k) {
    const Cooled& c = cooled_[k];
    difference_[k] = temperature_[c.node] - (c.air == kAmbient ? network_.ambient : temperature_[c.air]);
  }
  for (std::size_t k = 0; k < cooled_.size(); ++k)
    place_[k] = Grid::inside(Grid::position(difference_[k]), Grid::kDifferences - 1);
  double cubic[4] = {};
  int table = -1, interval = -1;
  for (std::size_t k = 0; k < cooled_.size(); ++k) {
    const Cooled& c = cooled_[k];
    const int j = std::min(static_cast<int>(place_[k]), Grid::kDifferences - 2);
    if (c.table != table || j != interval) {
      table = c.table;
      interval = j;
      const double* row = network_.tables[at(table)].cubics() + 4 * (j * ConductanceTable::kRows + speed_.index);
      for (int i = 0; i < 4; ++i)
        cubic[i] =
            speed_.w[0] * row[i] + speed_.w[1] * row[4 + i] + speed_.w[2] * row[8 + i] + speed_.w[3] * row[12 + i];
    }
    const double s = place_[k] - j;
    const double q = (cubic[0] + s * (cubic[1] + s * (cubic[2] + s * cubic[3]))) * c.scale * difference_[k];
    rate[c.node] -= q;
    if (c.air != kAmbient) rate[c.air] += q;
  }
}

void LeanWheel::rates(double t, const double* heat, double* rate) {
  load_at(t);
  const double ambient4 = fourth(network_.ambient);
  const int n = network_.size();
  double* __restrict temperature = temperature_.data();
  double* __restrict resistivity = resistivity_.data();
  double* __restrict t4 = fourth_.data();
  for (int i = 0; i < n; ++i) {
    const auto v = network_.contents[at(network_.nodes[at(i)].content)].at(heat[i] * inverse_mass_[at(i)]);
    temperature[i] = v.temperature;
    resistivity[i] = v.resistivity;
  }
  for (int i = 0; i < n; ++i) {
    t4[i] = fourth(temperature[i]);
    rate[i] = radiance_[at(i)] * (ambient4 - t4[i]);
  }
  const auto pass = [rate](int a, int b, double q) {
    rate[a] -= q;
    rate[b] += q;
  };
  for (const Conductor& c : conductors_)
    pass(c.a, c.b,
         (temperature[c.a] - temperature[c.b]) /
             (c.shape_a * resistivity[c.a] + c.resistance + c.shape_b * resistivity[c.b]));
  for (const network::Link& l : pressed_) pass(l.a, l.b, solve::link_flow(l, load_, temperature_, resistivity_));
  for (const Pair& p : pairs_) pass(p.a, p.b, p.factor * (t4[p.a] - t4[p.b]));
  if (load_.applied != 0 || load_.heat != 0) {
    for (const network::Rubbing& r : network_.rubbings) {
      const solve::RubbingFlow heat =
          solve::rubbing_flow(r, network_.fixed_ring_share, load_, temperature_, resistivity_);
      rate[r.ring] += heat.to_ring;
      rate[r.pad] += heat.to_pad;
    }
  }
  cool(rate);
}

}  // namespace hatring::bench
