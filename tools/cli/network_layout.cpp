// SPDX-License-Identifier: MIT
#include "tools/cli/network_layout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "tools/cli/explanation.hpp"

namespace hatring::tools {
namespace {

using network::Part;

constexpr double kLeft = 58, kTop = 66, kGap = 14, kColumn = 45, kLeastWidth = 850, kRow = 46, kLeastRing = 150;
constexpr double kBoxHeight = 34, kLevel = 78, kFrame = 6, kToAir = 120, kBar = 44, kBetweenBars = 58;

// What a node's name says about its place; 0 where it says nothing.
struct Place {
  int band = 0, layer = 0;
  bool inboard = false;
};

Place place_of(const network::Node& n) {
  Place p;
  p.inboard = n.name.find(".inboard") != std::string::npos;
  const auto number = [&](const char* word) {
    const std::size_t at = n.name.find(word);
    return at == std::string::npos ? 0 : std::atoi(n.name.c_str() + at + std::string_view(word).size());
  };
  p.band = number(".band");
  p.layer = n.part == Part::hat ? number(".bell") : number(".layer");
  return p;
}

class Planner {
 public:
  Planner(const network::Network& net, const std::vector<Loss>& losses) : net_(net) {
    for (const Loss& l : losses) ++lines_[l.group];
    for (const network::Node& n : net.nodes) {
      const Place p = place_of(n);
      int& deepest = n.part == Part::ring ? layers_ : n.part == Part::pad ? pad_layers_ : bells_;
      if (n.part == Part::ring || n.part == Part::pad || n.part == Part::hat) deepest = std::max(deepest, p.layer);
      if (n.part == Part::ring) bands_ = std::max(bands_, p.band);
      if (n.name.starts_with("ring.vanes")) vanes_ = 1;
      if (n.part == Part::lug) lugs_ = true;
    }
    for (const network::Face& f : net.faces)
      first_swept_ = std::min(first_swept_, std::max(1, place_of(node(f.cell)).band));
    lump_ring_ = layers_ == 0;
    ring_columns_ = lump_ring_ ? 1 : 2 * layers_ + vanes_;
    columns_ = ring_columns_ + 2 * pad_layers_ + 2;
    column_ = std::max(kColumn, kLeastWidth / columns_);
    row_ = std::max(kRow, kLeastRing / bands_);
    right_ = kLeft + columns_ * column_;
    middle_ = kLeft + (1 + pad_layers_ + ring_columns_ / 2.0) * column_;
    set_levels();
  }

  Layout plan() {
    for (const network::Node& n : net_.nodes) {
      out_.nodes.push_back(placed(n));
      const Box& box = out_.nodes.back().box;
      const Box framed{box.x - kFrame, box.y - kFrame, box.w + 2 * kFrame, box.h + 2 * kFrame};
      if (n.part == Part::ring) out_.ring.include(framed);
      if (n.part == Part::hat) out_.hat.include(framed);
      if (n.part == Part::pad || n.part == Part::backing)
        (place_of(n).inboard ? out_.inner_pad : out_.outer_pad).include(framed);
    }
    out_.loss_top = {{Group::caliper, kTop + 10}, {Group::ring, ring_ - 22 - kLossPitch * (lines_[Group::ring] - 1)},
                     {Group::pad, bottom_ + 20},  {Group::hat, hat_ + 4},
                     {Group::hub, hub_ + 6},      {Group::wheel, hub_ + kBoxHeight + 16}};
    out_.outside = bar(1);
    out_.left = 18;
    out_.width = out_.outside.right() + 20;
    out_.height = end_ + 20;
    return std::move(out_);
  }

 private:
  [[nodiscard]] const network::Node& node(network::NodeId i) const { return net_.nodes[static_cast<std::size_t>(i)]; }

  void set_levels() {
    caliper_height_ = 14 + kLossPitch * std::max(1, lines_[Group::caliper]);
    fluid_ = kTop + caliper_height_ + 22;
    piston_ = fluid_ + 26 + 20;
    ring_ = piston_ + 30 + 44 + kLossPitch * std::max(0, lines_[Group::ring] - 1);
    bottom_ = ring_ + bands_ * row_ - kGap;
    lug_ = bottom_ + 56;
    hat_ = lugs_ ? lug_ + kLevel : bottom_ + 70;
    hub_ = hat_ + kLevel;
    end_ = hub_ + kBoxHeight + 20 + kLossPitch * lines_[Group::wheel];
  }

  // The air in the wheel (0) and outside (1) stand at the right from top to bottom.
  [[nodiscard]] Box bar(int i) const {
    return {right_ + kToAir + i * (kBar + kBetweenBars), kTop - 6, kBar, end_ - kTop};
  }
  [[nodiscard]] Box cell(double column, double row, double rows = 1) const {
    return {kLeft + column * column_ + kGap / 2, ring_ + row * row_, column_ - kGap, rows * row_ - kGap};
  }

  [[nodiscard]] NodeBox ring_box(const Place& p) const {
    const int first = pad_layers_ + 1;
    if (lump_ring_) return {cell(first, 0), "ring"};
    const double row = bands_ - p.band;
    if (p.layer == 0) return {cell(first + layers_, row), fmt::format("v{}", p.band)};
    const int column = p.inboard ? ring_columns_ - p.layer : p.layer - 1;
    return {cell(first + column, row), fmt::format("b{} l{}", p.band, p.layer)};
  }

