// SPDX-License-Identifier: MIT
#include "tools/cli/network_svg.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "models/material.hpp"
#include "tools/cli/network_layout.hpp"
#include "tools/cli/svg.hpp"

namespace hatring::tools {
namespace {

using network::Part;

constexpr const char* kHeatColour = "#a8201a";

double line_width(double conductance) {
  return std::clamp(1.8 + 1.1 * std::log10(std::max(conductance, 1e-3)), 0.7, 6.5);
}

// Fill, border and corner together tell the parts apart, in black and white too.
Svg::Fill look(Part part) {
  switch (part) {
    case Part::ring:
      return {"#f6d3b5", 1, 2};
    case Part::lug:
      return {"#eeb98a", 2, 2};
    case Part::fastener:
      return {"#d3cfe3", 2, 12};
    case Part::hat:
      return {"#c8dff2", 1.5, 10};
    case Part::hub:
      return {"#dcdfca", 2, 6};
    case Part::pad:
      return {"#e6dfcf", 1, 6};
    case Part::backing:
      return {"#c9c4ba", 2.5, 2};
    case Part::piston:
      return {"#f1e9b3", 1.5, 15};
    case Part::caliper:
      return {"#f6cbc8", 2, 8};
    case Part::fluid:
      return {"#d3efdd", 1, 14};
    case Part::air:
      return {"#ffffff", 1.5, 10, Svg::Dash::dashed};
    case Part::wheel:
      return {"#e4e7ea", 3, 10};
  }
  return {};
}

class Drawing {
 public:
  Drawing(const Explanation& e, session::Axle axle)
      : e_(e), net_(e.of(axle)), losses_(losses_of(net_, e.speed)), plan_(lay_out(net_, losses_)) {
    title_ =
        fmt::format("{}, one wheel: {}", axle == session::Axle::front ? "Front" : "Rear", e.c.brake(axle).rotor.name);
  }

  std::string draw() {
    frames();
    const network::NodeId air = net_.find("wheel_air");
    if (air >= 0) svg_.box(at(air).box, look(Part::air));  // lines to the outside run across it
    losses();
    inner_radiation();
    links();
    rubbings();
    nodes();
    words();
    return svg_.document(std::max(plan_.width, 1000.0), plan_.height + 72, title_);
  }

 private:
  [[nodiscard]] const NodeBox& at(network::NodeId i) const { return plan_.nodes[static_cast<std::size_t>(i)]; }
  [[nodiscard]] const network::Node& node(network::NodeId i) const { return net_.nodes[static_cast<std::size_t>(i)]; }

  void frames() {
    for (const Box& frame : {plan_.ring, plan_.hat, plan_.outer_pad, plan_.inner_pad})
      svg_.box(frame, {"#fafafa", 0.6, 8});
    svg_.box(plan_.outside, {"#ffffff", 1.5, 10, Svg::Dash::dotted});
    const Point middle = plan_.outside.middle();
    svg_.text({middle.x + 4, middle.y}, "outside air", {.size = 13, .upright = true, .bold = true});
  }

  // Where the line of the k-th loss of a group leaves its part, at height y.
  [[nodiscard]] std::vector<Point> loss_start(Group group, double y, int k) const {
    const auto box_of = [&](Group wanted) {
      Box out;
      for (network::NodeId i = 0; i < net_.size(); ++i)
        if (group_of(node(i)) == wanted) out.include(at(i).box);
      return out;
    };
    switch (group) {
      case Group::ring: {
        // The longest way out starts leftmost, so that the lines do not cross.
        const auto all =
            std::count_if(losses_.begin(), losses_.end(), [](const Loss& l) { return l.group == Group::ring; });
        const double x = plan_.ring.right() - 12 * static_cast<double>(all - k);
        return {{x, plan_.ring.y}, {x, y}};
      }
      case Group::pad: {
        const double x = plan_.outer_pad.middle().x + 8 * k;
        return {{x, plan_.outer_pad.bottom()}, {x, y}};
      }
      case Group::hat:
        return {{plan_.hat.right(), y}};
      case Group::wheel: {
        const double x = box_of(group).right() - 14 - 12 * k;
        return {{x, box_of(group).bottom()}, {x, y}};
      }
      default:
        return {{box_of(group).right(), y}};
    }
  }

