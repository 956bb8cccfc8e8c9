// SPDX-License-Identifier: MIT
#include "models/constants.hpp"
#include "models/material.hpp"
#include "sim/network/assumed.hpp"
#include "sim/network/origin.hpp"
#include "tools/cli/explanation.hpp"
#include "tools/cli/json_list.hpp"

namespace hatring::tools {
namespace {

using nlohmann::json;
using session::Axle;

template <class F>
json by_axle(const Explanation& e, const F& f) {
  return {{"front", f(e, Axle::front)}, {"rear", f(e, Axle::rear)}};
}

json session_json(const Explanation& e) {
  json spans = json::array();
  for (std::size_t i = 0; i < e.drive.spans().size(); ++i) {
    const session::Span& s = e.drive.spans()[i];
    spans.push_back({{"label", s.label},
                     {"lap", s.lap},
                     {"begin", s.begin},
                     {"end", s.end},
                     {"distance", s.end_distance - s.begin_distance},
                     {"front_wheel_heat", e.front_heat[i]}});
  }
  const session::DriveEnergy& w = e.drive.energy();
  return {{"name", e.c.name},
          {"spans", spans},
          {"brakings", e.drive.brakings().size()},
          {"energy",
           {{"brake", w.brake},
            {"tyre_slip", w.tyre_slip},
            {"clipped", w.clipped},
            {"off_brake", w.off_brake},
            {"kinetic", w.kinetic},
            {"drag", w.drag},
            {"rolling", w.rolling},
            {"grade", w.grade},
            {"engine", w.engine}}}};
}

json nodes_json(const Explanation& e, Axle axle) {
  const network::Network& net = e.of(axle);
  return json_list(net.nodes, [&](const network::Node& n) -> json {
    return {{"name", n.name},
            {"material", net.materials[static_cast<std::size_t>(n.content)]},
            {"mass", n.mass},
            {"heat_capacity", net.heat_capacity(n, kShownCold)},
            {"temperature", n.temperature}};
  });
}

json links_json(const Explanation& e, Axle axle) {
  const network::Network& net = e.of(axle);
  return json_list(net.links, [&](const network::Link& l) -> json {
    return {{"from", node_name(net, l.a)},
            {"to", node_name(net, l.b)},
            {"family", l.family},
            {"conductance", net.conductance(l, kShownCold)},
            {"conductance_hot", net.conductance(l, kShownHot)},
            {"conductance_applied", net.conductance(l, kShownCold, 1)},
            {"origin", origin_of_links(e.c, axle, l.family)}};
  });
}

json surfaces_json(const Explanation& e, Axle axle) {
  const network::Network& net = e.of(axle);
  return json_list(net.surfaces, [&](const network::Surface& s) -> json {
    return {{"node", node_name(net, s.node)},
            {"air", node_name(net, s.air)},
            {"law", s.law},
            {network::origin_of_law(s.law).by_area ? "area" : "share", s.scale},
            {"conductance_at_rest", conductance_of(net, s, 0)},
            {"conductance_moving", conductance_of(net, s, e.speed)},
            {"origin", origin_of_surfaces(e.c, s.law)}};
  });
}

json radiations_json(const Explanation& e, Axle axle) {
  const network::Network& net = e.of(axle);
  return json_list(net.radiations, [&](const network::Radiation& r) -> json {
    return {{"from", node_name(net, r.a)}, {"to", node_name(net, r.b)}, {"factor", r.factor}};
  });
}

json rubbings_json(const Explanation& e, Axle axle) {
  const network::Network& net = e.of(axle);
  return json_list(net.rubbings, [&](const network::Rubbing& r) -> json {
    return {{"ring", node_name(net, r.ring)},
            {"pad", node_name(net, r.pad)},
            {"share", r.share},
            {"contact", r.contact},
            {"partition", partition_text(net)}};
  });
}

json node_masses_json(const Explanation& e, Axle axle) {
  const network::Network& net = e.of(axle);
  const session::Rotor& rotor = e.c.brake(axle).rotor;
  const auto part = [](double geometry, const std::optional<double>& weighed) -> json {
    return {{"geometry", geometry}, {"weighed", weighed ? json(*weighed) : json()}};
  };
  return {{"ring", part(net.ring_mass, rotor.ring.mass)}, {"hat", part(net.hat_mass, rotor.hat.mass)}};
}

}  // namespace

json explanation_json(const Explanation& e) {
  return {{"session", session_json(e)},
          {"rotor", by_axle(e, [](const Explanation& x, Axle a) { return json(x.c.brake(a).rotor.name); })},
          {"shown", {{"cold", kShownCold}, {"hot", kShownHot}, {"difference", kShownDifference}, {"speed", e.speed}}},
          {"nodes", by_axle(e, nodes_json)},
          {"links", by_axle(e, links_json)},
          {"surfaces", by_axle(e, surfaces_json)},
          {"radiations", by_axle(e, radiations_json)},
          {"rubbings", by_axle(e, rubbings_json)},
          {"masses", by_axle(e, node_masses_json)},
          {"assumptions", json_list(e.c.assumptions,
                                    [](const session::Assumption& a) -> json {
                                      return {{"key", a.key}, {"value", a.value}, {"reason", a.reason}};
                                    })},
          {"priors", json_list(network::assumed::all(), [](const network::assumed::Prior* p) -> json {
             return {{"name", p->name}, {"likely", p->likely}, {"low", p->low},
                     {"high", p->high}, {"unit", p->unit},     {"reason", p->reason}};
           })}};
}

}  // namespace hatring::tools
