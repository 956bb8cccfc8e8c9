// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "models/constants.hpp"
#include "models/material.hpp"
#include "models/radiation.hpp"
#include "sim/network/assumed.hpp"
#include "sim/network/origin.hpp"
#include "tools/cli/explanation.hpp"
#include "tools/cli/summary.hpp"

namespace hatring::tools {
namespace {

// A paragraph, every line of it moved in.
std::string paragraph(const std::string& text, std::size_t indent) {
  std::string out = std::string(indent, ' ');
  for (const char c : wrapped(text, kTextWidth - indent, 0)) {
    out += c;
    if (c == '\n') out += std::string(indent, ' ');
  }
  return out + "\n";
}

// Rows that belong together, in the order in which they first come.
template <class Row>
class Groups {
 public:
  Row& operator[](const std::string& key) {
    for (auto& [name, row] : rows_)
      if (name == key) return row;
    return rows_.emplace_back(key, Row{}).second;
  }
  [[nodiscard]] auto begin() const { return rows_.begin(); }
  [[nodiscard]] auto end() const { return rows_.end(); }

 private:
  std::vector<std::pair<std::string, Row>> rows_;
};

// "ring.outboard.band2.layer4" and its like are one row: "ring.outboard.band*.layer*".
std::string alike(const std::string& name) {
  std::string out;
  for (const char c : name) {
    const bool digit = c >= '0' && c <= '9';
    if (!digit)
      out += c;
    else if (out.empty() || out.back() != '*')
      out += '*';
  }
  return out;
}

void session_part(std::string& out, const Explanation& e, const DisplayUnits& units) {
  out += fmt::format("SESSION {:>29}{:>13}{:>29}\n", "time", "distance", "heat of a front wheel");
  double total = 0;
  for (std::size_t i = 0; i < e.front_heat.size(); ++i) {
    const session::Span& s = e.drive.spans()[i];
    total += e.front_heat[i];
    out += fmt::format("  {:<25.25}{:>10}{:>13}{:>29}\n", s.label, clock_time(s.end - s.begin),
                       units.road_distance(s.end_distance - s.begin_distance), units.energy(e.front_heat[i]));
  }
  out += fmt::format("  {:<25}{:>10}{:>13}{:>29}\n", "all", clock_time(e.drive.duration()),
                     units.road_distance(e.drive.spans().empty() ? 0 : e.drive.spans().back().end_distance),
                     units.energy(total));
  if (e.c.brakes.share_law == session::ShareLaw::hydraulic)
    out += "  Front share by hydraulics, pads in mid-window; a run settles it.\n";
  const session::DriveEnergy& w = e.drive.energy();
  const double in = w.kinetic - w.off_brake;
  const double out_of = w.brake + w.tyre_slip + w.clipped + w.drag + w.rolling + w.grade + w.engine;
  out += fmt::format("  {} brakings. Energy of the whole car over the session, benches left out:\n",
                     e.drive.brakings().size());
  const auto row = [&](const char* what, double value) {
    out += fmt::format("    {:<54}{:>21}\n", what, units.energy(value));
  };
  row("in: driving force, less braking too slight for brakes", -w.off_brake);
  row("in: kinetic energy lost from start to end", w.kinetic);
  row("together", in);
  row("out: friction brakes", w.brake);
  row("out: tyres, by slip under braking", w.tyre_slip);
  row("out: air drag", w.drag);
  row("out: rolling", w.rolling);
  row("out: climbing", w.grade);
  row("out: engine braking", w.engine);
  row("out: in brakings, where no brake is needed", w.clipped);
  row("together", out_of);
  out += fmt::format("    the two sums differ by {:.0e} of the brakes' heat\n",
                     w.brake > 0 ? std::abs(in - out_of) / w.brake : 0.0);
}

void nodes_part(std::string& out, const network::Network& net, const DisplayUnits& units) {
  struct Row {
    int count = 0;
    double mass = 0, capacity = 0, coldest = 1e9, hottest = 0;
    std::string material;
  };
  Groups<Row> rows;
  for (const network::Node& n : net.nodes) {
    Row& row = rows[alike(n.name)];
    ++row.count;
    row.mass += n.mass;
    row.capacity += net.heat_capacity(n, kShownCold);
    row.coldest = std::min(row.coldest, n.temperature);
    row.hottest = std::max(row.hottest, n.temperature);
    row.material = net.materials[static_cast<std::size_t>(n.content)];
  }
  out += fmt::format("  {:<32} {:<17}{:>9}{:>9}{:>10}\n", "nodes, alike ones together", "material", "mass",
                     units.heat_capacity_unit(), "start");
  for (const auto& [name, row] : rows)
    out += fmt::format("    {:<27.27}{:>3} {:<17.17}{:>9}{:>9.4g}{:>10}\n", name, row.count, row.material,
                       units.mass(row.mass), units.heat_capacity_number(row.capacity),
                       row.hottest > row.coldest ? fmt::format("to {}", units.temperature(row.hottest))
                                                 : units.temperature(row.coldest));
}

void links_part(std::string& out, const Explanation& e, session::Axle axle, const DisplayUnits& units) {
  const network::Network& net = e.of(axle);
  struct Row {
    int count = 0;
    double cold = 0, hot = 0, applied = 0;
  };
  Groups<Row> rows;
  for (const network::Link& l : net.links) {
    Row& row = rows[l.family];
    ++row.count;
    row.cold += net.conductance(l, kShownCold);
    row.hot += net.conductance(l, kShownHot);
    row.applied += net.conductance(l, kShownCold, 1);
  }
  out += fmt::format("  {:<46}{:>15}{:>15}\n", "links, a family's conductances added up",
                     fmt::format("W/K at {}", units.temperature(kShownCold)),
                     fmt::format("at {}", units.temperature(kShownHot)));
  for (const auto& [family, row] : rows) {
    out += fmt::format("    {:<44}{:>15.4g}{:>15.4g}\n", fmt::format("{} ({})", family, row.count), row.cold, row.hot);
    std::string text = origin_of_links(e.c, axle, family);
    if (row.applied > 1.001 * row.cold)
      text += fmt::format("; {:.4g} W/K at {} while the pads are applied", row.applied, units.temperature(kShownCold));
    out += paragraph(text, 8);
  }
}

void surfaces_part(std::string& out, const Explanation& e, session::Axle axle, const DisplayUnits& units) {
  const network::Network& net = e.of(axle);
  struct Row {
    double scale = 0, rest = 0, moving = 0;
    bool by_area = true;
  };
  // Laws that rest on the same ground stand together above it.
  Groups<Groups<Row>> grounds;
  for (const network::Surface& s : net.surfaces) {
    const char* where = s.air == network::kAmbient ? "outside air" : "the air in the wheel";
    Row& row = grounds[fmt::format("to {}: {}", where, origin_of_surfaces(e.c, s.law))][s.law];
    row.scale += s.scale;
    row.rest += conductance_of(net, s, 0);
    row.moving += conductance_of(net, s, e.speed);
    row.by_area = network::origin_of_law(s.law).by_area;
  }
  out += fmt::format("  {:<36}{:>11}{:>14}{:>15}\n",
                     fmt::format("surfaces at {} over air", units.temperature_step(kShownDifference)), "size",
                     "W/K at rest", fmt::format("at {}", units.road_speed(e.speed)));
  for (const auto& [ground, rows] : grounds) {
    for (const auto& [law, row] : rows)
      out += fmt::format("    {:<34.34}{:>11}{:>14.4g}{:>15.4g}\n", law,
                         row.by_area ? fmt::format("{:.4f} m2", row.scale) : "whole", row.rest, row.moving);
    out += paragraph(ground, 8);
  }
  if (net.surfaces.empty()) out += "    none\n";
}

void radiation_part(std::string& out, const Explanation& e, const network::Network& net, const DisplayUnits& units) {
  struct Row {
    int count = 0;
    double factor = 0;
  };
  Groups<Row> rows;
  for (const network::Radiation& r : net.radiations) {
    Row& row = rows[alike(node_name(net, r.a)) + " to " + alike(node_name(net, r.b))];
    ++row.count;
    row.factor += r.factor;
  }
  out += fmt::format("  {:<51}{:>11}{:>14}\n", "radiation, grey: emissivity x area x view", "size",
                     fmt::format("W at {}", units.temperature(kShownHot)));
  for (const auto& [path, row] : rows)
    out += fmt::format("    {:<49.49}{:>11}{:>14.4g}\n", fmt::format("{} ({})", path, row.count),
                       fmt::format("{:.4f} m2", row.factor),
                       row.factor * models::grey_flux(1, kShownHot, e.c.air.temperature));
  if (net.radiations.empty()) out += "    none\n";
}

void rubbing_part(std::string& out, const network::Network& net) {
  struct Row {
    std::vector<double> shares;
    double share = 0, contact = 0;
  };
  Groups<Row> rows;
  for (const network::Rubbing& r : net.rubbings) {
    Row& row = rows[node_name(net, r.pad)];
    row.shares.push_back(r.share);
    row.share += r.share;
    row.contact += r.contact;
  }
  out += fmt::format("  {:<46}{:>15}{:>15}\n", "rubbing", "of the heat", "contact, W/K");
  for (const auto& [pad, row] : rows) {
    out += fmt::format("    {:<44}{:>13.1f} %{:>15.4g}\n", fmt::format("{} on {} band(s)", pad, row.shares.size()),
                       100 * row.share, row.contact);
    if (row.shares.size() < 2) continue;
    std::string bands;
    for (const double s : row.shares) bands += fmt::format("{}{:.1f}", bands.empty() ? "" : ", ", 100 * s);
    out += paragraph(fmt::format("bands from the bore outward: {} %", bands), 8);
  }
  out += paragraph(partition_text(net), 8);
}

void mass_part(std::string& out, const Explanation& e, session::Axle axle, const DisplayUnits& units) {
  const network::Network& net = e.of(axle);
  const session::Rotor& rotor = e.c.brake(axle).rotor;
  out += "  masses\n";
  const auto row = [&](const char* part, double geometry, const std::optional<double>& weighed) {
    out += fmt::format("    {}: {} from its dimensions, {}\n", part, units.mass(geometry),
                       weighed ? fmt::format("weighed {}", units.mass(*weighed)) : "no weighed mass given");
  };
  row("ring", net.ring_mass, rotor.ring.mass);
  row("hat", net.hat_mass, rotor.hat.mass);
  for (const std::string& remark : net.remarks) out += paragraph(remark, 4);
}

std::string band(const network::assumed::Prior& p) {
  const std::string unit = std::string_view(p.unit) == "1" ? "" : fmt::format(" {}", p.unit);
  return fmt::format("{:g}{} ({:g} to {:g})", p.likely, unit, p.low, p.high);
}

}  // namespace

std::string explanation_text(const Explanation& e, const DisplayUnits& units) {
  std::string out = e.c.name + "\n";
  out += paragraph("What would be run, and on what assumptions; nothing is solved.", 0) + "\n";
  session_part(out, e, units);
  for (const session::Axle axle : {session::Axle::front, session::Axle::rear}) {
    const network::Network& net = e.of(axle);
    out += "\n";
    out += paragraph(fmt::format("{}, one wheel: {}; mesh {}, {} nodes, {} links",
                                 axle == session::Axle::front ? "FRONT" : "REAR", e.c.brake(axle).rotor.name,
                                 session::mesh_name(e.c.physics.mesh), net.nodes.size(), net.links.size()),
                     0);
    nodes_part(out, net, units);
    links_part(out, e, axle, units);
    surfaces_part(out, e, axle, units);
    radiation_part(out, e, net, units);
    rubbing_part(out, net);
    mass_part(out, e, axle, units);
  }
  out += "\nDEFAULTS: what the config leaves out\n";
  for (const session::Assumption& a : e.c.assumptions) {
    out += paragraph(fmt::format("{}: {}", a.key, a.value), 2);
    out += paragraph(a.reason, 6);
  }
  if (e.c.assumptions.empty()) out += "  none\n";
  out += "\nPRIORS: plausible bands of what a config leaves out or may have wrong (SI)\n";
  for (const network::assumed::Prior* p : network::assumed::all()) {
    out += paragraph(fmt::format("{}: {}", p->name, band(*p)), 2);
    out += paragraph(p->reason, 6);
  }
  for (const std::string& w : e.c.warnings) out += paragraph(fmt::format("warning: {}", w), 0);
  return out;
}

}  // namespace hatring::tools
