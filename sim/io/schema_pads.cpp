// SPDX-License-Identifier: MIT
#include "sim/io/channel.hpp"
#include "sim/io/schema.hpp"

namespace hatring::io {

using session::Pads;

namespace {

void read_friction(Reader& reader, const NodePtr& node, Pads& pads) {
  if (const auto table = read_table(reader, *node, Quantity::number, {0, 1.5, true, false, "above 0 and up to 1.5"}))
    pads.friction = {table->temperature, table->values};
}

void read_window(Reader& reader, const NodePtr& node, Pads& pads) {
  if (node->kind != Node::Kind::list || node->items.size() != 2) {
    reader.error(node->mark,
                 "found " + found(*node) + ", expected a list of two temperatures such as `[200 degC, 650 degC]`");
    return;
  }
  const auto low = reader.quantity(*node->items[0], Quantity::temperature);
  const auto high = reader.quantity(*node->items[1], Quantity::temperature);
  if (!low || !high) return;
  if (*low >= *high) reader.error(node->mark, "found a window whose lower end is not below its upper end");
  pads.window_low = *low;
  pads.window_high = *high;
}

}  // namespace

const Section<Pads>& pads_section() {
  static const Section<Pads> section = [] {
    Section<Pads> s("One of the two pads of a wheel; both are alike.");
    s.text("name", &Pads::name, {.doc = "For reports.", .optional = true})
        .material("material", &Pads::material,
                  {.doc = "Of the friction layer.",
                   .fallback = "pad_club_race",
                   .reason = "an invented semi-metallic track compound; makers publish no thermal data"})
        .quantity("area", &Pads::area, Quantity::area,
                  {.doc = "Rubbing area of one pad.", .from = "1 cm2", .to = "500 cm2"})
        .quantity("thickness", &Pads::thickness, Quantity::length,
                  {.doc = "Of the friction layer, as it is now.", .from = "0.5 mm", .to = "40 mm"})
        .quantity("backing_thickness", &Pads::backing_thickness, Quantity::length,
                  {.doc = "Of the backing plate.",
                   .fallback = "5 mm",
                   .reason = "steel plates are 5 to 6 mm, from memory",
                   .from = "0.5 mm",
                   .to = "20 mm"})
        .material("backing_material", &Pads::backing_material,
                  {.doc = "", .fallback = "carbon_steel", .reason = "usual, common practice"})
        .quantity("shim_resistance", &Pads::shim_resistance, Quantity::resistance_area,
                  {.doc = "Of a heat shim between backing plate and pistons: its thickness over its conductivity.",
                   .fallback = "0 m2.K/W",
                   .reason = "no heat shim",
                   .from = "0 m2.K/W",
                   .to = "1 m2.K/W"})
        .custom("friction", "a table of plain numbers over temperature", read_friction,
                {.doc = "Friction coefficient against the temperature of the pad's surface.",
                 .fallback = "{temperature: [20 degC, 250 degC, 550 degC, 750 degC], values: [0.30, 0.45, 0.45, 0.30]}",
                 .reason = "the shape of a track pad, from memory; take the maker's curve"})
        .custom("window", "a list of two temperatures", read_window,
                {.doc = "Working window, as temperature of the disc's face.",
                 .fallback = "[200 degC, 650 degC]",
                 .reason = "a track pad, from memory; take the maker's figures"});
    return s;
  }();
  return section;
}

}  // namespace hatring::io
