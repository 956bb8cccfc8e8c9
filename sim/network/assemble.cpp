// SPDX-License-Identifier: MIT
#include "sim/network/assemble.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "models/air.hpp"
#include "sim/network/assumed.hpp"
#include "sim/network/builder.hpp"
#include "sim/session/error.hpp"

namespace hatring::network {

MeshCounts mesh_counts(session::Mesh mesh) {
  switch (mesh) {
    case session::Mesh::lump:
      return {.lump = true, .layers = 1, .inner_bands = 0, .swept_bands = 1, .bell = 1, .pad_layers = 1};
    case session::Mesh::coarse:
      return {.layers = 2, .inner_bands = 0, .swept_bands = 1, .bell = 1, .pad_layers = 2};
    case session::Mesh::standard:
      return {.layers = 3, .inner_bands = 1, .swept_bands = 4, .bell = 4, .pad_layers = 4};
    case session::Mesh::fine:
      return {.layers = 10, .inner_bands = 2, .swept_bands = 5, .bell = 8, .pad_layers = 12};
  }
  return {};
}

std::vector<double> graded(double total, int count, double growth) {
  std::vector<double> out;
  double size = 1, sum = 0;
  for (int i = 0; i < count; ++i, size *= growth) {
    out.push_back(size);
    sum += size;
  }
  for (double& t : out) t *= total / sum;
  return out;
}

Builder::Builder(const session::Case& the_case, session::Axle which, double highest_speed, const MeshCounts& cut)
    : c(the_case),
      brake(the_case.brake(which)),
      axle(which == session::Axle::front ? "front" : "rear"),
      counts(cut),
      cooling(the_case, which) {
  net.ambient = c.air.temperature;
  // In whole m/s, so that runs that are driven alike share tables.
  net.grid = ConductanceGrid(std::ceil(highest_speed));
}

const models::Material& Builder::material(const std::string& name) const {
  const auto found = c.materials.find(name);
  if (found == c.materials.end()) throw session::CaseError(fmt::format("{}: no material called '{}'", axle, name));
  return found->second;
}

int Builder::content(const std::string& name) {
  const auto [entry, fresh] = content_by_material_.try_emplace(name, static_cast<int>(net.contents.size()));
  if (fresh) {
    net.contents.emplace_back(material(name), c.physics.constant_properties);
    net.materials.push_back(name);
  }
  return entry->second;
}

NodeId Builder::add(std::string name, Part part, double mass, const std::string& material_name) {
  return net.add(
      {std::move(name), part, mass, content(material_name), c.initial.everything.value_or(c.air.temperature)});
}

void Builder::cool(NodeId node, NodeId to, double scale, const std::string& name, const Law& law) {
  if (!(scale > 0) || c.physics.convection == 0.0) return;
  const auto known = std::find(laws_.begin(), laws_.end(), law);
  const auto table = static_cast<int>(known - laws_.begin());
  if (known == laws_.end()) {
    laws_.push_back(law);
    net.tables.push_back(cooling.table(law, net.grid));
  }
  net.surfaces.push_back({node, to, table, scale, name});
}

void Builder::radiate(NodeId a, NodeId b, double factor) {
  if (c.physics.radiation && factor != 0) net.radiations.push_back({a, b, factor});
}

namespace {

// Air in the wheel: warmer than outside, renewed by speed, wind and buoyancy.
void add_surroundings(Builder& b) {
  b.wheel = b.add("wheel", Part::wheel, assumed::kWheelMass, "caliper_aluminium");
  if (b.cooling.pinned()) return;
  const models::Air outside = models::air(b.c.air.temperature, b.c.air.pressure);
  b.net.contents.emplace_back(models::Material{.name = "air",
                                               .density = outside.density,
                                               .conductivity = models::Curve(outside.conductivity),
                                               .specific_heat = models::Curve(outside.specific_heat)});
  b.net.materials.emplace_back("air");
  b.air = b.net.add({"wheel_air", Part::air, outside.density * assumed::kWheelAirVolume,
                     static_cast<int>(b.net.contents.size()) - 1, b.c.air.temperature});
  b.cool(b.air, kAmbient, 1, "air exchange of the wheel", AirExchange{});
  b.cool(b.wheel, kAmbient, assumed::kWheelArea, "wheel", BluntBody{0.4});
  b.radiate(b.wheel, kAmbient, assumed::kWheelEmissivity * assumed::kWheelArea);
}

// A pinned family conducts the given total, shared by its links as the model would share it at 20 degC.
void pin_links(Builder& b) {
  Network& net = b.net;
  for (const auto& [family, total] : b.c.physics.links) {
    if (!(total >= 0) || !std::isfinite(total))
      throw session::CaseError(fmt::format("physics.links.{} = {} W/K: it must be 0 or more", family, total));
    double sum = 0;
    const auto conductance = [&](const Link& l) { return net.conductance(l, models::kReferenceTemperature); };
    for (const Link& l : net.links)
      if (l.family == family) sum += conductance(l);
    if (sum <= 0 && family != "ring_pad") {
      std::vector<std::string> known{"ring_pad"};
      for (const Link& l : net.links)
        if (std::find(known.begin(), known.end(), l.family) == known.end()) known.push_back(l.family);
      throw session::CaseError(fmt::format("physics.links: no links called '{}' in the {} network; there are {}",
                                           family, b.axle, fmt::join(known, ", ")));
    }
    for (Link& l : net.links)
      if (l.family == family) l = {l.a, l.b, 0, 0, total > 0 ? sum / (total * conductance(l)) : 0, 0, l.family};
    std::erase_if(net.links, [&, name = family](const Link& l) { return l.family == name && l.resistance == 0; });
  }
}

// Which nodes each named result averages, by heat content at equal temperature, hence by mass.
void add_probes(Builder& b, const RingNodes& ring, const HatNodes& hat) {
  const auto probe = [&](std::string name, std::string long_name, const std::vector<NodeId>& nodes) {
    b.net.probes.push_back({std::move(name), std::move(long_name), b.net.by_mass(nodes)});
  };
  const bool one_piece = b.brake.rotor.joint.kind == session::JointKind::one_piece;
  const auto named = [&](const char* name) { return b.net.find(name); };
  const bool lump = b.counts.lump;
  probe("ring_mean", "Ring, mean", ring.all);
  probe("ring_lug", "Ring lugs at the fasteners", {lump && !one_piece ? ring.bore.front().node : hat.lug});
  probe("hat_flange", "Hat flange", {hat.flange});
  probe("hat_bell", "Hat bell wall, mean", hat.bell);
  probe("hat_face", "Hat mounting face", {hat.face});
  probe("fastener", "Fasteners", {lump && !one_piece ? hat.flange : hat.fastener});
  probe("backing_plate", "Pad backing plates, mean", {named("backing.outboard"), named("backing.inboard")});
  probe("piston", "Pistons", {named("piston")});
  probe("caliper", "Caliper body", {named("caliper")});
  probe("fluid", "Brake fluid in the caliper", {named("fluid")});
  probe("hub", "Hub", {named("hub")});
}

void set_initial(Builder& b) {
  for (const auto& [name, temperature] : b.c.initial.node) {
    bool found = false;
    for (const Probe& p : b.net.probes) {
      if (p.name != name) continue;
      found = true;
      for (const auto& [node, weight] : p.weights)
        b.net.nodes[static_cast<std::size_t>(node)].temperature = temperature;
    }
    // Pads and friction faces are results of their own; start the whole pad or the whole ring.
    for (Node& node : b.net.nodes) {
      const bool pad = (name == "pad_outboard" && node.name.starts_with("pad.outboard")) ||
                       (name == "pad_inboard" && node.name.starts_with("pad.inboard"));
      if (pad || node.name == name) {
        found = true;
        node.temperature = temperature;
      }
    }
    if (!found) {
      std::vector<std::string> known{"pad_outboard", "pad_inboard", "wheel"};
      for (const Probe& p : b.net.probes) known.push_back(p.name);
      throw session::CaseError(fmt::format("initial: nothing called '{}'; there are {}", name, fmt::join(known, ", ")));
    }
  }
}

// A weighed part is trusted over its drawing: its nodes take the weighed mass.
double weigh(Builder& b, Part part, const std::optional<double>& weighed, const char* what) {
  double sum = 0;
  for (const Node& n : b.net.nodes)
    if (n.part == part || (part == Part::ring && n.part == Part::lug)) sum += n.mass;
  if (!weighed) return sum;
  const double off = *weighed / sum - 1;
  if (std::abs(off) > 0.10)
    b.net.remarks.push_back(
        fmt::format("{} {}: weighed {:.2f} kg, but its dimensions give {:.2f} kg ({:+.0f} %): check the dimensions; "
                    "the weighed mass is used",
                    b.axle, what, *weighed, sum, 100 * off));
  for (Node& n : b.net.nodes)
    if (n.part == part || (part == Part::ring && n.part == Part::lug)) n.mass *= *weighed / sum;
  return sum;
}

void add_strains(Builder& b) {
  const session::Rotor& rotor = b.brake.rotor;
  for (const std::string& name : {rotor.ring.material, rotor.hat.material, rotor.joint.material})
    if (const auto m = b.c.materials.find(name); m != b.c.materials.end() && !m->second.mean_expansion.empty())
      b.net.strains.try_emplace(name, m->second, b.c.physics.constant_properties);
}

}  // namespace

Network assemble(const session::Case& c, session::Axle axle, double highest_speed) {
  return assemble(c, axle, highest_speed, mesh_counts(c.physics.mesh));
}

Network assemble(const session::Case& c, session::Axle axle, double highest_speed, const MeshCounts& counts) {
  Builder b(c, axle, highest_speed, counts);
  add_surroundings(b);
  const RingNodes ring = build_ring(b);
  const HatNodes hat = build_hat(b, ring);
  build_caliper(b, ring);
  b.net.ring_mass = weigh(b, Part::ring, c.brake(axle).rotor.ring.mass, "ring");
  b.net.hat_mass = weigh(b, Part::hat, c.brake(axle).rotor.hat.mass, "hat");
  add_up_masses(b);
  pin_links(b);
  b.net.relink_faces();
  add_probes(b, ring, hat);
  set_initial(b);
  add_strains(b);
  b.net.validate();
  return std::move(b.net);
}

}  // namespace hatring::network
