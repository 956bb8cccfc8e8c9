// SPDX-License-Identifier: MIT
#include "sim/io/trace.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/io/file_kind.hpp"
#include "sim/io/schema/schema.hpp"
#include "sim/io/trace_file.hpp"

namespace hatring::io {

using session::Trace;

namespace {

//! Faster than any car that this is for: a wrong unit.
constexpr double kImplausibleSpeed = 150;  // [m/s]
constexpr double kSteepest = 1;            // rise over run
constexpr double kThresholdShare = 0.05;   // of the largest brake signal

Quantity kind_of_axis(const char* name) {
  return std::string_view(name) == "time" ? Quantity::time : Quantity::length;
}

//! A value of a channel that breaks a rule, with its index.
void bad_value(Reader& reader, const char* name, const Channel& channel, std::size_t i, const std::string& expected) {
  const Reader::Scope outer(reader, name);
  const Reader::Scope inner(reader, channel.key.empty() ? std::to_string(i) : channel.key + "." + std::to_string(i));
  const Node& item = *channel.list->items[i];
  reader.error(item.mark, fmt::format("found {}, expected {}", found(item), expected));
}

bool same_length(Reader& reader, const char* name, const std::optional<Channel>& channel, const char* axis,
                 std::size_t length) {
  if (!channel || channel->values.size() == length) return true;
  const Reader::Scope scope(reader, name);
  reader.error(channel->list->mark,
               fmt::format("found {} values, expected {} as in `{}`", channel->values.size(), length, axis));
  return false;
}

bool good_speeds(Reader& reader, const Channel& speed, bool over_distance) {
  for (std::size_t i = 0; i < speed.values.size(); ++i) {
    const double v = speed.values[i];
    const bool inside = i > 0 && i + 1 < speed.values.size();
    if (v < 0) return bad_value(reader, "speed", speed, i, "no negative speed"), false;
    if (v > kImplausibleSpeed)
      return bad_value(reader, "speed", speed, i, "a speed below 540 km/h; check the unit"), false;
    if (over_distance && inside && v == 0)
      return bad_value(reader, "speed", speed, i,
                       "a speed above 0 inside a trace over distance (a stop takes time, not distance)"),
             false;
  }
  return true;
}

bool good_grades(Reader& reader, const std::optional<Channel>& grade) {
  if (!grade) return true;
  for (std::size_t i = 0; i < grade->values.size(); ++i)
    if (std::abs(grade->values[i]) > kSteepest)
      return bad_value(reader, "grade", *grade, i, "a grade between -100 % and 100 %"), false;
  return true;
}

//! Holds the channels against each other. \returns true when the trace can be driven
bool consistent(Reader& reader, const Node& map, const TraceInput& in) {
  if (in.time && in.distance) {
    reader.report().conflict(map.find("distance")->mark, map.find("time")->mark, child_path(reader.path(), "distance"),
                             "found both `time` and `distance`, expected one of them", "the other one is here");
    return false;
  }
  if (!in.time && !in.distance) {
    if (map.find("time") == nullptr && map.find("distance") == nullptr)
      reader.error(map.mark, "found neither `time` nor `distance`, expected one of them");
    return false;
  }
  if (!in.speed) return false;
  const char* axis = in.time ? "time" : "distance";
  const Channel& along = in.time ? *in.time : *in.distance;
  const std::size_t length = along.values.size();
  if (length < 2) {
    const Reader::Scope scope(reader, axis);
    reader.error(along.list->mark, "found a single point, expected two or more");
    return false;
  }
  bool good = true;
  for (const auto& [name, channel] :
       {std::pair{"speed", &in.speed}, {"grade", &in.grade}, {"brake", &in.brake}, {"lap", &in.lap}})
    good = same_length(reader, name, *channel, axis, length) && good;
  {
    const Reader::Scope scope(reader, axis);
    good = check_rising(reader, along, in.time ? "a later time" : "a greater distance") && good;
  }
  return good_speeds(reader, *in.speed, in.distance.has_value()) && good_grades(reader, in.grade) && good;
}

Trace make_trace(Reader& reader, TraceInput in) {
  Trace trace;
  trace.name = std::move(in.name);
  if (in.time) trace.time = std::move(in.time->values);
  if (in.distance) trace.distance = std::move(in.distance->values);
  trace.speed = std::move(in.speed->values);
  if (in.grade) trace.grade = std::move(in.grade->values);
  if (!in.brake) return trace;
  trace.brake = std::move(in.brake->values);
  if (in.brake_threshold) {
    trace.brake_threshold = *in.brake_threshold;
  } else {
    trace.brake_threshold = kThresholdShare * *std::max_element(trace.brake.begin(), trace.brake.end());
    const Reader::Scope scope(reader, "brake_threshold");
    reader.assume(fmt::format("{:.3g}", trace.brake_threshold), "5 % of the largest brake signal, no source");
  }
  return trace;
}

//! The map below `trace:` of a trace file.
NodePtr trace_in_file(Reader& reader, const Node& path) {
  const NodePtr top = reader.loader().file(path, reader.path());
  if (top == nullptr) return nullptr;
  const Entry* entry = top->find("trace");
  if (entry == nullptr || entry->value->kind != Node::Kind::map || top->entries.size() != 1) {
    reader.error(top->mark,
                 "found something else, expected a trace file: one top key `trace:` with the channels below it");
    return nullptr;
  }
  return entry->value;
}

//! The map with its name written into it, so that it keeps it wherever it is put.
NodePtr named(const NodePtr& map, const std::string& name) {
  if (map->find("name") != nullptr) return map;
  auto out = std::make_shared<Node>(*map);
  out->entries.insert(out->entries.begin(), {"name", map->mark, scalar_node(name, map->mark)});
  out->size += 1;
  return out;
}

//! The trace of a map that was read before, or nullptr.
const Trace* known_trace(const Reader& reader, const Node& map) {
  if (reader.known_traces == nullptr) return nullptr;
  const auto known = reader.known_traces->find(&map);
  return known == reader.known_traces->end() ? nullptr : &known->second;
}

}  // namespace

const Section<TraceInput>& trace_section() {
  static const Section<TraceInput> section = [] {
    Section<TraceInput> s(
        "A speed trace of one lap or of any drive: inline, or in a file of its own whose top key is `trace:`. A "
        "channel is "
        "`{unit: km/h, values: [...]}`; all channels have the same length.");
    const auto channel = [&s](const char* name, std::optional<Channel> TraceInput::*member, Quantity kind,
                              bool any_unit, const char* type, bool optional, std::string doc) {
      s.custom(name, type,
               [member, kind, any_unit](Reader& reader, const NodePtr& node, TraceInput& in) {
                 in.*member = read_channel(reader, *node, kind, any_unit);
               },
               {.doc = std::move(doc), .optional = optional});
    };
    s.text("name", &TraceInput::name, {.doc = "For reports; the file's name if left out.", .optional = true});
    channel("time", &TraceInput::time, kind_of_axis("time"), false, "a channel of times", true,
            "Rising. Either this or `distance`.");
    channel("distance", &TraceInput::distance, kind_of_axis("distance"), false, "a channel of lengths", true,
            "Rising. Speed must then be above 0 except at both ends.");
    channel("speed", &TraceInput::speed, Quantity::speed, false, "a channel of speeds", false, "");
    channel("grade", &TraceInput::grade, Quantity::number, false, "a channel of plain numbers or %", true,
            "Rise over run, uphill positive.");
    channel("brake", &TraceInput::brake, Quantity::number, true, "a channel in any unit", true,
            "Any brake signal; above `brake_threshold` the brakes are on.");
    channel("lap", &TraceInput::lap, Quantity::number, true, "a channel", true, "Lap numbers of a logger; not used.");
    s.custom("brake_threshold", "a plain number",
             [](Reader& reader, const NodePtr& node, TraceInput& in) {
               in.brake_threshold = reader.quantity(*node, Quantity::number);
             },
             {.doc = "In the unit of `brake`; 5 % of its largest value if left out.", .optional = true});
    return s;
  }();
  return section;
}

std::optional<std::size_t> read_trace(Reader& reader, const NodePtr& node) {
  const bool is_path = node->kind == Node::Kind::scalar;
  const NodePtr map = is_path ? trace_in_file(reader, *node) : node;
  if (map == nullptr) return std::nullopt;
  if (!reader.is_map(*map, "the path of a trace file, or a trace as a map of channels")) return std::nullopt;
  auto known = reader.trace_of_node.find(map.get());
  if (known == reader.trace_of_node.end()) {
    if (const Trace* trace = known_trace(reader, *map)) {
      reader.target().traces.push_back(*trace);
      reader.trace_maps.push_back(map.get());
      return reader.trace_of_node.emplace(map.get(), Reader::TracePlace{reader.target().traces.size() - 1, map})
          .first->second.index;
    }
    TraceInput in;
    in.name = is_path ? std::filesystem::path(node->text).stem().string() : reader.path();
    trace_section().read(reader, map, map->mark, in);
    // A trace that is broken is remembered too, so that its errors are reported once.
    Reader::TracePlace place{reader.target().traces.size(), named(map, in.name)};
    reader.target().traces.push_back(consistent(reader, *map, in) ? make_trace(reader, std::move(in)) : Trace{});
    reader.trace_maps.push_back(place.map.get());
    known = reader.trace_of_node.emplace(map.get(), std::move(place)).first;
  }
  if (known->second.map != node) reader.in_place_of[node.get()] = known->second.map;
  return known->second.index;
}

Trace read_trace_file(const std::filesystem::path& file) {
  Report report;
  Loader loader(report, {});
  session::Case c;
  Reader reader(report, loader, c);
  const NodePtr top = loader.top_file(file);
  const Entry* entry = top->find("trace");
  if (entry == nullptr)
    report.fatal(top->mark, "",
                 fmt::format("found {}, expected a speed trace: the top key `trace:`", words_for(kind_of(*top))));
  const Reader::Scope scope(reader, "trace");
  const auto index = read_trace(reader, entry->value);
  report.throw_if_any();
  Trace trace = c.traces.at(index.value());
  if (entry->value->find("name") == nullptr) trace.name = file.stem().string();
  return trace;
}

}  // namespace hatring::io
