// SPDX-License-Identifier: MIT
// A track file and a car file to what a computed lap needs.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim/io/schema/schema.hpp"
#include "sim/io/track/track.hpp"

namespace hatring::io {

using session::Case;
using session::Stretch;

namespace {

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

// A list of segments that a driver measured does not close to the degree; that it does not at all is a slip.
void check_closing(const session::Track& track, std::vector<std::string>& warnings) {
  constexpr double kOpen = 30, kRise = 0.002;  // [degree], share of the lap's length
  double turned = 0, rise = 0;
  for (const Stretch& s : track.stretches) {
    turned += s.length * s.curvature * 180 / std::numbers::pi;
    rise += s.length * s.grade;
  }
  const double whole = std::abs(turned);
  if (std::min(std::abs(whole - 360), whole) > kOpen)
    warnings.push_back(
        fmt::format("the corners turn by {:.0f} degrees in all; a lap turns by 360 (or by 0 when it "
                    "crosses itself), so one may be missing or turn the other way, or the points go round more "
                    "than once",
                    whole));
  if (std::abs(rise) > kRise * track.length())
    warnings.push_back(fmt::format("the lap ends {:.1f} m {} than it begins; its grades should cancel", std::abs(rise),
                                   rise > 0 ? "higher" : "lower"));
}

struct CarFile {
  static const Section<Case>& section() {
    static const Section<Case> s = [] {
      Section<Case> out("The car's file.");
      out.section("car", &Case::car, lap_car_section()).section("air", &Case::air, air_section());
      return out;
    }();
    return s;
  }
};

//! The file without the keys of a session that a lap has no use for.
NodePtr without_session(const NodePtr& root) {
  const std::vector<std::string> known = case_section().names();
  auto out = std::make_shared<Node>(*root);
  std::erase_if(out->entries, [&known](const Entry& e) {
    return e.key != "car" && e.key != "air" && std::find(known.begin(), known.end(), e.key) != known.end();
  });
  return out;
}

NodePtr top_map(Loader& loader, Report& report, const std::filesystem::path& file) {
  NodePtr root = loader.top_file(file);
  if (root->kind != Node::Kind::map) report.fatal(root->mark, "", "found no `key: value` lines at the top");
  return root;
}

}  // namespace

LapInput read_lap(const std::filesystem::path& track_file, const std::filesystem::path& car_file,
                  const ReadOptions& options) {
  Report report;
  Loader track_loader(report, options.allowed_include_dirs), car_loader(report, options.allowed_include_dirs);
  NodePtr track_root = top_map(track_loader, report, track_file), car_root = top_map(car_loader, report, car_file);
  for (const std::string& assignment : options.set) {
    const bool of_track = assignment.rfind("track.", 0) == 0;
    NodePtr& root = of_track ? track_root : car_root;
    if (const auto given = (of_track ? track_loader : car_loader).assignment(assignment, "--set "))
      if (const NodePtr next = with_value(report, root, *given)) root = next;
  }
  LapInput out;
  TrackInput in;
  in.name = track_file.stem().string();
  {
    Reader reader(report, track_loader, out.c);
    const Entry* entry = track_root->find("track");
    if (entry == nullptr || track_root->entries.size() != 1)
      report.fatal(track_root->mark, "",
                   "found something else, expected a track file: one top key `track:` with the track below it");
    const Reader::Scope scope(reader, "track");
    track_section().read(reader, entry->value, entry->mark, in);
    if (entry->value->kind == Node::Kind::map) one_source(reader, *entry->value);
  }
  {
    Reader reader(report, car_loader, out.c);
    const NodePtr root = without_session(car_root);
    CarFile::section().read(reader, root, root->mark, out.c);
  }
  report.throw_if_any();
  if (!in.has_points) {
    out.track = {in.name, std::move(in.segments)};
    check_closing(out.track, out.warnings);
    return out;
  }
  session::SmoothLine line = session::smooth_line(in.points, in.smoothing, in.name);
  out.track = std::move(line.track);
  out.residual = line.residual;
  check_closing(out.track, out.warnings);
  return out;
}

}  // namespace hatring::io
