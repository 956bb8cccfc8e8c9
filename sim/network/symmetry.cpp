// SPDX-License-Identifier: MIT
#include "sim/network/symmetry.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

#include "sim/network/index.hpp"

namespace hatring::network {
namespace {

// Without the round-off of sums that were made in another order; what is not a number is equal to nothing else.
double rounded(double x) {
  constexpr int kBits = 40;
  if (std::isnan(x)) return std::numeric_limits<double>::lowest();
  int exponent = 0;
  const double part = std::frexp(x, &exponent);
  return std::ldexp(std::nearbyint(std::ldexp(part, kBits)), exponent - kBits);
}

// Numbers things from 0, equal ones alike.
template <class Key>
class Numbers {
 public:
  int operator()(Key key) { return known_.try_emplace(std::move(key), static_cast<int>(known_.size())).first->second; }
  [[nodiscard]] std::size_t size() const { return known_.size(); }

 private:
  std::map<Key, int> known_;
};

// Colours of nodes, in all networks together.
class Colours {
 public:
  Colours(const std::vector<const Network*>& networks, const std::vector<std::vector<double>>& heats)
      : ends_(networks.front()->nodes.size()) {
    const Network& first = *networks.front();
    Numbers<std::vector<double>> own, exchanges;
    for (std::size_t i = 0; i < ends_.size(); ++i) {
      std::vector<double> holds{static_cast<double>(first.nodes[i].part)};
      for (std::size_t n = 0; n < networks.size(); ++n) {
        const Node& node = networks[n]->nodes[i];
        holds.insert(holds.end(),
                     {static_cast<double>(node.content), rounded(node.mass), rounded(heats[n][i] / node.mass)});
      }
      colour_.push_back(own(std::move(holds)));
    }
    // Both ends of item k of a list see its numbers, each from its own side.
    const auto list = [&](auto Network::*items, int kind, bool sided, const auto& ends_of, const auto& numbers) {
      for (std::size_t k = 0; k < (first.*items).size(); ++k) {
        const auto [a, b] = ends_of((first.*items)[k]);
        for (const bool from_a : {true, false}) {
          const NodeId here = from_a ? a : b, there = from_a ? b : a;
          if (here < 0) continue;
          std::vector<double> passes{static_cast<double>(2 * kind + (sided && !from_a ? 1 : 0))};
          for (const Network* net : networks)
            for (const double x : numbers((net->*items)[k], from_a)) passes.push_back(rounded(x));
          ends_[at(here)].emplace_back(there, exchanges(std::move(passes)));
        }
      }
    };
    list(
        &Network::links, 0, false,
        [](const Link& l) {
          return std::pair{l.a, l.b};
        },
        [](const Link& l, bool from_a) {
          return std::array{from_a ? l.shape_a : l.shape_b, from_a ? l.shape_b : l.shape_a, l.resistance, l.pressed};
        });
    list(
        &Network::rubbings, 1, true,
        [](const Rubbing& r) {
          return std::pair{r.ring, r.pad};
        },
        [](const Rubbing& r, bool) {
          return std::array{r.share, r.contact, r.shape_ring, r.shape_pad};
        });
    list(
        &Network::surfaces, 2, true,
        [](const Surface& s) {
          return std::pair{s.node, s.air};
        },
        [](const Surface& s, bool) {
          return std::array{static_cast<double>(s.table), s.scale};
        });
    list(
        &Network::radiations, 3, false,
        [](const Radiation& r) {
          return std::pair{r.a, r.b};
        },
        [](const Radiation& r, bool) { return std::array{r.factor}; });
  }

  // Nodes of one colour part that exchange with differing colours, or differently. \returns the number of colours
  std::size_t refine() {
    Numbers<std::pair<int, std::vector<std::pair<int, int>>>> next;
    std::vector<int> refined;
    refined.reserve(colour_.size());
    for (std::size_t i = 0; i < ends_.size(); ++i) {
      std::vector<std::pair<int, int>> ends;
      ends.reserve(ends_[i].size());
      for (const auto& [there, passes] : ends_[i]) ends.emplace_back(there < 0 ? -1 : colour_[at(there)], passes);
      std::sort(ends.begin(), ends.end());
      refined.push_back(next({colour_[i], std::move(ends)}));
    }
    colour_ = std::move(refined);
    return next.size();
  }

  [[nodiscard]] const std::vector<int>& colour() const { return colour_; }