  // Along the bell, from the flange under the lugs to the mounting face at the left.
  [[nodiscard]] NodeBox hat_box(const network::Node& n, const Place& p) const {
    const double pitch = std::min(112.0, (middle_ - kLeft - 20) / (bells_ + 1));
    const auto at = [&](int step) { return Box{middle_ - pitch * step - pitch / 2 + 8, hat_, pitch - 16, kBoxHeight}; };
    if (p.layer > 0) return {at(p.layer), fmt::format("bell {}", p.layer)};
    if (n.name == "hat.face") return {at(bells_ + 1), "hat face"};
    return {at(0), n.name == "hat" ? "hat" : "flange"};
  }

  [[nodiscard]] NodeBox pad_box(const network::Node& n, const Place& p) const {
    const int depth = n.part == Part::backing ? pad_layers_ + 1 : p.layer;
    const double column = p.inboard ? columns_ - 1 - (pad_layers_ + 1 - depth) : pad_layers_ + 1 - depth;
    const std::string label = n.part == Part::backing ? "backing plate" : fmt::format("pad layer {}", p.layer);
    return {cell(column, 0, bands_ - first_swept_ + 1), label, column_ < 110};
  }

  [[nodiscard]] NodeBox placed(const network::Node& n) const {
    const Place p = place_of(n);
    const double ring_half = ring_columns_ * column_ / 2;
    const auto centred = [&](double x, double y, double width, double height) {
      return Box{x - width / 2, y, width, height};
    };
    switch (n.part) {
      case Part::ring:
        return ring_box(p);
      case Part::hat:
        return hat_box(n, p);
      case Part::pad:
      case Part::backing:
        return pad_box(n, p);
      case Part::lug:
        return {centred(middle_, lug_, 96, kBoxHeight), "lugs"};
      case Part::fastener:
        return {centred(middle_ + 160, lug_, 96, kBoxHeight), "fasteners"};
      case Part::hub:
        return {centred(hub_middle(), hub_, 96, kBoxHeight), "hub"};
      case Part::wheel:
        return {centred(hub_middle() - 150, hub_, 96, kBoxHeight), "wheel"};
      case Part::piston:
        return {centred(middle_, piston_, 2 * std::min(110.0, ring_half - 26), 30), "pistons"};
      case Part::fluid:
        return {centred(middle_, fluid_, std::min(84.0, ring_half - 26), 28), "fluid"};
      case Part::caliper:
        return {{kLeft, kTop, right_ - kLeft, caliper_height_}, "caliper"};
      case Part::air:
        break;
    }
    return {bar(0), "air in the wheel", true};
  }

  // The wheel stands under the mounting face or as near to it as the page allows, the hub beside it.
  [[nodiscard]] double hub_middle() const {
    const double pitch = std::min(112.0, (middle_ - kLeft - 20) / (bells_ + 1));
    return std::max(kLeft + 48 + 150, middle_ - pitch * (bells_ + 1) + 110);
  }

  const network::Network& net_;
  std::map<Group, int> lines_;
  int layers_ = 0, bands_ = 1, pad_layers_ = 1, bells_ = 0, vanes_ = 0, first_swept_ = 1000;
  bool lugs_ = false, lump_ring_ = false;
  int ring_columns_ = 1, columns_ = 1;
  double column_ = 0, row_ = 0, right_ = 0, middle_ = 0, caliper_height_ = 0;
  double fluid_ = 0, piston_ = 0, ring_ = 0, bottom_ = 0, lug_ = 0, hat_ = 0, hub_ = 0, end_ = 0;
  Layout out_;
};

// The law without the numbers that tell its bands apart; a blunt body has but one.
std::string plain(const std::string& law) {
  for (const char* body : {"hat and hub", "caliper", "wheel"})
    if (law == body) return "convection";
  std::string out = law.substr(0, law.find_first_of("0123456789"));
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

}  // namespace

Group group_of(const network::Node& node) {
  switch (node.part) {
    case Part::ring:
      return Group::ring;
    case Part::lug:
    case Part::fastener:
      return Group::joint;
    case Part::hat:
      return Group::hat;
    case Part::pad:
    case Part::backing:
      return Group::pad;
    case Part::piston:
      return Group::piston;
    case Part::fluid:
      return Group::fluid;
    case Part::caliper:
      return Group::caliper;
    case Part::hub:
      return Group::hub;
    case Part::wheel:
      return Group::wheel;
    case Part::air:
      break;
  }
  return Group::air;
}

std::vector<Loss> losses_of(const network::Network& net, double speed) {
  std::vector<Loss> out;
  const auto loss = [&](network::NodeId from, std::string label, bool radiation, bool outside) -> Loss& {
    const Group group = group_of(net.nodes[static_cast<std::size_t>(from)]);
    for (Loss& l : out)
      if (l.group == group && l.label == label && l.radiation == radiation && l.outside == outside) return l;
    return out.emplace_back(
        Loss{.group = group, .label = std::move(label), .radiation = radiation, .outside = outside});
  };
  for (const network::Surface& s : net.surfaces)
    loss(s.node, plain(s.law), false, s.air == network::kAmbient).conductance += conductance_of(net, s, speed);
  for (const network::Radiation& r : net.radiations)
    if (r.b == network::kAmbient) loss(r.a, "radiation", true, true).factor += r.factor;
  return out;
}

Layout lay_out(const network::Network& network, const std::vector<Loss>& losses) {
  return Planner(network, losses).plan();
}

}  // namespace hatring::tools
