// SPDX-License-Identifier: MIT
#include "sim/solve/lane_system.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>
#include <utility>

#include "models/constants.hpp"
#include "sim/solve/interleave.hpp"

namespace hatring::solve {
namespace {

using network::at;
using network::kAmbient;
using network::Network;

// The rubbed pad layers and the air swing by hundreds of kelvin in moments; nothing is judged on them as finely as on
// the rest, so they are held looser. By trial: a fifth fewer steps at the same error of everything else.
constexpr double kLoosePad = 3, kLooseAir = 5;

// How far from where it was made an expansion is used, at the usual tolerance [K]. By trial: three expansions for ten
// steps, the same errors.
constexpr double kReach = 15, kReachPad = 45;

// Couplings slower than this are left out of the matrix [1/s] in steps up to kShort of their time constant; a W-method
// keeps its order with any matrix, and what is left out needs only to be slow. By trial on 59 to 510 nodes: the same
// steps and errors as with the whole matrix.
constexpr double kSlowest[] = {2, 0.5, 0};
constexpr double kShort = 0.35;

// One block of memory for arrays of so many numbers. Vectors that straddle two cache lines are slow: every array begins
// on a line of its own.
template <class Number, class Store>
void allot(std::vector<std::pair<Number**, std::size_t>> wanted, Store& store) {
  constexpr std::size_t kLine = 64 / sizeof(Number);
  std::size_t total = 0;
  for (auto& [array, size] : wanted) total += size = (size + kLine - 1) / kLine * kLine;
  store.assign(total, Number{0});
  Number* next = store.data();
  for (const auto& [array, size] : wanted) {
    *array = next;
    next += size;
  }
}

}  // namespace

bool alike(const Network& x, const Network& y) {
  const auto all = [](const auto& p, const auto& q, auto same) {
    return std::equal(p.begin(), p.end(), q.begin(), q.end(), same);
  };
  using network::Link, network::Node, network::Radiation, network::Rubbing, network::Surface;
  return all(x.nodes, y.nodes, [](const Node& p, const Node& q) { return p.part == q.part; }) &&
         all(x.links, y.links,
             [](const Link& p, const Link& q) {
               return p.a == q.a && p.b == q.b && (p.pressed > 0) == (q.pressed > 0);
             }) &&
         all(x.rubbings, y.rubbings,
             [](const Rubbing& p, const Rubbing& q) { return p.ring == q.ring && p.pad == q.pad; }) &&
         all(x.surfaces, y.surfaces,
             [](const Surface& p, const Surface& q) {
               return p.node == q.node && p.air == q.air && p.table == q.table;
             }) &&
         all(x.radiations, y.radiations,
             [](const Radiation& p, const Radiation& q) { return p.a == q.a && p.b == q.b; });
}

template <class Real>
LaneSystem<Real>::LaneSystem(std::vector<const Network*> networks, std::vector<LoadFunction> loads,
                             const WheelKernel<Real>& kernel)
    : networks_(std::move(networks)), loads_(std::move(loads)), kernel_(kernel) {
  if (std::ssize(networks_) != kernel.lanes || std::ssize(loads_) != kernel.lanes)
    throw std::invalid_argument("lanes: one network and one load a lane");
  if (!loads_.front()) throw std::invalid_argument("lanes: the first has no load");
  for (const Network* net : networks_) {
    net->validate();
    if (!alike(*networks_.front(), *net)) throw std::invalid_argument("lanes: the networks are not alike");
  }
  gather();
  for (Matrix& m : matrices_) {  // they stay where they are from here on
    m.plan.entry = m.entries.data();
    m.plan.factor = m.factor.plan();
  }
  lay_out();
  fill();
}

// The index lists of the plan, from the first network.
template <class Real>
void LaneSystem<Real>::gather() {
  const Network& net = *networks_.front();
  for (const bool pressed : {false, true}) {
    std::vector<int> links;
    std::vector<Ends> ends;
    for (int k = 0; k < static_cast<int>(net.links.size()); ++k) {
      const network::Link& l = net.links[at(k)];
      if ((l.pressed > 0) != pressed) continue;
      links.push_back(k);
      ends.push_back({l.a, l.b});
    }
    if (!pressed) plan_.plain = static_cast<int>(links.size());
    for (const int k : interleave(ends)) {
      link_of_.push_back(links[at(k)]);
      conductors_.push_back(ends[at(k)]);
    }
  }
  for (const auto& r : net.rubbings) rubbings_.push_back(Ends{r.ring, r.pad});
  for (const auto& r : net.radiations)
    if (r.b != kAmbient) pairs_.push_back(Ends{r.a, r.b});
  // Flows by node and air, the losses first.
  std::map<std::pair<int, int>, int> flow_of;
  for (const bool outside : {true, false})
    for (const network::Surface& s : net.surfaces) {
      if ((s.air == kAmbient) != outside) continue;
      if (!flow_of.try_emplace({s.node, s.air}, static_cast<int>(flow_of.size())).second) continue;
      if (outside)
        losses_.push_back(s.node);
      else
        exchanges_.push_back(Ends{s.node, s.air});
    }
  std::vector<const network::Surface*> surfaces;
  surfaces.reserve(net.surfaces.size());
  for (const auto& s : net.surfaces) surfaces.push_back(&s);
  // Surfaces of one table stand together: their look-ups find it in the cache.
  std::stable_sort(surfaces.begin(), surfaces.end(), [](const auto* a, const auto* b) {
    return std::pair{a->table, a->scale} < std::pair{b->table, b->scale};
  });
  for (const network::Surface* s : surfaces) {
    surfaces_.push_back({s->node, s->air, flow_of.at({s->node, s->air})});
    surface_of_.push_back(static_cast<int>(s - net.surfaces.data()));
  }
  for (int i = 0; i < net.size(); ++i)
    if (net.nodes[at(i)].part == network::Part::wheel) wheels_.push_back(i);
  plan_.nodes = net.size();
  plan_.wheels = static_cast<int>(wheels_.size());
  plan_.wheel = wheels_.data();
  plan_.conductors = static_cast<int>(conductors_.size());
  plan_.rubbings = static_cast<int>(rubbings_.size());
  plan_.exchanges = static_cast<int>(exchanges_.size());
  plan_.pairs = static_cast<int>(pairs_.size());
  plan_.losses = static_cast<int>(losses_.size());
  plan_.conductor = conductors_.data();
  plan_.rubbing = rubbings_.data();
  plan_.exchange = exchanges_.data();
  plan_.pair = pairs_.data();
  plan_.loss = losses_.data();
  plan_.surfaces = static_cast<int>(surfaces_.size());
  plan_.surface = surfaces_.data();
  using network::ConductanceGrid, network::ConductanceTable, network::HeatContent;
  plan_.table = {ConductanceGrid::kDifferences - 1, ConductanceTable::kRows, ConductanceGrid::kLowest,
                 ConductanceGrid::kInverseStep};
  plan_.last_cell = HeatContent::kCells - 1;
  plan_.cell = HeatContent::kCellNumbers;
  for (const double slowest : kSlowest) matrices_.push_back(matrix_of(slowest));
}

// Exchange of each coupling over the heat capacities at its ends [1/s], about as fast as it gets.
template <class Real>
std::vector<double> LaneSystem<Real>::coupling_rates() const {
  constexpr double kHot = 800, kBrisk = 50;  // [K], [m/s]
  const Network& net = *networks_.front();
  const network::SpeedWeights speed = net.grid.locate(kBrisk);
  std::vector<double> conductances;
  for (const int link : link_of_) conductances.push_back(net.conductance(net.links[at(link)], kHot, 1));
  for (const network::Rubbing& r : net.rubbings) conductances.push_back(r.contact);
  std::vector<double> exchanged(exchanges_.size(), 0);
  for (std::size_t k = 0; k < surfaces_.size(); ++k) {
    if (surfaces_[k].air < 0) continue;
    const network::Surface& surface = net.surfaces[at(surface_of_[k])];
    exchanged[at(surfaces_[k].flow - plan_.losses)] +=
        net.tables[at(surface.table)](speed, kHot - net.ambient) * surface.scale;
  }
  conductances.insert(conductances.end(), exchanged.begin(), exchanged.end());
  for (const network::Radiation& r : net.radiations)
    if (r.b != kAmbient) conductances.push_back(4 * models::kStefanBoltzmann * r.factor * kHot * kHot * kHot);
  std::size_t k = 0;
  for (const auto* list : {&conductors_, &rubbings_, &exchanges_, &pairs_})
    for (const Ends& e : *list)
      conductances[k++] *=
          1 / net.heat_capacity(net.nodes[at(e.a)], kHot) + 1 / net.heat_capacity(net.nodes[at(e.b)], kHot);
  return conductances;
}

template <class Real>
typename LaneSystem<Real>::Matrix LaneSystem<Real>::matrix_of(double slowest) const {
  const std::vector<double> rate = coupling_rates();
  std::vector<Ends> ends;
  for (const auto* list : {&conductors_, &rubbings_, &exchanges_, &pairs_})
    ends.insert(ends.end(), list->begin(), list->end());
  std::vector<std::pair<int, int>> kept;
  for (std::size_t k = 0; k < ends.size(); ++k)
    if (rate[k] >= slowest) kept.emplace_back(ends[k].a, ends[k].b);
  Matrix m;
  m.factor = SparseLdlt(plan_.nodes, kept);
  m.longest_step = slowest > 0 ? kShort / slowest : 1e300;
  for (std::size_t k = 0; k < ends.size(); ++k)
    if (rate[k] >= slowest)
      m.entries.push_back({static_cast<int>(k), m.factor.slot(ends[k].a, ends[k].a),
                           m.factor.slot(ends[k].b, ends[k].b), m.factor.slot(ends[k].a, ends[k].b)});
  m.plan.entries = static_cast<int>(m.entries.size());
  return m;
}

// Blocks of memory for all arrays.
template <class Real>
void LaneSystem<Real>::lay_out() {
  const int n = plan_.nodes, lanes = kernel_.lanes;
  std::vector<std::pair<Real**, std::size_t>> wanted;
  const auto want = [&](int items, std::initializer_list<Real**> arrays) {
    for (Real** a : arrays) wanted.emplace_back(a, at(items) * at(lanes));
  };
  WheelArrays<Real>& s = arrays_;
  want(n,
       {&s.inverse_cell_scale, &s.temperature, &s.warming, &s.bend, &s.resistivity, &s.resistivity_slope, &s.radiance,
        &s.unscale, &s.now, &s.change, &s.fourth, &s.increment, &s.right, &s.inverse_reach, &s.farthest, &s.moved});
  want(n, {&s.factor.capacity});
  want(plan_.flows(), {&s.convection.flow, &s.convection.slope, &s.convection.curvature, &s.convection.flow_by_speed,
                       &s.convection.slope_by_speed, &s.convection.bend_by_speed, &s.flow_now, &s.slope_now});
  want(plan_.surfaces, {&s.area, &s.difference, &s.root, &s.place, &s.surface_conductance, &s.surface_slope,
                        &s.surface_curvature, &s.part, &s.half_part});
  want(4 * plan_.surfaces, {&s.cubic});
  intervals_.assign(at(plan_.surfaces * lanes), 0);
  s.interval = intervals_.data();
  want(plan_.conductors, {&s.shape_a, &s.shape_b, &s.contact, &s.pressed, &s.conductance, &s.change_a, &s.change_b});
  want(plan_.rubbings, {&s.share, &s.rub_contact, &s.shape_ring, &s.shape_pad, &s.ring_half, &s.pad_half,
                        &s.ring_change, &s.pad_change});
  want(plan_.pairs, {&s.factor_pair});
  want(1, {&s.ambient, &s.fixed_share});
  const int entries = factor().entries();
  want(n + entries, {&s.factor.matrix, &s.factor.factor});
  want(plan_.couplings(), {&s.coupling});  // these three side by side: derivatives()
  want(n, {&s.outward});
  want(n * kLossRows, {&s.loss_rows});
  want(entries, {&s.factor.lower});
  want(n * StepMethod::kStages, {&s.stages});
  want(n + kIntegrals, {&s.start, &s.rates, &s.time_slope});
  want(kIntegrals, {&s.flow});
  allot(wanted, store_);
  const std::size_t per_node = at(n) * at(lanes);
  allot<double>({{&s.cell_scale, per_node}, {&s.cell_offset, per_node}, {&s.base, per_node}}, state_store_);
  moments_.resize(kMoments);
  for (LoadArrays& m : moments_) {
    for (auto* v : {&m.heat, &m.applied, &m.speed, &m.progress}) v->assign(at(lanes), 0.0);
    lane_loads_.push_back({m.heat.data(), m.applied.data(), m.progress.data()});
  }
  speeds_.resize(at(lanes));
  changes_.resize(at(lanes));
  base_speed_.assign(at(lanes), 0);
  way_.assign(at(lanes), 1);
}

// The numbers of every network that do not change.
template <class Real>
void LaneSystem<Real>::fill() {
  const Network& first = *networks_.front();
  cells_.resize(first.nodes.size() * networks_.size());
  tables_.resize(surfaces_.size() * networks_.size());
  looseness_.assign(first.nodes.size(), 1);
  reach_.assign(first.nodes.size(), kReach);
  for (const network::Rubbing& r : first.rubbings) {
    looseness_[at(r.pad)] = kLoosePad;
    reach_[at(r.pad)] = kReachPad;
  }
  for (int i = 0; i < plan_.nodes; ++i)
    if (first.nodes[at(i)].part == network::Part::air) looseness_[at(i)] = kLooseAir;
  WheelArrays<Real>& s = arrays_;
  const auto put = [](Real& to, double value) { to = static_cast<Real>(value); };
  for (int lane = 0; lane < lanes(); ++lane) {
    const Network& net = *networks_[at(lane)];
    highest_speed_.push_back(net.grid.highest_speed());
    for (int i = 0; i < plan_.nodes; ++i) {
      const network::Node& node = net.nodes[at(i)];
      const network::HeatContent& content = net.contents[at(node.content)];
      cells_[slot(i, lane)] = content.cells();
      s.cell_scale[slot(i, lane)] = content.inverse_step() / node.mass;
      s.cell_offset[slot(i, lane)] = -content.lowest() * content.inverse_step();
      put(s.inverse_cell_scale[slot(i, lane)], node.mass / content.inverse_step());
    }
    for (int k = 0; k < plan_.conductors; ++k) {
      const network::Link& l = net.links[at(link_of_[at(k)])];
      put(s.shape_a[slot(k, lane)], l.shape_a);
      put(s.shape_b[slot(k, lane)], l.shape_b);
      put(s.contact[slot(k, lane)], l.resistance);
      put(s.pressed[slot(k, lane)], l.pressed);
    }
    for (int k = 0; k < plan_.rubbings; ++k) {
      const network::Rubbing& r = net.rubbings[at(k)];
      put(s.share[slot(k, lane)], r.share);
      put(s.rub_contact[slot(k, lane)], 1 / std::max(r.contact, 1e-12));
      put(s.shape_ring[slot(k, lane)], r.shape_ring);
      put(s.shape_pad[slot(k, lane)], r.shape_pad);
    }
    int pair = 0;
    for (const network::Radiation& r : net.radiations) {
      const double factor = models::kStefanBoltzmann * r.factor;
      if (r.b == kAmbient)
        s.radiance[slot(r.a, lane)] += static_cast<Real>(factor);
      else
        put(s.factor_pair[slot(pair++, lane)], factor);
    }
    for (int k = 0; k < plan_.surfaces; ++k) {
      const network::Surface& surface = net.surfaces[at(surface_of_[at(k)])];
      const network::ConductanceTable& table = net.tables[at(surface.table)];
      tables_[slot(k, lane)] = table.cubics();
      put(s.area[slot(k, lane)], surface.scale * table.factor());
    }
    put(s.ambient[lane], net.ambient);
    put(s.fixed_share[lane], net.fixed_ring_share);
  }
  s.cells = cells_.data();
  s.table = tables_.data();
}

template class LaneSystem<double>;
template class LaneSystem<float>;

}  // namespace hatring::solve