  void losses() {
    std::map<Group, int> count;
    const network::NodeId air = net_.find("wheel_air");
    const double to_air = air >= 0 ? at(air).box.x : plan_.outside.x;
    for (const Loss& l : losses_) {
      if (l.group == Group::air) {
        exchange(l);
        continue;
      }
      const int k = count[l.group]++;
      const double y = plan_.loss_top.at(l.group) + kLossPitch * k;
      std::vector<Point> path = loss_start(l.group, y, k);
      path.push_back({l.outside ? plan_.outside.x : to_air, y});
      const std::string label = l.radiation ? fmt::format("{} {:.4f} m2", l.label, l.factor)
                                            : fmt::format("{} {:.3g} W/K", l.label, l.conductance);
      const Svg::Line style{.width = l.radiation ? 2.2 : line_width(l.conductance),
                            .dash = l.radiation ? Svg::Dash::dotted : Svg::Dash::dashed,
                            .arrow = true};
      svg_.line(path, style, label + (l.outside ? ", to the outside air" : ", to the air in the wheel"));
      if (l.group == Group::pad) {
        const double x = plan_.inner_pad.middle().x + 8 * k;
        svg_.line({{x, plan_.inner_pad.bottom()}, {x, y}}, {.width = style.width, .dash = style.dash});
      }
      notes_.push_back({{to_air - 12, y - 3}, label});
    }
  }

  // The air in the wheel is renewed from outside.
  void exchange(const Loss& l) {
    const Box from = at(net_.find("wheel_air")).box;
    const double y = from.y + 0.72 * from.h;
    svg_.line({{from.right(), y}, {plan_.outside.x, y}},
              {.width = line_width(l.conductance), .dash = Svg::Dash::dashed, .arrow = true}, l.label);
    const double x = (from.right() + plan_.outside.x) / 2;
    notes_.push_back({{x, y - 20}, "exchange", "middle"});
    notes_.push_back({{x, y - 8}, fmt::format("{:.3g} W/K", l.conductance), "middle"});
  }

  // Ring to caliper upward, ring to bell downward.
  void inner_radiation() {
    double up = 0, down = 0;
    Box caliper;
    for (const network::Radiation& r : net_.radiations) {
      if (r.b == network::kAmbient) continue;
      (node(r.b).part == Part::caliper ? up : down) += r.factor;
      if (node(r.b).part == Part::caliper) caliper = at(r.b).box;
    }
    const Svg::Line style{.width = 2.2, .dash = Svg::Dash::dotted};
    const auto label = [](double factor) { return fmt::format("radiation {:.4f} m2", factor); };
    if (up > 0) {
      const double x = plan_.ring.x + 10;
      svg_.line({{x, plan_.ring.y}, {x, caliper.bottom()}}, style, "ring to caliper, " + label(up));
      notes_.push_back({{x - 4, plan_.ring.y - 26}, label(up), "end"});
    }
    if (down > 0) {
      const double x = plan_.ring.middle().x - 62;
      svg_.line({{x, plan_.ring.bottom()}, {x, plan_.hat.y}}, style, "ring to bell, " + label(down));
      notes_.push_back({{x - 6, plan_.hat.y - 22}, label(down), "end"});
    }
  }

  // Most links run straight from middle to middle, under the boxes; those around the caliper keep to the free columns.
  [[nodiscard]] std::vector<Point> path_of(const network::Link& l) const {
    const Box a = at(l.a).box, b = at(l.b).box;
    const double inward = a.middle().x < b.middle().x ? 6 : -6;
    if (l.family == "pad_piston") {
      const double x = a.middle().x + inward;
      return {{x, a.y}, {x, b.middle().y}, b.middle()};
    }
    if (l.family == "pad_caliper") {
      const double x = a.middle().x - inward;
      return {{x, a.y}, {x, b.bottom()}};
    }
    if (l.family == "piston_caliper") {
      const double x = a.x + 0.16 * a.w;
      return {{x, a.y}, {x, b.bottom()}};
    }
    if (l.family == "fluid_caliper") return {a.middle(), {a.middle().x, b.bottom()}};
    if (l.family == "caliper_wheel")
      return {{a.x, a.middle().y}, {plan_.left, a.middle().y}, {plan_.left, b.middle().y}, b.middle()};
    return {a.middle(), b.middle()};
  }

  void links() {
    std::map<std::string, int> members;
    for (const network::Link& l : net_.links) ++members[l.family];
    for (const network::Link& l : net_.links) {
      const double g = net_.conductance(l, models::kReferenceTemperature);
      const std::vector<Point> path = path_of(l);
      svg_.line(path, {.width = line_width(g)},
                fmt::format("{}: {} to {}, {:.4g} W/K", l.family, node(l.a).name, node(l.b).name, g));
      const bool crowded = l.family == "ring" || l.family == "pad" || l.family == "ring_pad" || l.family == "hat" ||
                           members[l.family] > 4;
      if (crowded) continue;
      const Point from = path[path.size() - 2], to = path.back();
      Point middle{(from.x + to.x) / 2, (from.y + to.y) / 2 + 4};
      if (l.family == "pad_piston") middle = {from.x + (from.x < to.x ? 8 : -8), from.y - 5};
      if (l.family == "pad_caliper") middle = {to.x, (from.y + 2 * to.y) / 3};
      if (l.family == "caliper_wheel") middle = {plan_.left + 5, (at(l.a).box.bottom() + to.y) / 2};
      const char* anchor = l.family == "caliper_wheel" || (l.family == "pad_piston" && from.x < to.x) ? "start"
                           : l.family == "pad_piston"                                                 ? "end"
                                                                                                      : "middle";
      notes_.push_back({middle, fmt::format("{:.3g}", g), anchor});
    }
  }

