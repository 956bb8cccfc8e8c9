// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "sim/io/nearest.hpp"
#include "sim/io/steps.hpp"
#include "sim/io/trace.hpp"

namespace hatring::io {

using session::Axle;
using session::DriveStep;
using session::HoldStep;
using session::LapKind;
using session::ParkStep;
using session::SnubStep;

namespace {

void trace_key(Section<DriveStep>& s, const std::string& name, std::string doc) {
  s.custom(name, "a trace: the path of its file, or a map",
           [](Reader& reader, const NodePtr& node, DriveStep& step) {
             if (const auto index = read_trace(reader, node)) step.trace = *index;
           },
           {.doc = std::move(doc)});
}

void pace_key(Section<DriveStep>& s, std::string fallback, std::string reason) {
  s.quantity("pace", &DriveStep::pace, Quantity::number,
             {.doc = "Multiplies the trace's speed at every place.",
              .fallback = std::move(fallback),
              .reason = std::move(reason),
              .above = "0",
              .to = "2"});
}

const Section<DriveStep>& out_lap_section() {
  static const Section<DriveStep> section = [] {
    Section<DriveStep> s("One lap from the pits.");
    trace_key(s, "out_lap", "Trace of the lap.");
    pace_key(s, "0.8", "tyres and brakes are brought in gently, common practice, no source");
    return s;
  }();
  return section;
}

const Section<DriveStep>& laps_section() {
  static const Section<DriveStep> section = [] {
    Section<DriveStep> s("Hot laps.");
    s.integer("laps", &DriveStep::laps, {.doc = "Number of laps.", .from = "1", .to = "1000"});
    trace_key(s, "trace", "Trace of one lap.");
    pace_key(s, "1", "as the trace was driven");
    return s;
  }();
  return section;
}

const Section<DriveStep>& cooldown_section() {
  static const Section<DriveStep> section = [] {
    Section<DriveStep> s("Cool-down laps.");
    s.integer("cooldown_laps", &DriveStep::laps, {.doc = "Number of laps.", .from = "1", .to = "100"});
    trace_key(s, "trace", "Trace of one lap.");
    pace_key(s, "0.65", "a lap off the pace with light braking, common practice, no source");
    return s;
  }();
  return section;
}

const Section<ParkStep>& park_section() {
  static const Section<ParkStep> section = [] {
    Section<ParkStep> s("Standing still, pads released.");
    s.quantity("park", &ParkStep::duration, Quantity::time, {.doc = "How long.", .from = "0 s", .to = "24 h"});
    return s;
  }();
  return section;
}

const Section<SnubStep>& snub_section() {
  static const Section<SnubStep> section = [] {
    Section<SnubStep> s("Repeated snubs from one speed to another, as in type tests and bedding-in.");
    s.integer("count", &SnubStep::count, {.doc = "", .from = "1", .to = "1000"})
        .quantity("from", &SnubStep::from, Quantity::speed,
                  {.doc = "Speed at the start of a snub.", .above = "0 km/h", .to = "500 km/h"})
        .quantity("to", &SnubStep::to, Quantity::speed,
                  {.doc = "Speed at its end.", .from = "0 km/h", .to = "500 km/h"})
        .quantity("deceleration", &SnubStep::deceleration, Quantity::acceleration,
                  {.doc = "", .above = "0 m/s2", .to = "30 m/s2"})
        .quantity("every", &SnubStep::every, Quantity::time,
                  {.doc = "From start to start.", .above = "0 s", .to = "1 h"});
    return s;
  }();
  return section;
}

const Section<SnubStep>& snubs_section() {
  static const Section<SnubStep> section = [] {
    Section<SnubStep> s("Snubs; the car returns to speed at constant power.");
    s.section("snubs", snub_section());
    return s;
  }();
  return section;
}

void read_heat(Reader& reader, const NodePtr& node, HoldStep& hold) {
  struct Ramp {
    double from = 0, to = 0;
  };
  static const Section<Ramp> ramp_section = [] {
    Section<Ramp> s("A ramp of heat.");
    s.quantity("from", &Ramp::from, Quantity::power, {.from = "0 W"})
        .quantity("to", &Ramp::to, Quantity::power, {.from = "0 W"});
    return s;
  }();
  Ramp ramp;
  if (node->kind == Node::Kind::map) {
    ramp_section.read(reader, node, node->mark, ramp);
  } else if (const auto power =
                 reader.quantity(*node, Quantity::power, make_range(Quantity::power, "", "0 W", "", ""))) {
    ramp = {*power, *power};
  }
  hold.heat_from = ramp.from;
  hold.heat_to = ramp.to;
}

const Section<HoldStep>& hold_section() {
  static const Section<HoldStep> section = [] {
    Section<HoldStep> s("Bench: constant speed with a given heat.");
    s.quantity("hold", &HoldStep::duration, Quantity::time, {.doc = "How long.", .above = "0 s", .to = "24 h"})
        .quantity("speed", &HoldStep::speed, Quantity::speed, {.doc = "", .from = "0 km/h", .to = "500 km/h"})
        .custom("heat", "a power, or a ramp `{from: 20 kW, to: 0 kW}`", read_heat,
                {.doc = "Friction heat of one wheel, before it splits between pads and ring."})
        .choice("axle", &HoldStep::axle,
                std::vector<std::pair<std::string, Axle>>{{"front", Axle::front}, {"rear", Axle::rear}},
                {.doc = "The only axle that is heated; both if left out.", .optional = true});
    return s;
  }();
  return section;
}

template <class T>
StepSection step(const char* mark, const Section<T>& section, T start) {
  return {mark, &section, [&section, start](Reader& reader, const NodePtr& node) {
            T value = start;
            section.read(reader, node, node->mark, value);
            reader.target().session.emplace_back(value);
          }};
}

void read_step(Reader& reader, const NodePtr& node) {
  std::vector<std::string> marks;
  for (const StepSection& s : step_sections()) marks.push_back(s.mark);
  if (!reader.is_map(*node, "a step with one of the keys " + joined(marks))) return;
  const Entry* first = nullptr;
  const StepSection* chosen = nullptr;
  for (const StepSection& s : step_sections()) {
    const Entry* entry = node->find(s.mark);
    if (entry == nullptr) continue;
    if (first != nullptr) {
      reader.report().conflict(
          entry->mark, first->mark, reader.path(),
          fmt::format("found `{}` beside `{}` in one step, expected one of them", entry->key, first->key),
          "the other one is here");
      return;
    }
    first = entry;
    chosen = &s;
  }
  if (chosen != nullptr) {
    chosen->read(reader, node);
    return;
  }
  for (const Entry& entry : node->entries)
    if (const std::string meant = nearest(entry.key, marks); !meant.empty()) {
      reader.error(entry.mark, fmt::format("unknown kind of step `{}`", entry.key),
                   fmt::format("did you mean `{}`?", meant));
      return;
    }
  reader.error(node->mark, "found a step of no kind, expected one of the keys " + joined(marks));
}

}  // namespace

const std::vector<StepSection>& step_sections() {
  static const std::vector<StepSection> sections{
      step("out_lap", out_lap_section(), DriveStep{.kind = LapKind::out_lap}),
      step("laps", laps_section(), DriveStep{.kind = LapKind::hot}),
      step("cooldown_laps", cooldown_section(), DriveStep{.kind = LapKind::cooldown}),
      step("park", park_section(), ParkStep{}),
      step("snubs", snubs_section(), SnubStep{}),
      step("hold", hold_section(), HoldStep{}),
  };
  return sections;
}

void read_session(Reader& reader, const NodePtr& node, session::Case&) {
  if (!reader.is_list(*node, "- {park: 20 min}")) return;
  if (node->items.empty()) reader.error(node->mark, "found an empty session, expected one step or more");
  for (std::size_t i = 0; i < node->items.size(); ++i) {
    const Reader::Scope scope(reader, std::to_string(i));
    read_step(reader, node->items[i]);
  }
}

}  // namespace hatring::io
