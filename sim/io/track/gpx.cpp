// SPDX-License-Identifier: MIT
// GPX (version 1.0 or 1.1) to points on a plane.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <pugixml.hpp>

#include "sim/io/earth.hpp"
#include "sim/io/reader.hpp"
#include "sim/io/track/track.hpp"

namespace hatring::io {
namespace {

constexpr double kNoHeight = -1e4;  // below any road [m]

struct Place {
  double latitude = 0, longitude = 0, height = 0;  // [degree], [degree], [m]
  std::ptrdiff_t offset = 0;                       // in the file
};

Mark place_in(const Source& source, std::ptrdiff_t offset) {
  const auto end = source.text.begin() + std::clamp<std::ptrdiff_t>(offset, 0, std::ssize(source.text));
  return {&source, 1 + static_cast<int>(std::count(source.text.begin(), end, '\n')), 1};
}

// Every track or route point, wherever it stands; namespaces are not looked at.
struct Walker : pugi::xml_tree_walker {
  std::vector<Place> places;
  bool for_each(pugi::xml_node& node) override {
    const std::string_view name = node.name();
    if (name == "trkpt" || name == "rtept")
      places.push_back({node.attribute("lat").as_double(NAN), node.attribute("lon").as_double(NAN),
                        node.child("ele").text().as_double(kNoHeight), node.offset_debug()});
    return true;
  }
};

session::LinePoints on_a_plane(const std::vector<Place>& places) {
  const Place& origin = places.front();
  const DegreeLengths degree = degree_lengths(origin.latitude);
  session::LinePoints out;
  for (const Place& p : places) {
    out.x.push_back((p.longitude - origin.longitude) * degree.east);
    out.y.push_back((p.latitude - origin.latitude) * degree.north);
  }
  if (std::all_of(places.begin(), places.end(), [](const Place& p) { return p.height > kNoHeight; }))
    for (const Place& p : places) out.height.push_back(p.height);
  return out;
}

}  // namespace

std::optional<session::LinePoints> read_gpx(Reader& reader, const Node& path) {
  const Source* source = reader.loader().text_file(path, reader.path());
  if (source == nullptr) return std::nullopt;
  pugi::xml_document document;
  const pugi::xml_parse_result parsed = document.load_buffer(source->text.data(), source->text.size());
  if (!parsed) {
    reader.error(place_in(*source, parsed.offset), fmt::format("found broken XML ({})", parsed.description()));
    return std::nullopt;
  }
  Walker walker;
  document.traverse(walker);
  if (walker.places.empty()) {
    reader.error(place_in(*source, 0), "found no track or route points (`trkpt`, `rtept`), expected a GPX file");
    return std::nullopt;
  }
  for (const Place& p : walker.places)
    if (!(std::abs(p.latitude) < 90 && std::abs(p.longitude) <= 180)) {
      reader.error(place_in(*source, p.offset),
                   "found a point that is no place on earth, expected lat from -90 to 90 "
                   "and lon from -180 to 180");
      return std::nullopt;
    }
  return on_a_plane(walker.places);
}

}  // namespace hatring::io