 private:
  std::vector<std::vector<std::pair<NodeId, int>>> ends_;  // by node: the other end, and what passes between them
  std::vector<int> colour_;
};

// Weights of the groups.
Weights merged(const Weights& whole, const Symmetry& symmetry) {
  Weights out;
  for (const auto& [node, weight] : whole) {
    const int group = symmetry.group[at(node)];
    const auto known =
        std::find_if(out.begin(), out.end(), [group](const auto& entry) { return entry.first == group; });
    if (known == out.end())
      out.emplace_back(group, weight);
    else
      known->second += weight;
  }
  return out;
}

}  // namespace

Eigen::VectorXd Symmetry::spread(const Eigen::VectorXd& heat) const {
  Eigen::VectorXd out(static_cast<Eigen::Index>(group.size()));
  for (std::size_t i = 0; i < group.size(); ++i)
    out[static_cast<Eigen::Index>(i)] = heat[group[i]] / members[at(group[i])];
  return out;
}

Symmetry symmetry(const std::vector<const Network*>& networks, const std::vector<std::vector<double>>& heats) {
  Colours colours(networks, heats);
  for (std::size_t before = 0, now = colours.refine(); now > before;) {
    before = now;
    now = colours.refine();
  }
  Symmetry out;
  out.group = colours.colour();
  for (std::size_t i = 0; i < out.group.size(); ++i) {
    if (at(out.group[i]) == out.first.size()) {
      out.first.push_back(static_cast<NodeId>(i));
      out.members.push_back(0);
    }
    ++out.members[at(out.group[i])];
  }
  return out;
}

Network reduced(const Network& whole, const Symmetry& symmetry) {
  Network out;
  out.ambient = whole.ambient;
  out.contents = whole.contents;
  out.materials = whole.materials;
  out.grid = whole.grid;
  out.tables = whole.tables;
  out.fixed_ring_share = whole.fixed_ring_share;
  for (std::size_t g = 0; g < symmetry.first.size(); ++g) {
    out.nodes.push_back(whole.nodes[at(symmetry.first[g])]);
    out.nodes.back().mass *= symmetry.members[g];
  }
  const auto members = [&](NodeId i) { return i < 0 ? 1 : symmetry.members[at(symmetry.group[at(i)])]; };
  const auto is_first = [&](NodeId i) { return i < 0 || symmetry.first[at(symmetry.group[at(i)])] == i; };
  // What passes between two groups is what passes to one node of the larger, as often as that group has nodes.
  const auto keep = [&](auto items, auto& to, auto a, auto b, const auto& times) {
    for (auto item : items) {
      NodeId &from = item.*a, &onto = item.*b;
      const int of_from = members(from), of_onto = members(onto);
      if (!is_first(of_from >= of_onto ? from : onto)) continue;
      times(item, std::max(of_from, of_onto));
      from = symmetry.group[at(from)];
      if (onto >= 0) onto = symmetry.group[at(onto)];
      if (from != onto) to.push_back(std::move(item));
    }
  };
  keep(whole.links, out.links, &Link::a, &Link::b, [](Link& l, int n) {
    l.shape_a /= n;
    l.shape_b /= n;
    l.resistance /= n;
    l.pressed *= n;
  });
  keep(whole.rubbings, out.rubbings, &Rubbing::ring, &Rubbing::pad, [](Rubbing& r, int n) {
    r.share *= n;
    r.contact *= n;
    r.shape_ring /= n;
    r.shape_pad /= n;
  });
  keep(whole.surfaces, out.surfaces, &Surface::node, &Surface::air, [](Surface& s, int n) { s.scale *= n; });
  keep(whole.radiations, out.radiations, &Radiation::a, &Radiation::b, [](Radiation& r, int n) { r.factor *= n; });

  for (Face face : whole.faces) {
    // What enters and leaves the cell is that of all for which it stands.
    face.shape /= members(face.cell);
    face.cell = symmetry.group[at(face.cell)];
    if (face.below >= 0) face.below = symmetry.group[at(face.below)];
    out.faces.push_back(face);
  }
  out.relink_faces();
  for (const Probe& p : whole.probes) out.probes.push_back({p.name, p.long_name, merged(p.weights, symmetry)});
  for (const RingBand& band : whole.ring_bands)
    out.ring_bands.push_back({band.inner, band.outer, merged(band.mean, symmetry)});
  for (const std::size_t side : {0U, 1U}) {
    out.cheeks[side] = merged(whole.cheeks[side], symmetry);
    if (whole.pads[side] >= 0) out.pads[side] = symmetry.group[at(whole.pads[side])];
  }
  out.strains = whole.strains;
  return out;
}

}  // namespace hatring::network
