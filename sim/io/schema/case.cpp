// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "models/air.hpp"
#include "sim/io/builtin.hpp"
#include "sim/io/nearest.hpp"
#include "sim/io/schema/schema.hpp"
#include "sim/io/steps.hpp"
#include "sim/io/sweep/input.hpp"

namespace hatring::io {

using session::Air;
using session::Case;
using session::Output;
using session::WetPatch;

namespace {

//! Keys of `initial`: the parts of /front/temperature in the result file, with the ring's faces as part of the ring.
const std::vector<std::string>& initial_names() {
  static const std::vector<std::string> names{"default",  "ring_mean", "ring_lug",     "hat_flange",  "hat_bell",
                                              "hat_face", "fastener",  "pad_outboard", "pad_inboard", "backing_plate",
                                              "piston",   "caliper",   "fluid",        "hub"};
  return names;
}

//! "450", "450 EUR", "EUR 450": one number, and the currency as it stands.
void read_cost(Reader& reader, const NodePtr& node, Case& c) {
  const auto text = reader.text(*node);
  if (!text) return;
  std::istringstream words(*text);
  session::Cost cost;
  cost.text = *text;
  int numbers = 0;
  for (std::string word; words >> word;) {
    try {
      cost.amount = parse_number(word);
      ++numbers;
    } catch (const UnitError&) {
      cost.currency += (cost.currency.empty() ? "" : " ") + word;
    }
  }
  if (numbers != 1 || !(cost.amount >= 0))
    return reader.error(node->mark,
                        fmt::format("found {}, expected one amount, with or without a currency", found(*node)),
                        "such as `cost: 450 EUR`");
  c.cost = cost;
}

void read_altitude(Reader& reader, const NodePtr& node, Air& air) {
  const Range range = make_range(Quantity::length, "", "-500 m", "5000 m", "");
  const auto altitude = reader.quantity(*node, Quantity::length, range);
  if (!altitude) return;
  // validate() refuses altitude and pressure together.
  air.pressure = models::standard_pressure(*altitude);
}

const Section<WetPatch>& wet_section() {
  static const Section<WetPatch> section = [] {
    Section<WetPatch> s("Water on the road, from the start of the lap.");
    s.quantity("from", &WetPatch::from, Quantity::length, {.doc = "", .from = "0 m", .to = "100 km"})
        .quantity("to", &WetPatch::to, Quantity::length, {.doc = "", .from = "0 m", .to = "100 km"});
    return s;
  }();
  return section;
}

const Section<Output>& output_section() {
  static const Section<Output> section = [] {
    Section<Output> s("What the result file holds.");
    s.quantity("interval", &Output::interval, Quantity::time,
               {.doc = "Between rows while driving.",
                .fallback = "0.1 s",
                .reason = "shows every braking",
                .from = "0.001 s",
                .to = "1 h"})
        .quantity("parked_interval", &Output::parked_interval, Quantity::time,
                  {.doc = "Between rows while parked.",
                   .fallback = "1 s",
                   .reason = "soak is slow",
                   .from = "0.001 s",
                   .to = "1 h"});
    return s;
  }();
  return section;
}

void read_initial(Reader& reader, const NodePtr& node, Case& c) {
  if (!reader.is_map(*node, "a map such as `{default: 24 degC, caliper: 60 degC}`")) return;
  const std::vector<std::string>& keys = initial_names();
  for (const Entry& entry : node->entries) {
    const Reader::Scope scope(reader, entry.key);
    if (std::find(keys.begin(), keys.end(), entry.key) == keys.end()) {
      const bool face = entry.key.starts_with("ring_face");
      const std::string meant = face ? "ring_mean" : nearest(entry.key, keys);
      reader.error(entry.mark,
                   face ? fmt::format("`{}` is no part of its own at the start, expected the whole ring", entry.key)
                        : fmt::format("unknown part `{}`", entry.key),
                   meant.empty() ? "known here: " + joined(keys) : fmt::format("did you mean `{}`?", meant));
      continue;
    }
    if (entry.value->kind == Node::Kind::null) continue;
    const auto value = reader.quantity(*entry.value, Quantity::temperature);
    if (!value) continue;
    if (entry.key == "default")
      c.initial.everything = *value;
    else
      c.initial.node[entry.key] = *value;
  }
}

}  // namespace

const Section<Air>& air_section() {
  static const Section<Air> section = [] {
    Section<Air> s("Weather.");
    s.quantity("temperature", &Air::temperature, Quantity::temperature,
               {.doc = "",
                .fallback = "24 degC",
                .reason = "a mild day; give that of the event",
                .from = "-60 degC",
                .to = "70 degC"})
        .quantity("pressure", &Air::pressure, Quantity::pressure,
                  {.doc = "At the place, not reduced to sea level.",
                   .fallback = "1013 hPa",
                   .reason = "standard atmosphere at sea level",
                   .from = "500 hPa",
                   .to = "1100 hPa"})
        .custom("altitude", "length with unit", read_altitude,
                {.doc = "Instead of pressure: that of the standard atmosphere at this height (ISO 2533).",
                 .optional = true})
        .quantity("wind", &Air::wind, Quantity::speed,
                  {.doc = "Around the parked car.",
                   .fallback = "1 m/s",
                   .reason = "a light air, no source",
                   .from = "0 m/s",
                   .to = "60 m/s"});
    return s;
  }();
  return section;
}

const Section<Case>& case_section() {
  static const Section<Case> section = [] {
    Section<Case> s("The session file.");
    s.text("name", &Case::name, {.doc = "For reports; the file's name if left out.", .optional = true})
        .custom("cost", "an amount, with or without a currency", read_cost,
                {.doc = "What the set-up costs, as you count it: shown and compared by `hatring compare`.",
                 .optional = true})
        .custom("materials", "a map of materials",
                [](Reader& reader, const NodePtr& node, Case& c) { read_materials(reader, node, c.materials); },
                {.doc = "Adds to the built-in materials or changes them.", .optional = true})
        .section("car", &Case::car, car_section())
        .section("brakes", &Case::brakes, brakes_section())
        .section("air", &Case::air, air_section())
        .list("wet_patches", &Case::wet_patches, wet_section(), "[{from: 900 m, to: 915 m}]",
              {.doc = "Puddles on every lap, 100 m long at most: a caution about what they do to hot discs. The heat "
                      "they take "
                      "is not counted. Rain is `grip: wet` of the laps instead.",
               .optional = true})
        .custom("initial", "a map of parts to temperatures", read_initial,
                {.doc = "Temperatures at the start, with the keys " + joined(initial_names()) +
                        "; `default` is everything else.",
                 .fallback = "everything at the air's temperature",
                 .reason = "a car that stood overnight",
                 .optional = true})
        .custom("session", "a list of steps", read_session, {.doc = "What is driven, in order."})
        .section("limits", &Case::limits, limits_section())
        .section("cooldown", &Case::cooldown, cooldown_plans_section())
        .custom(
            "sweep", "a map",
            [](Reader& reader, const NodePtr& node, Case&) {
              SweepInput looked_at;
              sweep_section().read(reader, node, node->mark, looked_at);
            },
            {.doc = sweep_section().doc(), .optional = true}, {}, &sweep_section())
        .section("history", &Case::history, history_section())
        .section("physics", &Case::physics, physics_section())
        .section("output", &Case::output, output_section());
    return s;
  }();
  return section;
}

}  // namespace hatring::io
