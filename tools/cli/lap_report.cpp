// SPDX-License-Identifier: MIT
#include "tools/cli/lap_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "tools/cli/version.hpp"

namespace hatring::tools {
namespace {

constexpr double kCornerDepth = 0.03;  // of the top speed

double top_speed(const LapReport& r) {
  return *std::max_element(r.lap.speed.begin(), r.lap.speed.end());
}

double braking_energy(const LapReport& r) {
  double sum = 0;
  for (const session::Braking& b : r.brakings) sum += b.brake;
  return sum;
}

// Minutes and seconds to the hundredth, as laps are timed.
std::string lap_time(double seconds) {
  const auto hundredths = std::llround(seconds * 100);
  return fmt::format("{}:{:02}.{:02}", hundredths / 6000, hundredths / 100 % 60, hundredths % 100);
}

std::string how_driven(const session::Effort& effort) {
  std::string text = "all of the car's grip and power";
  if (effort.pace < 1) text = fmt::format("{:.0f} % of the car's grip and power", 100 * effort.pace);
  if (effort.grip != 1) text += fmt::format(", the road at {:.0f} % of its dry grip", 100 * effort.grip);
  return text;
}

}  // namespace

std::vector<SlowPlace> slow_places(const session::LapSpeed& lap, bool closed) {
  // Once round from the fastest node, so that no corner lies across the line.
  const std::size_t n = lap.speed.size() - 1;
  const auto fastest = std::max_element(lap.speed.begin(), lap.speed.end() - 1);
  const std::size_t start = closed ? static_cast<std::size_t>(fastest - lap.speed.begin()) : 0;
  const double depth = kCornerDepth * *fastest;
  std::vector<SlowPlace> out;
  double high = lap.speed[start];
  SlowPlace low{lap.distance[start], high};
  bool falling = false;
  for (std::size_t k = 0; k <= n; ++k) {
    const std::size_t i = closed ? (start + k) % n : k;
    const double v = lap.speed[i];
    if (v < low.speed) low = {lap.distance[i], v};
    if (!falling && v < high - depth) falling = true;
    if (falling && v > low.speed + depth) {
      out.push_back(low);
      falling = false;
      high = v;
    }
    if (!falling && v >= high) {
      high = v;
      low = {lap.distance[i], v};
    }
  }
  std::sort(out.begin(), out.end(), [](const SlowPlace& a, const SlowPlace& b) { return a.distance < b.distance; });
  return out;
}

std::string lap_text(const LapReport& r, const DisplayUnits& units) {
  const io::LapInput& in = r.input;
  std::string out =
      fmt::format("{}, {} {}: {}, top speed {}\n", in.track.name, units.road_distance(r.lap.distance.back()),
                  in.track.closed ? "round" : "from rest", lap_time(r.lap.time), units.road_speed(top_speed(r)));
  out += fmt::format("driven with {}\n", how_driven(r.effort));
  if (in.residual)
    out += fmt::format("the points lie {:.1f} m from the smoothed line (root mean square)\n", *in.residual);
  for (const std::string& w : in.warnings) out += fmt::format("mind: {}\n", w);
  out += "\nslowest in the corners\n";
  for (const SlowPlace& c : r.corners)
    out += fmt::format("  {:>9}  {:>9}\n", units.lap_distance(c.distance), units.road_speed(c.speed));
  out += fmt::format("\nbraking, {} in all for the four brakes\n  {:>9}  {:>9}  {:>9}  {:>6}  {:>9}  {:>9}\n",
                     units.energy(braking_energy(r)), "at", "from", "to", "for", "energy", "peak");
  for (const session::Braking& b : r.brakings)
    out += fmt::format("  {:>9}  {:>9}  {:>9}  {:>4.1f} s  {:>9}  {:>6.0f} kW\n", units.lap_distance(b.lap_distance),
                       units.road_speed(b.entry_speed), units.road_speed(b.exit_speed), b.end - b.begin,
                       units.energy(b.brake), b.peak_power / 1000);
  if (!in.c.assumptions.empty()) out += "\nassumed\n";
  for (const session::Assumption& a : in.c.assumptions) out += fmt::format("  {} = {}: {}\n", a.key, a.value, a.reason);
  out += fmt::format(
      "\nA computed lap is an estimate and can be wrong: a logged one is better. Check the corner speeds against your "
      "own.\nwritten: {}\n",
      r.written.string());
  return out;
}

nlohmann::json lap_json(const LapReport& r) {
  nlohmann::json corners = nlohmann::json::array(), brakings = nlohmann::json::array(),
                 assumed = nlohmann::json::array();
  for (const SlowPlace& c : r.corners) corners.push_back({{"distance", c.distance}, {"speed", c.speed}});
  for (const session::Braking& b : r.brakings)
    brakings.push_back({{"distance", b.lap_distance},
                        {"entry_speed", b.entry_speed},
                        {"exit_speed", b.exit_speed},
                        {"duration", b.end - b.begin},
                        {"energy", b.brake},
                        {"peak_power", b.peak_power}});
  for (const session::Assumption& a : r.input.c.assumptions)
    assumed.push_back({{"key", a.key}, {"value", a.value}, {"reason", a.reason}});
  nlohmann::json out = {{"track", r.input.track.name},
                        {"length", r.lap.distance.back()},
                        {"time", r.lap.time},
                        {"top_speed", top_speed(r)},
                        {"pace", r.effort.pace},
                        {"grip_factor", r.effort.grip},
                        {"corners", corners},
                        {"brakings", brakings},
                        {"braking_energy", braking_energy(r)},
                        {"assumptions", assumed},
                        {"warnings", r.input.warnings},
                        {"written", r.written.string()}};
  out["residual"] = r.input.residual ? nlohmann::json(*r.input.residual) : nlohmann::json();
  return out;
}

std::vector<std::string> remarks(const LapReport& r) {
  return {fmt::format("Speed trace of {} {}, computed by hatring {} from a map of the track with {}. Not a recording.",
                      r.input.track.closed ? "one flying lap of" : "one drive from rest along", r.input.track.name,
                      kVersion, how_driven(r.effort))};
}

}  // namespace hatring::tools
