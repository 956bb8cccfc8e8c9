// SPDX-License-Identifier: MIT
// What `hatring trace` has to tell, for --json and for the page.
#include <span>

#include "sim/answer/answers.hpp"
#include "tools/cli/page_json.hpp"
#include "tools/cli/trace_report.hpp"

namespace hatring::tools {

using nlohmann::json;

nlohmann::json trace_json(const io::LogReading& r, const BrakingZones& zones) {
  json out{{"source", r.source}, {"rows", r.rows}, {"columns", r.columns}};
  out["guesses"] = json::array();
  for (const io::LogGuess& g : r.guesses)
    out["guesses"].push_back(
        {{"what", g.what}, {"choice", g.choice}, {"reason", g.reason}, {"option", g.option}, {"doubtful", g.doubtful}});
  out["faults"] = json::array();
  for (const io::LogFault& f : r.faults) out["faults"].push_back({{"line", f.line}, {"what", f.what}});
  out["laps"] = json::array();
  for (const io::LogLap& l : r.laps.laps)
    out["laps"].push_back({{"number", l.number},
                           {"begin", l.begin},
                           {"time", l.end - l.begin},
                           {"length", l.length},
                           {"fastest", l.top},
                           {"slowest", l.lowest},
                           {"complete", l.incomplete.empty()},
                           {"why_incomplete", l.incomplete}});
  out["lap"] = r.laps.chosen ? json(r.laps.laps[*r.laps.chosen].number) : json(nullptr);
  out["trace"] = {
      {"name", r.trace.name},     {"samples", r.trace.speed.size()},     {"duration", zones.duration},
      {"length", zones.distance}, {"has_grade", !r.trace.grade.empty()}, {"has_brake", !r.trace.brake.empty()}};
  constexpr const char* kBasis[] = {"car", "mass", "kilogram"};
  out["energy_of"] = kBasis[static_cast<int>(zones.basis)];
  out["energy"] = zones.energy;
  out["failure"] = zones.failure;
  out["brakings"] = json::array();
  for (std::size_t i = 0; i < zones.brakings.size(); ++i) {
    const session::Braking& b = zones.brakings[i];
    const answer::BrakingStyle& style = zones.styles[i];
    out["brakings"].push_back({{"distance", b.lap_distance},
                               {"entry_speed", b.entry_speed},
                               {"exit_speed", b.exit_speed},
                               {"energy", b.brake},
                               {"peak_power", b.peak_power},
                               {"mean_power", b.brake / (b.end - b.begin)},
                               {"length", zones.drive->distance(b.end) - b.begin_distance},
                               {"duration", b.end - b.begin},
                               {"slowest", style.slowest},
                               {"slowest_at", style.slowest_at},
                               {"hardest", style.hardest},
                               {"rounding", style.rounding}});
  }
  return out;
}

json against_json(const BrakingZones& zones, const OtherLap& other) {
  const answer::AgainstLap& a = other.against;
  json out{{"name", other.name},
           {"length", other.zones.distance},
           {"time", other.zones.duration},
           {"lost", a.lost},
           {"shift", a.shift}};
  out["brakings"] = json::array();
  const auto one = [](const BrakingZones& z, std::optional<std::size_t> i, double stretch) -> json {
    if (!i) return nullptr;
    const answer::BrakingStyle& s = z.styles[*i];
    return {{"distance", stretch * s.point},
            {"entry_speed", s.entry_speed},
            {"slowest", s.slowest},
            {"rounding", s.rounding}};
  };
  for (const answer::MatchedBraking& m : a.brakings)
    out["brakings"].push_back(
        {{"this", one(zones, m.one, 1)}, {"other", one(other.zones, m.other, a.stretch)}, {"lost", m.lost}});
  return out;
}

json trace_page(const io::LogReading& reading, const BrakingZones& zones, const std::optional<OtherLap>& other,
                const std::string& created) {
  json page = page_head("trace", reading.trace.name, created);
  json& trace = page["trace"] = trace_json(reading, zones);
  if (!zones.drive) return page;
  answer::AgainstLap lap;
  if (other) {
    trace["against"] = against_json(zones, *other);
    lap = other->against;
  } else {
    lap.distance = answer::places_along(*zones.drive);
    answer::Along own = answer::along(*zones.drive, lap.distance);
    lap.time = std::move(own.time);
    lap.speed = std::move(own.speed);
  }
  std::vector<std::size_t> rows(lap.distance.size());
  for (std::size_t i = 0; i < rows.size(); ++i) rows[i] = i;
  page["series"] = {{"time", rounded(lap.time, rows, 0.01)},
                    {"distance", rounded(lap.distance, rows, 0.1)},
                    {"speed", rounded(lap.speed, rows, 0.01)}};
  if (other) {
    trace["against"]["speed"] = rounded(lap.other_speed, rows, 0.01);
    trace["against"]["lost_at"] = rounded(lap.lost_at, rows, 0.001);
  }
  return page;
}

}  // namespace hatring::tools
