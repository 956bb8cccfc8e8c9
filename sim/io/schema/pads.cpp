// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "models/material.hpp"
#include "sim/io/channel.hpp"
#include "sim/io/schema/schema.hpp"
#include "sim/network/assumed.hpp"

namespace hatring::io {

using session::Bedding;
using session::FactorTable;
using session::Pads;
using session::PadWear;

namespace {

void read_friction(Reader& reader, const NodePtr& node, Pads& pads) {
  if (const auto table = read_table(reader, *node, Quantity::number, {0, 1.5, true, false, "above 0 and up to 1.5"}))
    pads.friction = {table->temperature, table->values};
}

//! {speed: {unit: m/s, values: [...]}, values: [...]}
std::optional<FactorTable> read_factor(Reader& reader, const NodePtr& node, const char* name, Quantity kind) {
  const std::string shape = fmt::format("a map such as `{{{}: {{unit: {}, values: [...]}}, values: [...]}}`", name,
                                        usual_units(kind).front());
  if (!reader.is_map(*node, shape)) return std::nullopt;
  const Entry *at = node->find(name), *values = node->find("values");
  if (at == nullptr || values == nullptr || node->entries.size() != 2) {
    reader.error(node->mark, fmt::format("found other keys, expected `{}` and `values` as in {}", name, shape));
    return std::nullopt;
  }
  std::optional<Channel> x, y;
  {
    const Reader::Scope scope(reader, name);
    x = at->value->kind == Node::Kind::list ? read_list_of_quantities(reader, *at->value, kind)
                                            : read_channel(reader, *at->value, kind);
    if (!x || !check_rising(reader, *x, "values that rise")) return std::nullopt;
  }
  const Reader::Scope scope(reader, "values");
  y = read_channel(reader, *values->value, Quantity::number);
  if (!y) return std::nullopt;
  const auto wrong = [&](const std::string& message) {
    reader.error(values->value->mark, message);
    return std::nullopt;
  };
  if (x->values.size() != y->values.size())
    return wrong(
        fmt::format("found {} values for {} of {}, expected as many", y->values.size(), x->values.size(), name));
  for (const double factor : y->values)
    if (!(factor > 0 && factor <= 3))
      return wrong(fmt::format("found {}, expected factors above 0 and up to 3", factor));
  return FactorTable{x->values, y->values};
}

void read_speed_factor(Reader& reader, const NodePtr& node, Pads& pads) {
  if (auto table = read_factor(reader, node, "speed", Quantity::speed)) pads.speed_factor = std::move(*table);
}

void read_pressure_factor(Reader& reader, const NodePtr& node, Pads& pads) {
  auto table = read_factor(reader, node, "pressure", Quantity::pressure);
  if (!table) return;
  for (std::size_t i = 1; i < table->at.size(); ++i)
    if (table->values[i] * table->at[i] <= table->values[i - 1] * table->at[i - 1]) {
      reader.error(node->mark, "found a factor that falls faster than pressure rises: more pressure would brake less");
      return;
    }
  pads.pressure_factor = std::move(*table);
}

//! Mean of the friction table over the pad's window.
Fallback usual_reference(const Pads& pads) {
  if (pads.friction.values.empty() || !(pads.window_low < pads.window_high)) return {"0.4", "no table to take it from"};
  const models::Curve curve(pads.friction.temperature, pads.friction.values);
  const double mean = curve.constant()
                          ? pads.friction.values.front()
                          : curve.integral(pads.window_low, pads.window_high) / (pads.window_high - pads.window_low);
  return {fmt::format("{:.4g}", mean), "mean of the friction table over the pad's window"};
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

const Section<PadWear>& wear_section() {
  static const Section<PadWear> section = [] {
    Section<PadWear> s(
        "Wear by friction work (Archard), with a part that grows as Arrhenius' law. A rough figure: weigh or measure "
        "your own pads before and after a day and scale the rates.");
    s.quantity("rate", &PadWear::rate, Quantity::wear,
               {.doc = "Of the pads, while cool.",
                .fallback = "40 mm3/MJ",
                .reason = "a tenth or two of a millimetre a session, rule of thumb, weak, no source",
                .from = "0 mm3/MJ",
                .to = "10000 mm3/MJ"})
        .quantity("ring_rate", &PadWear::ring_rate, Quantity::wear,
                  {.doc = "Of the friction ring, while cool.",
                   .fallback = "25 mm3/MJ",
                   .reason = "about a hundredth of a millimetre a session, rule of thumb, weak, no source",
                   .from = "0 mm3/MJ",
                   .to = "10000 mm3/MJ"})
        .quantity("onset", &PadWear::onset, Quantity::temperature,
                  {.doc = "Temperature of the disc's face at which wear is twice that while cool.",
                   .fallback = "325 degC",
                   .reason = "middle of 300 to 350 degC, weak, from memory",
                   .from = "50 degC",
                   .to = "1000 degC"})
        .quantity("doubling", &PadWear::doubling, Quantity::temperature_difference,
                  {.doc = "Rise above `onset` that doubles the part that heat adds.",
                   .fallback = "100 K",
                   .reason = "wear doubles every 100 to 150 K above the onset, weak, from memory",
                   .from = "10 K",
                   .to = "1000 K"});
    return s;
  }();
  return section;
}

const Section<Bedding>& bedding_section() {
  static const Section<Bedding> section = [] {
    Section<Bedding> s("A bedding plan: every stop is judged, as peak temperature of the disc's face.");
    s.quantity("band_low", &Bedding::band_low, Quantity::temperature,
               {.doc = "The stops should reach at least this.",
                .fallback = "200 degC",
                .reason = "below it little transfers, rule of thumb, no source; take the maker's",
                .from = "30 degC",
                .to = "1000 degC"})
        .quantity("band_high", &Bedding::band_high, Quantity::temperature,
                  {.doc = "Top of the band.",
                   .fallback = "400 degC",
                   .reason = "rule of thumb, no source; take the maker's",
                   .from = "30 degC",
                   .to = "1000 degC"})
        .quantity("ceiling", &Bedding::ceiling, Quantity::temperature,
                  {.doc = "No stop may pass it.",
                   .fallback = "500 degC",
                   .reason = "new pads glaze when rushed, rule of thumb, no source; take the maker's",
                   .from = "30 degC",
                   .to = "1200 degC"});
    return s;
  }();
  return section;
}

void read_bedding(Reader& reader, const NodePtr& node, Pads& pads) {
  Bedding bedding;
  bedding_section().read(reader, node, node->mark, bedding);
  if (!(bedding.band_low < bedding.band_high && bedding.band_high <= bedding.ceiling)) {
    reader.error(node->mark, "found a band that does not rise, expected band_low < band_high <= ceiling");
    return;
  }
  pads.bedding = bedding;
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
        .quantity("contact", &Pads::contact, Quantity::heat_transfer,
                  {.doc = "Heat transfer between pressed pad and ring: more of it brings both rubbing surfaces closer "
                          "together. Plausible from 1e4 to 1e5 W/m2/K.",
                   .fallback = fmt::format("{:g} W/m2/K", network::assumed::kPadContact.likely),
                   .reason = network::assumed::kPadContact.reason,
                   .optional = true,
                   .from = "100 W/m2/K",
                   .to = "1e7 W/m2/K"})
        .quantity("shim_resistance", &Pads::shim_resistance, Quantity::resistance_area,
                  {.doc = "Of a heat shim between backing plate and pistons: its thickness over its conductivity.",
                   .fallback = "0 m2.K/W",
                   .reason = "no heat shim",
                   .from = "0 m2.K/W",
                   .to = "1 m2.K/W"})
        .custom("friction", "a table of plain numbers over temperature", read_friction,
                {.doc = "Friction coefficient against the temperature of the disc's face.",
                 .fallback = "{temperature: [20 degC, 250 degC, 550 degC, 750 degC], values: [0.30, 0.45, 0.45, 0.30]}",
                 .reason = "the shape of a track pad, from memory; take the maker's curve"})
        .custom(
            "window", "a list of two temperatures", read_window,
            {.doc =
                 "Working window, as temperature of the disc's face: what makers mean (paint, rubbing thermocouple).",
             .fallback = "[200 degC, 650 degC]",
             .reason = "a track pad, from memory; take the maker's figures"})
        .custom("speed_factor", "a table of plain numbers over speed", read_speed_factor,
                {.doc = "Multiplies friction, against rubbing speed at the effective radius (road speed times that "
                        "radius over the tyre's).",
                 .optional = true})
        .custom("pressure_factor", "a table of plain numbers over pressure", read_pressure_factor,
                {.doc = "Multiplies friction, against piston force over pad area.", .optional = true})
        .quantity("reference_friction", &Pads::reference_friction, Quantity::number,
                  {.doc = "Friction that fade is counted from.",
                   .above = "0",
                   .to = "1.5",
                   .computed = [](const Pads& pads, const session::Case&) { return usual_reference(pads); },
                   .computed_text = "mean of `friction` over `window`"})
        .quantity("minimum_thickness", &Pads::minimum_thickness, Quantity::length,
                  {.doc = "Of the friction layer: change the pads at it.",
                   .fallback = "3 mm",
                   .reason = "below it the heat reaches plate and pistons sooner, common practice, no source",
                   .from = "0 mm",
                   .to = "30 mm"})
        .section("wear", &Pads::wear, wear_section())
        .custom("bedding", "a map", read_bedding, {.doc = bedding_section().doc(), .optional = true}, {},
                &bedding_section());
    return s;
  }();
  return section;
}

}  // namespace hatring::io
