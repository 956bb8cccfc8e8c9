// SPDX-License-Identifier: MIT
// Steps that drive laps of a trace.
#include <map>

#include "sim/io/steps.hpp"
#include "sim/io/trace.hpp"
#include "sim/session/lap_speed.hpp"

namespace hatring::io {

using session::DriveStep;
using session::RedFlag;

namespace {

void trace_key(Section<DriveStep>& s, const std::string& name, std::string doc) {
  s.custom(name, "a trace: the path of its file, or a map",
           [](Reader& reader, const NodePtr& node, DriveStep& step) {
             if (const auto index = read_trace(reader, node)) step.trace = *index;
           },
           {.doc = std::move(doc)});
}

// Grip of the road over that on which the trace was driven: a number, or a word.
void read_grip(Reader& reader, const NodePtr& node, DriveStep& step) {
  static const std::map<std::string, double> words{
      {"dry", 1}, {"damp", session::kDampGrip}, {"wet", session::kWetGrip}};
  static const Range range = make_range(Quantity::number, "", "0.1", "1", "");
  const auto word = node->kind == Node::Kind::scalar ? words.find(node->text) : words.end();
  if (word != words.end())
    step.grip = word->second;
  else if (const auto value = reader.quantity(*node, Quantity::number, range))
    step.grip = *value;
}

// "1200 m" or "45 s".
void read_flag_place(Reader& reader, const NodePtr& node, RedFlag& flag) {
  if (node->kind == Node::Kind::scalar) {
    try {
      flag.time = parse_quantity(node->text, Quantity::time);
      return;
    } catch (const UnitError&) {
      // then it is a length, or the message is about one
    }
  }
  flag.distance = reader.quantity(*node, Quantity::length, make_range(Quantity::length, "0 m", "", "", ""));
}

const Section<RedFlag>& red_flag_section() {
  static const Section<RedFlag> section = [] {
    Section<RedFlag> s(
        "The last of the laps ends early: the car slows down, rolls in through the rest of it and the next "
        "step follows.");
    s.custom("at", "a length or a time", read_flag_place,
             {.doc = "Where in the lap the driver sees the flag: `1200 m`, or "
                     "`45 s`."})
        .quantity("speed", &RedFlag::speed, Quantity::speed,
                  {.doc = "Of the roll to the pits, off the brakes.",
                   .fallback = "60 km/h",
                   .reason = "slow enough to stop, common practice, no source",
                   .above = "0 km/h",
                   .to = "200 km/h"})
        .quantity("deceleration", &RedFlag::deceleration, Quantity::acceleration,
                  {.doc = "Down to that speed.",
                   .fallback = "3 m/s2",
                   .reason = "firm, with an eye on the car behind; common practice, no source",
                   .above = "0 m/s2",
                   .to = "15 m/s2"});
    return s;
  }();
  return section;
}

void read_red_flag(Reader& reader, const NodePtr& node, DriveStep& step) {
  RedFlag flag;
  red_flag_section().read(reader, node, node->mark, flag);
  step.red_flag = flag;
}

// What is common to all laps of a trace. `pace` is defaulted only where nothing else says how fast they are driven.
void effort_keys(Section<DriveStep>& s, std::string pace, std::string reason) {
  s.quantity("driver_pace", &DriveStep::driver_pace, Quantity::number,
             {.doc = "In place of `pace`: share of the trace's grip and power that the driver uses. Corners get slower "
                     "by its square root, braking begins earlier and is gentler, top speeds fall less.",
              .optional = true,
              .above = "0",
              .to = "1"})
      .quantity("pace", &DriveStep::pace, Quantity::number,
                {.doc = "Multiplies the trace's speed at every place.",
                 .fallback = std::move(pace),
                 .reason = std::move(reason),
                 .above = "0",
                 .to = "2",
                 .when_text = "laps without `driver_pace`",
                 .when = [](const DriveStep& step) { return !step.driver_pace; }})
      .custom("grip", "a number, or one of dry, damp, wet", read_grip,
              {.doc = "Of the road over that on which the trace was driven; damp is 0.8, wet 0.65 (common practice, no "
                      "source). Slows the car as `driver_pace` does, but leaves the power. Below damp there is water "
                      "on the road: the first such lap brings the caution of a wet patch where the discs are hottest. "
                      "The water's cooling over the lap is left out: real discs run colder.",
               .optional = true},
              make_range(Quantity::number, "", "0.1", "1", ""))
      .custom("red_flag", "a map", read_red_flag, {.doc = red_flag_section().doc(), .optional = true}, {},
              &red_flag_section());
  air_key(s);
}

}  // namespace

const Section<DriveStep>& out_lap_section() {
  static const Section<DriveStep> section = [] {
    Section<DriveStep> s("One lap from the pits.");
    trace_key(s, "out_lap", "Trace of the lap.");
    effort_keys(s, "0.8", "tyres and brakes are brought in gently, common practice, no source");
    return s;
  }();
  return section;
}

const Section<DriveStep>& laps_section() {
  static const Section<DriveStep> section = [] {
    Section<DriveStep> s("Hot laps.");
    s.integer("laps", &DriveStep::laps, {.doc = "Number of laps.", .from = "1", .to = "1000"});
    trace_key(s, "trace", "Trace of one lap.");
    effort_keys(s, "1", "as the trace was driven");
    return s;
  }();
  return section;
}

const Section<DriveStep>& cooldown_section() {
  static const Section<DriveStep> section = [] {
    Section<DriveStep> s("Cool-down laps.");
    s.integer("cooldown_laps", &DriveStep::laps, {.doc = "Number of laps.", .from = "1", .to = "100"});
    trace_key(s, "trace", "Trace of one lap.");
    effort_keys(s, "0.65", "a lap off the pace with light braking, common practice, no source");
    return s;
  }();
  return section;
}

}  // namespace hatring::io
