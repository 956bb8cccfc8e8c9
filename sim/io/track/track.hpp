// SPDX-License-Identifier: MIT
//! \file
//! Track and car files for a computed lap. Checked by tests/sim/io/test_track.cpp.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "sim/io/read_case.hpp"
#include "sim/session/track.hpp"
#include "sim/session/track_line.hpp"

namespace hatring::io {

class Reader;
class SectionBase;
struct Node;

//! What a `track:` map holds, before its keys are held against each other.
struct TrackInput {
  std::string name;
  std::vector<session::Stretch> segments;
  session::LinePoints points;
  double smoothing = session::kLineSmoothing;  //!< [m]
  bool has_points = false;
  bool closed = true;
};

struct LapInput {
  session::Case c;  //!< car, air and what was assumed; the rest is empty
  session::Track track;
  std::optional<double> residual;  //!< of the points from the smoothed line, where there are points [m]
  std::vector<std::string> warnings;
};

//! \param track a file whose top key is `track:`, or a GPX file
//! \param car a file with the top key `car:`, and `air:` if it likes; a session file will do, its other keys are not
//!        looked at
//! options.set: a key that begins with `track.` goes to the track, every other one to the car's file.
//! \throws ConfigError
[[nodiscard]] LapInput read_lap(const std::filesystem::path& track, const std::filesystem::path& car,
                                const ReadOptions& options = {});

//! The two kinds of segment with their sections, for the key reference: "straight" and "corner".
[[nodiscard]] std::vector<std::pair<std::string, const SectionBase*>> segment_sections();

//! Points of all tracks or routes of a GPX file, in order, on the plane that touches the earth at the first one
//! (earth.hpp); heights when every point has one.
//! \returns nothing when it was reported
[[nodiscard]] std::optional<session::LinePoints> read_gpx(Reader& reader, const Node& path);

}  // namespace hatring::io
