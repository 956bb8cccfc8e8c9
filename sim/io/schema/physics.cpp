// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "sim/io/nearest.hpp"
#include "sim/io/schema/schema.hpp"

namespace hatring::io {

using session::Mesh;
using session::Physics;

namespace {

using Partition = Physics::Partition;
using PadPressure = Physics::PadPressure;

const Section<Physics>& convection_section() {
  static const Section<Physics> section = [] {
    Section<Physics> s("Pins convection to one coefficient; the full laws if left out.");
    s.quantity("constant", &Physics::convection, Quantity::heat_transfer,
               {.doc = "On every free face.", .optional = true, .from = "0 W/m2/K", .to = "100000 W/m2/K"});
    return s;
  }();
  return section;
}

void read_partition(Reader& reader, const NodePtr& node, Physics& physics) {
  if (node->kind == Node::Kind::scalar && node->text == "contact") {
    physics.partition = Partition::contact;
  } else if (node->kind == Node::Kind::scalar && node->text == "effusivity") {
    physics.partition = Partition::effusivity;
  } else if (node->kind == Node::Kind::scalar && node->text.find_first_of("0123456789") != std::string::npos) {
    const Range share{0, 1, false, false, "from 0 to 1"};
    if (const auto value = reader.quantity(*node, Quantity::number, share)) {
      physics.partition = Partition::fixed;
      physics.ring_share = *value;
    }
  } else {
    const std::string meant = nearest(node->text, {"contact", "effusivity"});
    reader.error(node->mark,
                 fmt::format("found {}, expected contact, effusivity, or the ring's share as a number", found(*node)),
                 meant.empty() ? "" : fmt::format("did you mean `{}`?", meant));
  }
}

void read_links(Reader& reader, const NodePtr& node, Physics& physics) {
  if (!reader.is_map(*node, "a map such as `{hat_hub: 0 W/K}`")) return;
  const Range range = make_range(Quantity::conductance, "", "0 W/K", "", "");
  for (const Entry& entry : node->entries) {
    const Reader::Scope scope(reader, entry.key);
    if (const auto value = reader.quantity(*entry.value, Quantity::conductance, range))
      physics.links[entry.key] = *value;
  }
}

}  // namespace

const Section<Physics>& physics_section() {
  static const Section<Physics> section = [] {
    const std::vector<std::pair<std::string, bool>> properties{{"tables", false}, {"constant", true}};
    Section<Physics> s("Pins for textbook cases and the fineness of the model.");
    s.section("convection", convection_section())
        .flag("radiation", &Physics::radiation, {.doc = "", .fallback = "on", .reason = "the full model"})
        .choice("properties", &Physics::constant_properties, properties,
                {.doc = "Against temperature, or all at their 20 degC value.",
                 .fallback = "tables",
                 .reason = "the full model"})
        .custom("partition", "contact, effusivity, or a number", read_partition,
                {.doc = "How friction heat splits between ring and pads: by contact conductance, by effusivity, or a "
                        "fixed share of the ring.",
                 .fallback = "contact",
                 .reason = "the full model"})
        .custom("links", "a map of link families to conductances", read_links,
                {.doc = "Pins link families to a conductance: `{hat_hub: 0 W/K}`.", .optional = true})
        .choice("mesh", &Physics::mesh,
                std::vector<std::pair<std::string, Mesh>>{
                    {"lump", Mesh::lump}, {"coarse", Mesh::coarse}, {"standard", Mesh::standard}, {"fine", Mesh::fine}},
                {.doc = "How finely parts are cut. `lump` and `coarse` are for a quick look: verdicts can be others.",
                 .fallback = "standard",
                 .reason = "close to `fine` at a fraction of its cost"})
        .choice("pad_pressure", &Physics::pad_pressure,
                std::vector<std::pair<std::string, PadPressure>>{{"uniform_wear", PadPressure::uniform_wear},
                                                                 {"uniform_pressure", PadPressure::uniform_pressure}},
                {.doc = "How friction heat spreads over the radius.",
                 .fallback = "uniform_wear",
                 .reason = "bedded pads wear evenly"});
    return s;
  }();
  return section;
}

}  // namespace hatring::io
