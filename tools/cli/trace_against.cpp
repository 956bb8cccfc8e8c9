// SPDX-License-Identifier: MIT
// One lap against another, for the terminal.
#include <fmt/format.h>

#include <cmath>

#include "tools/cli/summary.hpp"
#include "tools/cli/trace_report.hpp"

namespace hatring::tools {
namespace {

std::string signed_text(double value, const std::string& size) {
  return size.find_first_of("123456789") == std::string::npos ? "same" : (value < 0 ? "-" : "+") + size;
}

}  // namespace

std::string against_text(const BrakingZones& zones, const OtherLap& other, const DisplayUnits& units) {
  const answer::AgainstLap& a = other.against;
  std::string out = wrapped(fmt::format("AGAINST {}: {:.2f} s {}. Its lap is {} long, stretched to this one's {}.",
                                        other.name, std::abs(a.lost), a.lost > 0 ? "slower" : "faster",
                                        units.road_distance(other.zones.distance), units.road_distance(zones.distance)),
                            kTextWidth, 2) +
                    "\n";
  if (a.shift != 0)
    out += wrapped(fmt::format("[?] The laps fit far better with the other one moved by {}: are they cut at the same "
                               "place? Give both the same --start-line.",
                               units.lap_distance(std::abs(a.shift))),
                   kTextWidth, 4) +
           "\n";
  out +=
      fmt::format("{:>9}{:>12}{:>16}{:>14}{:>13}{:>11}\n", "braking", "entry", "begins", "slowest", "rounded", "time");
  for (const answer::MatchedBraking& m : a.brakings) {
    if (!m.one || !m.other) {
      const answer::BrakingStyle& s = m.one ? zones.styles[*m.one] : other.zones.styles[*m.other];
      out +=
          fmt::format("{:>9}  only {} brakes here{:>{}}\n", units.lap_distance(m.one ? s.point : a.stretch * s.point),
                      m.one ? "this one" : "the other", fmt::format("{:+.2f} s", m.lost), m.one ? 44 : 43);
      continue;
    }
    const answer::BrakingStyle &mine = zones.styles[*m.one], &theirs = other.zones.styles[*m.other];
    const double entry = mine.entry_speed - theirs.entry_speed, slowest = mine.slowest - theirs.slowest,
                 point = mine.point - a.stretch * theirs.point;
    const std::string earlier = units.lap_distance(std::abs(point));
    out += fmt::format("{:>9}{:>12}{:>16}{:>14}{:>13}{:>11}\n", units.lap_distance(mine.point),
                       signed_text(entry, units.road_speed(std::abs(entry))),
                       signed_text(point, earlier) == "same" ? "same" : earlier + (point < 0 ? " earlier" : " later"),
                       signed_text(slowest, units.road_speed(std::abs(slowest))),
                       fmt::format("{:+.0f} points", 100 * (mine.rounding - theirs.rounding)),
                       fmt::format("{:+.2f} s", m.lost));
  }
  return out +
         wrapped("This lap less the other; time: lost (+) or won (-) from there to the next braking.", kTextWidth, 2) +
         "\n\n";
}

}  // namespace hatring::tools
