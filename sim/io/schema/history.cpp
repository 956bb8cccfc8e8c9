// SPDX-License-Identifier: MIT
#include "sim/io/schema/schema.hpp"

namespace hatring::io {

using session::History;
using session::Soak;
using session::Wear;

namespace {

const Section<Soak>& soak_section() {
  static const Section<Soak> section = [] {
    Section<Soak> s("Time at one temperature.");
    s.quantity("temperature", &Soak::temperature, Quantity::temperature,
               {.doc = "Of the hat's flange, as a label or strip has shown it.", .from = "20 degC", .to = "500 degC"})
        .quantity("time", &Soak::duration, Quantity::time,
                  {.doc = "How long in all.", .above = "0 s", .to = "36000000 s"});
    return s;
  }();
  return section;
}

const Section<Wear>& wear_section() {
  static const Section<Wear> section = [] {
    Section<Wear> s("What the parts of one axle have been through. A joint is a wearing part.");
    s.integer("ring_sessions", &Wear::ring_sessions,
              {.doc = "Sessions like this one that the ring has run already.",
               .fallback = "0",
               .reason = "a new ring",
               .from = "0",
               .to = "100000"})
        .integer("hat_sessions", &Wear::hat_sessions,
                 {.doc = "The same for the hat.", .fallback = "0", .reason = "a new hat", .from = "0", .to = "100000"})
        .integer("fastener_sessions", &Wear::fastener_sessions,
                 {.doc = "The same for bolts or bobbins.",
                  .fallback = "0",
                  .reason = "new fasteners",
                  .from = "0",
                  .to = "100000"})
        .list("hat_soak", &Wear::hat_soak, soak_section(), "[{temperature: 200 degC, time: 2 h}]",
              {.doc = "Time the hat has spent hot besides: temperature and hours.", .optional = true});
    return s;
  }();
  return section;
}

}  // namespace

const Section<History>& history_section() {
  static const Section<History> section = [] {
    Section<History> s("What ring, hat and fasteners have been through before this session.");
    s.section("front", &History::front, wear_section()).section("rear", &History::rear, wear_section());
    return s;
  }();
  return section;
}

}  // namespace hatring::io
