// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <map>
#include <utility>

#include "sim/io/nearest.hpp"
#include "sim/io/steps.hpp"

namespace hatring::io {

using session::Axle;
using session::DriveStep;
using session::HoldStep;
using session::LapKind;
using session::ParkStep;
using session::RollStep;
using session::SnubStep;
using session::StepNote;

namespace {

void read_step(Reader& reader, const NodePtr& node);

const Section<ParkStep>& park_section() {
  static const Section<ParkStep> section = [] {
    Section<ParkStep> s("Standing still, pads released.");
    s.quantity("park", &ParkStep::duration, Quantity::time, {.doc = "How long.", .above = "0 s", .to = "24 h"});
    air_key(s);
    return s;
  }();
  return section;
}

const Section<RollStep>& roll_section() {
  static const Section<RollStep> section = [] {
    Section<RollStep> s("Rolling slowly, off the brakes: round the paddock before parking.");
    s.quantity("roll", &RollStep::duration, Quantity::time, {.doc = "How long.", .above = "0 s", .to = "24 h"})
        .quantity("speed", &RollStep::speed, Quantity::speed,
                  {.doc = "",
                   .fallback = "10 km/h",
                   .reason = "a usual limit in paddocks, common practice, no source",
                   .above = "0 km/h",
                   .to = "60 km/h"});
    air_key(s);
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
    air_key(s);
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
    air_key(s);
    return s;
  }();
  return section;
}

// Repeated steps are written out, so that the rest of the program sees a plain list.
struct Repeat {
  int times = 0;
  std::vector<session::Step> steps;
};
constexpr std::size_t kMostSteps = 10'000;

void read_steps(Reader& reader, const NodePtr& node, const char* what) {
  if (!reader.is_list(*node, "- {park: 20 min}")) return;
  if (node->items.empty()) reader.error(node->mark, fmt::format("found an empty {}, expected one step or more", what));
  if (node->items.size() > kMostSteps)
    return reader.error(node->mark,
                        fmt::format("found {} steps, expected no more than {}", node->items.size(), kMostSteps));
  for (std::size_t i = 0; i < node->items.size(); ++i) {
    const Reader::Scope scope(reader, std::to_string(i));
    read_step(reader, node->items[i]);
  }
}

const Section<Repeat>& repeat_section() {
  static const Section<Repeat> section = [] {
    Section<Repeat> s("Steps that follow each other several times: push and cool, or stint after stint.");
    s.integer("repeat", &Repeat::times, {.doc = "How many times.", .from = "1", .to = "1000"})
        .custom("steps", "a list of steps",
                [](Reader& reader, const NodePtr& node, Repeat& repeat) {
                  std::vector<session::Step> outer = std::exchange(reader.target().session, {});
                  read_steps(reader, node, "repetition");
                  repeat.steps = std::exchange(reader.target().session, std::move(outer));
                },
                {.doc = "What is repeated, in order; may hold another `repeat`."});
    return s;
  }();
  return section;
}

void read_repeat(Reader& reader, const NodePtr& node) {
  Repeat repeat;
  repeat_section().read(reader, node, node->mark, repeat);
  std::vector<session::Step>& session = reader.target().session;
  if (session.size() + repeat.steps.size() * static_cast<std::size_t>(repeat.times) > kMostSteps) {
    reader.error(node->mark, fmt::format("found more than {} steps once repetitions are written out", kMostSteps));
    return;
  }
  for (int i = 0; i < repeat.times; ++i) session.insert(session.end(), repeat.steps.begin(), repeat.steps.end());
}

// Keys of one step that contradict each other.
void check(Reader& reader, const NodePtr& node, const DriveStep& step) {
  const Entry *pace = node->find("pace"), *driver_pace = node->find("driver_pace");
  if (pace == nullptr || !step.driver_pace) return;
  reader.report().conflict(pace->mark, driver_pace->mark, child_path(reader.path(), "pace"),
                           "found both `pace` and `driver_pace`, expected one of them", "the other one is here");
}

void check(Reader& reader, const NodePtr& node, const SnubStep& snubs) {
  const Reader::Scope scope(reader, "snubs");
  const Entry* entry = node->find("snubs");
  const auto pair = [&](bool good, const char* key, const char* other, const std::string& message) {
    const std::string path = child_path(reader.path(), key);
    if (good || reader.report().touches(path) || reader.report().touches(child_path(reader.path(), other))) return;
    const Entry *at = entry->value->find(key), *beside = entry->value->find(other);
    reader.report().conflict(at->value->mark, beside->value->mark, path, message,
                             fmt::format("`{}` stands here", child_path(reader.path(), other)));
  };
  pair(snubs.to < snubs.from, "to", "from", "found a snub that ends no slower than it starts, expected a lower speed");
  const double braking = (snubs.from - snubs.to) / snubs.deceleration;
  pair(braking < snubs.every, "every", "deceleration",
       fmt::format("found {:.4g} s from start to start, expected more than the {:.4g} s that one braking takes",
                   snubs.every, braking));
}

template <class T>
void check(Reader&, const NodePtr&, const T&) {}

template <class T>
StepSection step(const char* mark, const Section<T>& section, T start) {
  return {mark, &section, [&section, start](Reader& reader, const NodePtr& node) {
            T value = start;
            section.read(reader, node, node->mark, value);
            check(reader, node, value);
            const Mark& place = node->mark;
            value.note.place = place.source->has_lines
                                   ? fmt::format("{}:{}: {}", place.source->name, place.line, reader.path())
                                   : reader.path();
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

const Section<session::StepNote>& step_air_section() {
  static const Section<StepNote> section = [] {
    Section<StepNote> air(
        "The air from this step on; what is left out stays as it was. The air's drag is that of the "
        "key `air` at the top all day.");
    air.quantity("temperature", &StepNote::air_temperature, Quantity::temperature,
                 {.doc = "", .optional = true, .from = "-60 degC", .to = "70 degC"})
        .quantity("wind", &StepNote::wind, Quantity::speed,
                  {.doc = "", .optional = true, .from = "0 m/s", .to = "60 m/s"});
    return air;
  }();
  return section;
}

const std::vector<StepSection>& step_sections() {
  static const std::vector<StepSection> sections{
      step("out_lap", out_lap_section(), DriveStep{.kind = LapKind::out_lap}),
      step("laps", laps_section(), DriveStep{.kind = LapKind::hot}),
      step("cooldown_laps", cooldown_section(), DriveStep{.kind = LapKind::cooldown}),
      step("park", park_section(), ParkStep{}),
      step("roll", roll_section(), RollStep{}),
      step("snubs", snubs_section(), SnubStep{}),
      step("hold", hold_section(), HoldStep{}),
      {"repeat", &repeat_section(), read_repeat},
  };
  return sections;
}

void read_session(Reader& reader, const NodePtr& node, session::Case&) {
  read_steps(reader, node, "session");
}

}  // namespace hatring::io
