// SPDX-License-Identifier: MIT
// A track file and a car file to what a computed lap needs.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim/io/file_kind.hpp"
#include "sim/io/read_car.hpp"
#include "sim/io/schema/schema.hpp"
#include "sim/io/track/track.hpp"
#include "sim/io/yaml_text.hpp"

namespace hatring::io {

using session::Stretch;

namespace {

namespace fs = std::filesystem;

//! Exactly one of segments, points and gpx.
bool one_source(Reader& reader, const Node& map) {
  const Entry* first = nullptr;
  for (const char* key : {"segments", "points", "gpx"}) {
    const Entry* entry = map.find(key);
    if (entry == nullptr) continue;
    if (first != nullptr) {
      reader.report().conflict(entry->mark, first->mark, child_path(reader.path(), key),
                               fmt::format("found both `{}` and `{}`, expected one of them", first->key, key),
                               "the other one is here");
      return false;
    }
    first = entry;
  }
  if (first == nullptr) reader.error(map.mark, "found none of `segments`, `points` and `gpx`, expected one of them");
  return first != nullptr;
}

// Angles that a driver measured add up to a lap within a few degrees each. More is a slip that a computed lap would
// hide, as it joins the last segment to the first whatever lies between them.
void check_turning(Reader& reader, const Mark& mark, const session::Track& track) {
  constexpr double kOpen = 30;  // [degree]
  double turned = 0;
  for (const Stretch& s : track.stretches) turned += s.length * s.curvature * 180 / std::numbers::pi;
  const double whole = std::abs(turned);
  if (std::min(std::abs(whole - 360), whole) <= kOpen) return;
  reader.error(mark,
               fmt::format("found corners that turn by {:.0f} degrees in all, expected 360 for a lap, or 0 when it "
                           "crosses itself",
                           whole),
               "a corner may be missing, turn the other way, or have the wrong angle, or points go round more than "
               "once; a drive from one place to another says `closed: off`");
}

std::vector<std::string> doubts(const session::Track& track, const session::SmoothLine* line) {
  constexpr double kRise = 0.002, kGap = 0.02;  // shares of the lap's length
  std::vector<std::string> out;
  if (!track.closed) return out;
  double rise = 0;
  for (const Stretch& s : track.stretches) rise += s.length * s.grade;
  if (std::abs(rise) > kRise * track.length())
    out.push_back(fmt::format("the lap ends {:.1f} m {} than it begins; its grades should cancel", std::abs(rise),
                              rise > 0 ? "higher" : "lower"));
  if (line != nullptr && line->gap > kGap * track.length())
    out.push_back(fmt::format("the last point lies {:.0f} m from the first; the road between them is drawn in by guess",
                              line->gap));
  return out;
}

bool has_ending(const fs::path& file, std::string_view ending) {
  std::string text = file.extension().string();
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return text == ending;
}

NodePtr top_map(Loader& loader, Report& report, const fs::path& file) {
  NodePtr root = loader.top_file(file);
  if (root->kind != Node::Kind::map) report.fatal(root->mark, "", "found no `key: value` lines at the top");
  return root;
}

//! The root of a track file; a GPX file is taken for one that names it.
NodePtr track_top(Loader& loader, Report& report, const fs::path& file) {
  if (has_ending(file, ".csv"))
    report.fatal({&loader.add_source({file.string(), {}, "", false})}, "", "found a table (CSV), expected a track file",
                 fmt::format("a log of your own is better than a computed lap: hatring trace {}", file.string()));
  if (!has_ending(file, ".gpx")) return top_map(loader, report, file);
  const std::string text = fmt::format("track: {{gpx: {}}}", yaml_quoted(file.filename().string()));
  return parse_tree(loader.add_source({file.string(), fs::absolute(file).parent_path(), text, false}), report);
}

//! Files in the wrong place, told by what they hold. Reports and throws.
void check_kinds(Report& report, const Node& track, const fs::path& track_file, const Node& car,
                 const fs::path& car_file) {
  const FileKind first = kind_of(track), second = kind_of(car);
  const bool has_car = second == FileKind::car || second == FileKind::session;
  if (first == FileKind::track && (has_car || second == FileKind::unknown)) return;
  const std::string a = track_file.string(), b = car_file.string();
  if (second == FileKind::track && (first == FileKind::car || first == FileKind::session))
    report.fatal(track.mark, "",
                 fmt::format("found {} where the track is expected, and a track where the car is", words_for(first)),
                 fmt::format("the other way round: hatring lap {} {}", b, a));
  if (first == FileKind::trace)
    report.fatal(track.mark, "", "found a speed trace, expected a track; a trace is what `hatring lap` makes",
                 fmt::format("a session takes it as it is: `- {{laps: 8, trace: {}}}`", a));
  if (first != FileKind::track)
    report.fatal(track.mark, "",
                 fmt::format("found {}, expected a track file: one top key `track:` with the track below it, or a GPX "
                             "file",
                             words_for(first)),
                 has_car ? fmt::format("hatring lap TRACK.yaml {}", b) : "hatring lap TRACK.yaml CAR.yaml");
  report.fatal(car.mark, "", fmt::format("found {}, expected a file with a key `car:`", words_for(second)),
               fmt::format("hatring lap {} CAR.yaml; a session file will do for the car", a));
}

}  // namespace

LapInput read_lap(const fs::path& track_file, const fs::path& car_file, const ReadOptions& options) {
  Report report;
  std::vector<fs::path> track_dirs = options.allowed_include_dirs;
  track_dirs.push_back(fs::absolute(track_file).parent_path());
  Loader track_loader(report, track_dirs), car_loader(report, options.allowed_include_dirs);
  NodePtr track_root = track_top(track_loader, report, track_file), car_root = top_map(car_loader, report, car_file);
  check_kinds(report, *track_root, track_file, *car_root, car_file);
  for (const std::string& assignment : options.set) {
    const bool of_track = assignment.rfind("track.", 0) == 0;
    if (const auto given = (of_track ? track_loader : car_loader).assignment(assignment, "--set ")) {
      NodePtr& root = of_track ? track_root : car_root;
      if (const NodePtr next = with_value(report, root, *given)) root = next;
    }
  }
  LapInput out;
  TrackInput in;
  in.name = track_file.stem().string();
  Reader track_reader(report, track_loader, out.c), car_reader(report, car_loader, out.c);
  const Entry& entry = *track_root->find("track");
  const Reader::Scope scope(track_reader, "track");
  if (track_root->entries.size() != 1)
    track_reader.error(track_root->mark, "found other top keys beside `track:`, expected none");
  track_section().read(track_reader, entry.value, entry.mark, in);
  if (entry.value->kind == Node::Kind::map) one_source(track_reader, *entry.value);
  read_car(car_reader, car_root, CarUse::lap);
  report.throw_if_any();
  std::optional<session::SmoothLine> line;
  if (in.has_points) line = session::smooth_line(in.points, in.smoothing, in.name, in.closed);
  out.track = line ? line->track : session::Track{in.name, std::move(in.segments), in.closed};
  if (line) out.residual = line->residual;
  if (in.closed) check_turning(track_reader, entry.mark, out.track);
  report.throw_if_any();
  out.warnings = doubts(out.track, line ? &*line : nullptr);
  return out;
}

}  // namespace hatring::io
