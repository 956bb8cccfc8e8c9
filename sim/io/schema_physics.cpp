// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "sim/io/nearest.hpp"
#include "sim/io/schema.hpp"

namespace hatring::io {

using session::Limits;
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

const Section<Limits>& limits_section() {
  static const Section<Limits> section = [] {
    Section<Limits> s("Limits that verdicts are judged against. Part makers' figures go before these.");
    s.quantity("ring_face", &Limits::ring_face, Quantity::temperature,
               {.doc = "Brief peak of the rubbed face.",
                .fallback = "700 degC",
                .reason = "cracking quickens above it and iron changes phase near 730 degC, rule of thumb from memory",
                .from = "50 degC",
                .to = "2000 degC"})
        .quantity("ring_mean", &Limits::ring_mean, Quantity::temperature,
                  {.doc = "Mean of the ring.",
                   .fallback = "650 degC",
                   .reason = "grey iron grows and scales above 550 to 650 degC, rule of thumb from memory",
                   .from = "50 degC",
                   .to = "2000 degC"})
        .quantity("hat", &Limits::hat, Quantity::temperature,
                  {.doc = "Hottest point of the hat.",
                   .fallback = "by material",
                   .reason = "highest service temperature of the hat's material",
                   .optional = true,
                   .from = "30 degC",
                   .to = "1500 degC"})
        .quantity("pad", &Limits::pad, Quantity::temperature,
                  {.doc = "Friction surface of the pad.",
                   .fallback = "top of the pad's window",
                   .reason = "pads fade above their working window",
                   .optional = true,
                   .from = "30 degC",
                   .to = "1500 degC"})
        .quantity("caliper", &Limits::caliper, Quantity::temperature,
                  {.doc = "Caliper body, for its seals.",
                   .fallback = "200 degC",
                   .reason = "piston seals bear about 150 degC for long and 200 degC for short, from memory",
                   .from = "30 degC",
                   .to = "1000 degC"})
        .quantity("fluid_margin", &Limits::fluid_margin, Quantity::temperature_difference,
                  {.doc = "To stay below the boiling point by.",
                   .fallback = "20 K",
                   .reason = "for moisture, hot spots and the model's own error, no source",
                   .from = "0 K",
                   .to = "200 K"})
        .quantity("fastener", &Limits::fastener, Quantity::temperature,
                  {.doc = "Bolts or bobbins.",
                   .fallback = "by material",
                   .reason = "highest service temperature of the fasteners' material",
                   .optional = true,
                   .from = "30 degC",
                   .to = "1500 degC"})
        .quantity("face_rate", &Limits::face_rate, Quantity::temperature_rate,
                  {.doc = "Heating rate of the face over `rate_window`.",
                   .fallback = "400 K/s",
                   .reason = "about 3.4 MW/m2 on a cast-iron face for half a second; rough, no source",
                   .above = "0 K/s",
                   .to = "100000 K/s"})
        .quantity("rate_window", &Limits::rate_window, Quantity::time,
                  {.doc = "Window that rates are taken over.",
                   .fallback = "0.5 s",
                   .reason = "shorter windows depend on the mesh and mean nothing",
                   .from = "0.05 s",
                   .to = "60 s"})
        .quantity("near", &Limits::near, Quantity::number,
                  {.doc = "A margin below this share of limit minus air temperature is called near.",
                   .fallback = "0.1",
                   .reason = "the model's own error is of that size or more, no source",
                   .from = "0",
                   .below = "1"});
    return s;
  }();
  return section;
}

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
                {.doc = "", .fallback = "standard", .reason = "close to `fine` at a fraction of its cost"})
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