  // Where the heat comes in.
  void rubbings() {
    for (const network::Rubbing& r : net_.rubbings) {
      const Box ring = at(r.ring).box, pad = at(r.pad).box;
      const bool outboard = pad.x < ring.x;
      const double y = ring.middle().y + 9;
      svg_.line({{outboard ? pad.right() - 3 : pad.x + 3, y}, {outboard ? ring.x + 3 : ring.right() - 3, y}},
                {.width = 4.5, .colour = kHeatColour},
                fmt::format("rubbing: {} on {}, {:.1f} % of the heat, contact {:.4g} W/K while applied",
                            node(r.pad).name, node(r.ring).name, 100 * r.share, r.contact));
    }
  }

  void nodes() {
    for (network::NodeId i = 0; i < net_.size(); ++i) {
      const NodeBox& b = at(i);
      const network::Node& n = node(i);
      const double capacity = net_.heat_capacity(n, models::kReferenceTemperature);
      svg_.box(b.box, n.part == Part::air ? Svg::Fill{.border = 0} : look(n.part),
               fmt::format("{}: {:.3f} kg of {}, {:.4g} J/K at 20 C", n.name, n.mass,
                           net_.materials[static_cast<std::size_t>(n.content)], capacity));
      const Point m = b.box.middle();
      const std::string heat = fmt::format("{:.0f}{}", capacity, b.box.w < 60 ? "" : " J/K");
      if (b.upright) {
        svg_.text({m.x - 3, m.y}, b.label, {.upright = true, .bold = true});
        svg_.text({m.x + 11, m.y}, fmt::format("{:.3g} J/K", capacity), {.upright = true});
      } else {
        svg_.text({m.x, m.y - 2}, b.label, {.size = b.box.w < 60 ? 10.0 : 11.0, .bold = b.box.w >= 60});
        svg_.text({m.x, m.y + 11}, heat, {});
      }
    }
  }

  void words() {
    for (const Note& n : notes_) svg_.text(n.at, n.words, {.size = 10, .anchor = n.anchor});
    svg_.text({20, 24}, title_, {.size = 17, .anchor = "start", .bold = true});
    svg_.text({20, 44},
              fmt::format("{}; mesh {}, {} nodes, {} links. Heat capacities in J/K and conductances in W/K at 20 C.",
                          e_.c.name, session::mesh_name(e_.c.physics.mesh), net_.nodes.size(), net_.links.size()),
              {.size = 12, .anchor = "start"});
    if (net_.find("ring") < 0)
      svg_.text({plan_.ring.x + 18, plan_.ring.y - 5}, "ring: b band from the bore, l layer from the face, v vanes",
                {.anchor = "start"});
    legend();
  }

  void legend() {
    const double y = plan_.height + 8;
    double x = 20;
    const auto entry = [&](const Svg::Line& style, const std::string& words, double width) {
      svg_.line({{x, y}, {x + 34, y}}, style);
      svg_.text({x + 42, y + 4}, words, {.anchor = "start"});
      x += width;
    };
    entry({.width = line_width(0.1)}, "0.1", 80);
    entry({.width = line_width(10)}, "10", 75);
    entry({.width = line_width(1000)}, "1000 W/K conduction", 185);
    entry({.width = 4.5, .colour = kHeatColour}, "rubbing: heat comes in", 195);
    entry({.width = 2.5, .dash = Svg::Dash::dashed, .arrow = true}, "convection", 130);
    entry({.width = 2.2, .dash = Svg::Dash::dotted, .arrow = true}, "radiation: emissivity x area x view", 250);
    svg_.text({20, y + 30},
              fmt::format("Convection is that of all surfaces of a part at {:.0f} km/h, {:.0f} C over the air. Pads "
                          "released. Outboard is left. Not to scale.",
                          e_.speed * 3.6, kShownDifference),
              {.anchor = "start"});
    svg_.text({20, y + 50},
              "An estimate of how heat can flow, not a drawing of the parts. Rest the pointer on a box or a line for "
              "its numbers.",
              {.anchor = "start"});
  }

  struct Note {
    Point at;
    std::string words;
    const char* anchor = "end";
  };
  const Explanation& e_;
  const network::Network& net_;
  std::vector<Loss> losses_;
  Layout plan_;
  std::vector<Note> notes_;
  std::string title_;
  Svg svg_;
};

}  // namespace

std::string network_svg(const Explanation& e, session::Axle axle) {
  return Drawing(e, axle).draw();
}

}  // namespace hatring::tools
