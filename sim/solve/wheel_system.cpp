// SPDX-License-Identifier: MIT
#include "sim/solve/wheel_system.hpp"

#include <algorithm>
#include <utility>

#include "models/constants.hpp"
#include "models/friction.hpp"

namespace hatring::solve {
namespace {

std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

constexpr double kLoosePad = 3, kLooseAir = 5;  // by trial: a fifth fewer steps at the same error of everything else

double fourth(double t) {
  return t * t * t * t;
}

}  // namespace

WheelSystem::WheelSystem(const network::Network& network, std::function<Load(double)> load)
    : network_(network), load_(std::move(load)), n_(network.size()) {
  network.validate();
  for (const network::Node& node : network.nodes) {
    inverse_mass_.push_back(1 / node.mass);
    content_.push_back(&network.contents[at(node.content)]);
  }
  std::vector<std::pair<int, int>> pairs;
  for (const auto& l : network.links) pairs.emplace_back(l.a, l.b);
  for (const auto& r : network.rubbings) pairs.emplace_back(r.ring, r.pad);
  for (const auto& s : network.surfaces)
    if (s.air != network::kAmbient) pairs.emplace_back(s.node, s.air);
  for (const auto& r : network.radiations)
    if (r.b != network::kAmbient) pairs.emplace_back(r.a, r.b);
  ldlt_ = SparseLdlt(n_, pairs);
  gather();
  for (Eigen::VectorXd* v : {&temperature_, &capacity_, &scratch_t_, &scratch_r_}) v->setZero(n_);
  for (Eigen::ArrayXd* v : {&difference_, &root_}) v->setZero(std::ssize(cooled_));
  rows_.setZero(n_, kWheelLoss + 1);  // the other integrals follow from the load and the stages alone
  looseness_.setOnes(n_);
  for (const network::Rubbing& r : network.rubbings) looseness_[r.pad] = kLoosePad;
  for (int i = 0; i < n_; ++i)
    if (network.nodes[at(i)].part == network::Part::air) looseness_[i] = kLooseAir;
}

void WheelSystem::gather() {
  const auto ends = [&](int a, int b) {
    return b == network::kAmbient ? Ends{ldlt_.slot(a, a), -1, -1}
                                  : Ends{ldlt_.slot(a, a), ldlt_.slot(b, b), ldlt_.slot(a, b)};
  };
  const auto loss = [&](int node, Integral of_brake) {
    return network_.nodes[at(node)].part == network::Part::wheel ? kWheelLoss : of_brake;
  };
  for (const auto& l : network_.links)
    conductors_.push_back({l.a, l.b, l.shape_a, l.shape_b, l.resistance, l.pressed > 0 ? &l : nullptr, ends(l.a, l.b)});
  for (const auto& r : network_.rubbings) rubbing_slots_.push_back(ends(r.ring, r.pad));
  std::vector<const network::Surface*> surfaces;
  for (const auto& s : network_.surfaces) surfaces.push_back(&s);
  const auto stream_of = [&](const network::Surface& s) {
    return std::pair{s.air, s.air == network::kAmbient ? loss(s.node, kConvection) : kConvection};
  };
  std::stable_sort(surfaces.begin(), surfaces.end(), [&](const network::Surface* a, const network::Surface* b) {
    return std::pair{stream_of(*a), a->table} < std::pair{stream_of(*b), b->table};
  });
  for (const network::Surface* s : surfaces) {
    const auto [air, of_brake] = stream_of(*s);
    if (streams_.empty() || streams_.back().air != air || streams_.back().loss != of_brake)
      streams_.push_back({air, of_brake, std::ssize(cooled_), std::ssize(cooled_)});
    cooled_.push_back({s->node, &network_.tables[at(s->table)], s->scale, ends(s->node, air)});
    streams_.back().end = std::ssize(cooled_);
  }
  for (const auto& r : network_.radiations)
    radiants_.push_back({r.a, r.b, models::kStefanBoltzmann * r.factor, ends(r.a, r.b), loss(r.a, kRadiation)});
}

void WheelSystem::set_window(double begin, double end) {
  // Far below any time scale here, far above the rounding of a day in seconds.
  constexpr double kInside = 1e-8;
  const double inset = std::min(kInside, 0.25 * (end - begin));
  begin_ = begin + inset;
  end_ = end - inset;
}

Load WheelSystem::load_at(double time) const {
  return load_(std::clamp(time, begin_, end_));
}

Eigen::VectorXd WheelSystem::initial_state() const {
  Eigen::VectorXd x = Eigen::VectorXd::Zero(n_ + kIntegrals);
  const std::vector<double> heat = network_.initial_heat();
  std::copy(heat.begin(), heat.end(), x.data());
  return x;
}

WheelSystem::RubbingFlow WheelSystem::rub(const network::Rubbing& r, const Load& load, double t_ring, double t_pad,
                                          double resistivity_ring, double resistivity_pad) const {
  const double power = load.heat * r.share;
  const models::ContactSplit split =
      models::contact_split(r.contact * load.applied, r.shape_ring * resistivity_ring, r.shape_pad * resistivity_pad);
  const double across = split.conductance * (t_pad - t_ring);
  const double share = network_.fixed_ring_share >= 0 ? network_.fixed_ring_share : split.ring_share;
  return {share * power + across, (1 - share) * power - across, split.conductance};
}

template <bool kLinearise>
void WheelSystem::evaluate(double time, const Eigen::VectorXd& x, Eigen::VectorXd& dxdt) {
  const Load load = load_at(time);
  const network::SpeedWeights speed = network_.grid.locate(load.speed);
  Eigen::VectorXd& t = kLinearise ? temperature_ : scratch_t_;
  double* const resistivity = scratch_r_.data();
  for (int i = 0; i < n_; ++i) {
    const network::HeatContent::Value v = content_[at(i)]->at(x[i] * inverse_mass_[at(i)]);
    t[i] = v.temperature;
    resistivity[i] = v.resistivity;
    if constexpr (kLinearise) capacity_[i] = 1 / (inverse_mass_[at(i)] * v.slope);
  }
  double* const f = dxdt.data();
  std::fill(f, f + n_ + kIntegrals, 0.0);
  double* const integral = f + n_;
  double* const matrix = ldlt_.values().data();
  if constexpr (kLinearise) {
    ldlt_.values().setZero();
    rows_.setZero();
  }
  const auto couple = [&](const Ends& e, double g) {
    matrix[e.aa] += g;
    matrix[e.bb] += g;
    matrix[e.ab] -= g;
  };

  for (const Conductor& l : conductors_) {
    const double contact = l.pressed ? network::Network::contact(*l.pressed, load.applied) : l.resistance;
    const double g = 1 / (l.shape_a * resistivity[l.a] + contact + l.shape_b * resistivity[l.b]);
    const double q = g * (t[l.a] - t[l.b]);
    f[l.a] -= q;
    f[l.b] += q;
    if constexpr (kLinearise) couple(l.slots, g);  // the change of k with T is left out: a W-method needs no more
  }

  for (std::size_t k = 0; k < network_.rubbings.size(); ++k) {
    const network::Rubbing& r = network_.rubbings[k];
    const RubbingFlow flow = rub(r, load, t[r.ring], t[r.pad], resistivity[r.ring], resistivity[r.pad]);
    f[r.ring] += flow.to_ring;
    f[r.pad] += flow.to_pad;
    integral[kToRing] += flow.to_ring;
    integral[kFriction] += flow.to_ring + flow.to_pad;
    if constexpr (kLinearise) couple(rubbing_slots_[k], flow.conductance);
  }

  for (const Stream& stream : streams_) {
    const double air = stream.air == network::kAmbient ? network_.ambient : t[stream.air];
    for (Eigen::Index k = stream.begin; k < stream.end; ++k)
      difference_[k] = t[cooled_[static_cast<std::size_t>(k)].node] - air;
  }
  root_ = difference_.abs().sqrt();
  for (const Stream& stream : streams_) {
    const bool outside = stream.air == network::kAmbient;
    double carried = 0;
    // Surfaces of one table stand together, and many lie in one interval of it: then its curve is found but once.
    const network::ConductanceTable* table = nullptr;
    int interval = -1;
    network::ConductanceTable::Curve curve;
    for (Eigen::Index k = stream.begin; k < stream.end; ++k) {
      const Cooled& s = cooled_[static_cast<std::size_t>(k)];
      const double difference = difference_[k];
      const network::ConductanceTable::Place place = network::ConductanceTable::locate(difference, root_[k]);
      if (s.table != table || place.interval != interval) {
        table = s.table;
        interval = place.interval;
        curve = table->at_speed(speed, interval);
      }
      const double g = curve(place) * s.scale;
      const double q = g * difference;
      f[s.node] -= q;
      carried += q;
      if constexpr (kLinearise) {
        // Flow against difference is monotone; a floor keeps the matrix positive where the table's slope is not.
        const double slope = std::max(g + curve.slope(place) * s.scale * difference, 0.1 * g);
        if (outside) {
          matrix[s.slots.aa] += slope;
          rows_(s.node, stream.loss) += slope;
        } else {
          couple(s.slots, slope);
        }
      }
    }
    (outside ? integral[stream.loss] : f[stream.air]) += carried;
  }

  for (const Radiant& r : radiants_) {
    if (r.b != network::kAmbient) {
      const double q = r.factor * (fourth(t[r.a]) - fourth(t[r.b]));
      f[r.a] -= q;
      f[r.b] += q;
      if constexpr (kLinearise) {
        const double mean = 0.5 * (t[r.a] + t[r.b]);
        couple(r.slots, 4 * r.factor * mean * mean * mean);  // symmetric stand-in for the exact 4 T^3 of each side
      }
      continue;
    }
    const double q = r.factor * (fourth(t[r.a]) - fourth(network_.ambient));
    f[r.a] -= q;
    integral[r.loss] += q;
    if constexpr (kLinearise) {
      const double slope = 4 * r.factor * t[r.a] * t[r.a] * t[r.a];
      matrix[r.slots.aa] += slope;
      rows_(r.a, r.loss) += slope;
    }
  }
}

template void WheelSystem::evaluate<false>(double, const Eigen::VectorXd&, Eigen::VectorXd&);
template void WheelSystem::evaluate<true>(double, const Eigen::VectorXd&, Eigen::VectorXd&);

void WheelSystem::temperatures_of(const Eigen::VectorXd& x, Eigen::VectorXd& temperature) const {
  for (int i = 0; i < n_; ++i) temperature[i] = content_[at(i)]->temperature(x[i] * inverse_mass_[at(i)]);
}

double WheelSystem::resistivity_of(network::NodeId i, const Eigen::VectorXd& t) const {
  return content_[at(i)]->resistivity(t[i]);
}

double WheelSystem::face_temperature(std::size_t face, const Eigen::VectorXd& t, const Load& load) const {
  const network::Face& fc = network_.faces[face];
  const double own = resistivity_of(fc.cell, t);
  double inward = 0;  // heat through the face into the cell [W]
  for (const network::Rubbing& r : network_.rubbings)
    if (r.ring == fc.cell) inward += rub(r, load, t[r.ring], t[r.pad], own, resistivity_of(r.pad, t)).to_ring;
  double onward = 0;  // heat from the cell to the next one [W]
  if (fc.below >= 0) {
    const network::Link& l = network_.links[at(fc.link)];
    onward =
        (t[fc.cell] - t[fc.below]) / (l.shape_a * resistivity_of(l.a, t) + network::Network::contact(l, load.applied) +
                                      l.shape_b * resistivity_of(l.b, t));
  }
  return t[fc.cell] + fc.shape * own * (2 * inward + onward) / 6;
}

double WheelSystem::pad_surface_temperature(network::NodeId first_cell, const Eigen::VectorXd& t,
                                            const Load& load) const {
  const double own = resistivity_of(first_cell, t);
  double inward = 0, conductance = 0;  // bands side by side
  for (const network::Rubbing& r : network_.rubbings) {
    if (r.pad != first_cell) continue;
    inward += rub(r, load, t[r.ring], t[r.pad], resistivity_of(r.ring, t), own).to_pad;
    conductance += 1 / (r.shape_pad * own);
  }
  return conductance > 0 ? t[first_cell] + inward / conductance : t[first_cell];
}

}  // namespace hatring::solve
