// SPDX-License-Identifier: MIT
#include "sim/io/track/track.hpp"

#include <fmt/format.h>

#include "sim/io/channel.hpp"
#include "sim/io/schema/schema.hpp"

namespace hatring::io {

using session::Stretch;

namespace {

enum class Turn { left, right };

struct Segment {
  Stretch stretch;
  Turn turn = Turn::left;
  std::optional<double> radius, angle;  // [m], [rad]
};

void length_key(Section<Segment>& s, const char* name, bool optional, std::string doc) {
  s.custom(
      name, "a length",
      [](Reader& reader, const NodePtr& node, Segment& segment) {
        static const Range range = make_range(Quantity::length, "0 m", "", "50 km", "");
        if (const auto length = reader.quantity(*node, Quantity::length, range)) segment.stretch.length = *length;
      },
      {.doc = std::move(doc), .optional = optional}, make_range(Quantity::length, "0 m", "", "50 km", ""));
}

void road_keys(Section<Segment>& s) {
  const auto number = [&s](const char* name, double Stretch::*member, const char* from, const char* to,
                           std::string doc) {
    const Range range = make_range(Quantity::number, "", from, to, "");
    s.custom(
        name, "a plain number",
        [member, range](Reader& reader, const NodePtr& node, Segment& segment) {
          if (const auto value = reader.quantity(*node, Quantity::number, range)) segment.stretch.*member = *value;
        },
        {.doc = std::move(doc), .optional = true}, range);
  };
  number("grade", &Stretch::grade, "-50 %", "50 %", "Rise over run, uphill positive; flat if left out.");
  number("grip", &Stretch::grip, "0.05", "2", "Multiplies the grip of the tyres here: worn, dusty or wet asphalt.");
  s.custom("width", "a length",
           [](Reader& reader, const NodePtr& node, Segment&) {
             static_cast<void>(reader.quantity(*node, Quantity::length));
           },
           {.doc = "Not used: `radius` is that of the driven line.", .optional = true});
}

const Section<Segment>& straight_section() {
  static const Section<Segment> section = [] {
    Section<Segment> s("A straight.");
    length_key(s, "straight", false, "Its length.");
    road_keys(s);
    return s;
  }();
  return section;
}

const Section<Segment>& corner_section() {
  static const Section<Segment> section = [] {
    Section<Segment> s("A corner of constant radius.");
    s.choice("corner", &Segment::turn,
             std::vector<std::pair<std::string, Turn>>{{"left", Turn::left}, {"right", Turn::right}},
             {.doc = "Its direction, which only tells whether the track closes."})
        .quantity("radius", &Segment::radius, Quantity::length,
                  {.doc = "Of the driven line, which is wider than the inside kerb.", .from = "3 m", .to = "10 km"})
        .quantity(
            "angle", &Segment::angle, Quantity::angle,
            {.doc = "By how much it turns; this or `length`.", .optional = true, .above = "0 deg", .to = "720 deg"});
    length_key(s, "length", true, "Along the driven line; this or `angle`.");
    road_keys(s);
    return s;
  }();
  return section;
}

std::optional<Stretch> read_corner(Reader& reader, const NodePtr& node) {
  Segment segment;
  corner_section().read(reader, node, node->mark, segment);
  const Entry *angle = node->find("angle"), *length = node->find("length");
  if (angle != nullptr && length != nullptr) {
    reader.report().conflict(length->mark, angle->mark, child_path(reader.path(), "length"),
                             "found both `angle` and `length`, expected one of them", "the other one is here");
    return std::nullopt;
  }
  if (angle == nullptr && length == nullptr) {
    reader.error(node->mark, "found neither `angle` nor `length`, expected one of them");
    return std::nullopt;
  }
  if (!segment.radius) return std::nullopt;  // reported
  segment.stretch.curvature = (segment.turn == Turn::left ? 1 : -1) / *segment.radius;
  if (segment.angle) segment.stretch.length = *segment.angle * *segment.radius;
  return segment.stretch;
}

void read_segments(Reader& reader, const NodePtr& node, TrackInput& track) {
  if (node->kind != Node::Kind::list || node->items.empty()) {
    reader.error(node->mark, "found no list of segments, expected straights and corners such as `- {straight: 320 m}`");
    return;
  }
  for (std::size_t i = 0; i < node->items.size(); ++i) {
    const Reader::Scope scope(reader, std::to_string(i));
    const NodePtr& item = node->items[i];
    if (!reader.is_map(*item, "a segment with the key `straight` or `corner`")) continue;
    const Entry *straight = item->find("straight"), *corner = item->find("corner");
    if ((straight == nullptr) == (corner == nullptr)) {
      reader.error(item->mark, fmt::format("found a segment with {} of the keys `straight` and `corner`, expected one",
                                           straight == nullptr ? "none" : "both"));
    } else if (straight != nullptr) {
      Segment segment;
      straight_section().read(reader, item, item->mark, segment);
      track.segments.push_back(segment.stretch);
    } else if (const auto stretch = read_corner(reader, item)) {
      track.segments.push_back(*stretch);
    }
  }
}

struct PointInput {
  std::optional<Channel> x, y, height;
};

const Section<PointInput>& points_section() {
  static const Section<PointInput> section = [] {
    Section<PointInput> s("Points along the driven line, of a lap once round, on a flat map.");
    const auto channel = [&s](const char* name, std::optional<Channel> PointInput::*member, bool optional,
                              std::string doc) {
      s.custom(name, "a channel of lengths",
               [member](Reader& reader, const NodePtr& node, PointInput& in) {
                 in.*member = read_channel(reader, *node, Quantity::length);
               },
               {.doc = std::move(doc), .optional = optional});
    };
    channel("x", &PointInput::x, false, "Eastward.");
    channel("y", &PointInput::y, false, "Northward.");
    channel("height", &PointInput::height, true, "For the grade; flat if left out.");
    return s;
  }();
  return section;
}

void read_points(Reader& reader, const NodePtr& node, TrackInput& track) {
  PointInput in;
  points_section().read(reader, node, node->mark, in);
  track.has_points = true;
  if (!in.x || !in.y) return;
  for (const auto& [name, channel] : {std::pair{"y", &in.y}, {"height", &in.height}})
    if (*channel && (*channel)->values.size() != in.x->values.size()) {
      const Reader::Scope scope(reader, name);
      reader.error((*channel)->list->mark, fmt::format("found {} values, expected {} as in `x`",
                                                       (*channel)->values.size(), in.x->values.size()));
      return;
    }
  track.points = {in.x->values, in.y->values, in.height ? in.height->values : std::vector<double>{}};
}

}  // namespace

const Section<TrackInput>& track_section() {
  static const Section<TrackInput> section = [] {
    Section<TrackInput> s("A track, in a file of its own whose top key is `track:`, for `hatring lap`.");
    s.text("name", &TrackInput::name, {.doc = "The file's name if left out.", .optional = true})
        .custom("segments", "a list of straights and corners", read_segments,
                {.doc = "In driving order. This, `points` or `gpx`.", .optional = true})
        .custom("points", "a map", read_points, {.doc = points_section().doc(), .optional = true}, {},
                &points_section())
        .custom("gpx", "the path of a GPX file",
                [](Reader& reader, const NodePtr& node, TrackInput& track) {
                  track.has_points = true;
                  if (auto points = read_gpx(reader, *node)) track.points = std::move(*points);
                },
                {.doc = "Its track or route points, once round.", .optional = true})
        .flag("closed", &TrackInput::closed,
              {.doc = "The last segment or point leads back to the first. `off` is for a drive from one place to "
                      "another, such as a hill climb: from rest to a flying finish.",
               .fallback = "on",
               .reason = "laps are driven"})
        .quantity("smoothing", &TrackInput::smoothing, Quantity::length,
                  {.doc = "Wiggles shorter than this are taken for noise. More when straights come out bent, less when "
                          "hairpins come out wide.",
                   .fallback = "40 m",
                   .reason = "hairpins of 10 m radius still show, and the jitter of positions does not",
                   .from = "5 m",
                   .to = "500 m",
                   .when_text = "`points` and `gpx`",
                   .when = [](const TrackInput& track) { return track.has_points; }});
    return s;
  }();
  return section;
}

std::vector<std::pair<std::string, const SectionBase*>> segment_sections() {
  return {{"straight", &straight_section()}, {"corner", &corner_section()}};
}

}  // namespace hatring::io
