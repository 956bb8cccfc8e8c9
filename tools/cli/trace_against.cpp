// SPDX-License-Identifier: MIT
#include "tools/cli/trace_against.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/io/log/laps.hpp"
#include "sim/session/error.hpp"
#include "tools/cli/summary.hpp"

namespace hatring::tools {
namespace {

// All ours (no source).
constexpr double kMostUnlike = 0.15;  // of the length: not the same track
constexpr double kWorthAWord = 0.02;  // of the length: more than lines and sensors make
constexpr double kSameCorner = 0.02;  // of the length between two beginnings of one braking
constexpr double kGrid = 10;          // [m]

double scale(const BrakingZones& own, const BrakingZones& other) {
  return own.distance / other.distance;
}

Overlay overlay(const BrakingZones& own, const BrakingZones& other) {
  Overlay out;
  const auto parts = std::max<long>(1, std::lround(own.distance / kGrid));
  const Way &a = own.way, &b = other.way;
  for (long i = 0; i <= parts; ++i) {
    const double share = static_cast<double>(i) / static_cast<double>(parts);
    const double x = share * own.distance, y = share * other.distance;
    out.distance.push_back(x);
    out.speed.push_back(io::at_place(a.distance, a.speed, x));
    out.other_speed.push_back(io::at_place(b.distance, b.speed, y));
    out.gap.push_back(io::at_place(a.distance, a.time, x) - io::at_place(b.distance, b.time, y));
  }
  return out;
}

std::string signed_speed(double difference, const DisplayUnits& units) {
  return fmt::format("{}{}", difference < 0 ? "-" : "+", units.road_speed(std::abs(difference)));
}

std::string signed_distance(double difference, const DisplayUnits& units) {
  return fmt::format("{}{}", difference < 0 ? "-" : "+", units.lap_distance(std::abs(difference)));
}

}  // namespace

Against held_against(const BrakingZones& own, BrakingZones other, std::string source, std::string name) {
  for (const auto& [zones, which] :
       {std::pair{&own, "the log"}, std::pair<const BrakingZones*, const char*>{&other, source.c_str()}})
    if (!zones->failure.empty())
      throw session::CaseError(fmt::format("--against: {} cannot be driven: {}", which, zones->failure));
  const double k = scale(own, other);
  if (std::abs(k - 1) > kMostUnlike)
    throw session::CaseError(fmt::format(
        "--against: found {:.0f} m here and {:.0f} m in {}, expected two laps of one track; choose laps with "
        "--lap and --against-lap",
        own.distance, other.distance, source));
  Against out{.source = std::move(source), .name = std::move(name), .zones = std::move(other)};
  out.overlay = overlay(own, out.zones);
  std::vector<bool> taken(out.zones.brakings.size(), false);
  for (std::size_t i = 0; i < own.brakings.size(); ++i) {
    BrakingPair pair{.own = i};
    const double at = own.brakings[i].lap_distance;
    pair.gap = io::at_place(out.overlay.distance, out.overlay.gap, at);
    double nearest = kSameCorner * own.distance;
    for (std::size_t j = 0; j < taken.size(); ++j) {
      const double there = k * out.zones.brakings[j].lap_distance;
      if (taken[j] || std::abs(there - at) > nearest) continue;
      nearest = std::abs(there - at);
      pair.other = j;
      pair.other_distance = there;
    }
    if (pair.other) taken[*pair.other] = true;
    out.pairs.push_back(pair);
  }
  for (std::size_t j = 0; j < taken.size(); ++j)
    if (!taken[j]) out.others_alone.push_back(j);
  return out;
}

std::string against_text(const BrakingZones& own, const Against& a, const DisplayUnits& units) {
  const BrakingZones& other = a.zones;
  const double length = other.distance / own.distance - 1;
  std::string head =
      fmt::format("AGAINST {} ({}): this lap is {:.2f} s {}, its brakes take {:+.1f} % energy.", a.name, a.source,
                  std::abs(own.duration - other.duration), own.duration < other.duration ? "faster" : "slower",
                  other.energy > 0 ? 100 * (own.energy / other.energy - 1) : 0.0);
  if (std::abs(length) > kWorthAWord)
    head += fmt::format(" [?] The other is {:+.1f} % as long: is it the same track?", 100 * length);
  std::string out = fmt::format("\n{}\n", wrapped(head, 79, 2));
  out += fmt::format("{:>9}{:>12}{:>12}{:>12}{:>10}{:>10}\n", "at", "brakes at", "entry", "exit", "energy", "time");
  for (const BrakingPair& p : a.pairs) {
    const session::Braking& b = own.brakings[p.own];
    if (!p.other) {
      out += fmt::format("{:>9}  the other does not brake here\n", units.lap_distance(b.lap_distance));
      continue;
    }
    const session::Braking& o = other.brakings[*p.other];
    out += fmt::format(
        "{:>9}{:>12}{:>12}{:>12}{:>10}{:>10}\n", units.lap_distance(b.lap_distance),
        signed_distance(b.lap_distance - p.other_distance, units), signed_speed(b.entry_speed - o.entry_speed, units),
        signed_speed(b.exit_speed - o.exit_speed, units),
        fmt::format("{:+.0f} %", o.brake > 0 ? 100 * (b.brake / o.brake - 1) : 0.0), fmt::format("{:+.2f} s", p.gap));
  }
  for (const std::size_t j : a.others_alone)
    out += fmt::format("{:>9}  only the other brakes here\n",
                       units.lap_distance(scale(own, other) * other.brakings[j].lap_distance));
  return out +
         wrapped(
             "Each figure is this lap's less the other's: + is later, faster, more. Time is that up to the "
             "beginning of the braking.",
             79, 2) +
         "\n";
}

nlohmann::json against_json(const BrakingZones& own, const Against& a) {
  using nlohmann::json;
  json out{{"source", a.source},
           {"name", a.name},
           {"time", a.zones.duration},
           {"length", a.zones.distance},
           {"energy", a.zones.energy}};
  out["brakings"] = json::array();
  for (const BrakingPair& p : a.pairs) {
    const session::Braking& b = own.brakings[p.own];
    json row{{"distance", b.lap_distance},
             {"entry_speed", b.entry_speed},
             {"exit_speed", b.exit_speed},
             {"energy", b.brake},
             {"gap", p.gap},
             {"other", nullptr}};
    if (p.other) {
      const session::Braking& o = a.zones.brakings[*p.other];
      row["other"] = {{"distance", p.other_distance},
                      {"entry_speed", o.entry_speed},
                      {"exit_speed", o.exit_speed},
                      {"energy", o.brake}};
    }
    out["brakings"].push_back(std::move(row));
  }
  out["only_the_other"] = json::array();
  for (const std::size_t j : a.others_alone)
    out["only_the_other"].push_back(scale(own, a.zones) * a.zones.brakings[j].lap_distance);
  out["overlay"] = {{"distance", a.overlay.distance},
                    {"speed", a.overlay.speed},
                    {"other_speed", a.overlay.other_speed},
                    {"gap", a.overlay.gap}};
  return out;
}

}  // namespace hatring::tools
