// SPDX-License-Identifier: MIT
#include "tools/cli/pedal_text.hpp"

#include <fmt/format.h>

#include <cmath>

#include "tools/cli/summary.hpp"

namespace hatring::tools {
namespace {

std::string line(const std::string& text) {
  return wrapped(text, kTextWidth, 2) + "\n";
}

std::string or_dash(double value, const std::string& text) {
  return std::isnan(value) ? "-" : text;
}

void laps(std::string& out, const answer::Answers& a, const DisplayUnits& units) {
  if (a.pedal.laps.empty()) return;
  out += fmt::format("{:<16}|{:>9}{:>7} |{:>9}{:>7} |{:>8} |{:>7} |{:>7}\n", "pedal, highest", "front", "mu", "rear",
                     "mu", "effort", "more", "front");
  for (const answer::PedalLap& l : a.pedal.laps) {
    const bool snubs = l.label.starts_with("snub") && !(&l == &a.pedal.laps.front() || &l == &a.pedal.laps.back());
    if (snubs) continue;  // all of them would fill the screen; the file has them
    out += fmt::format("{:<16.16}|{:>9}{:>7} |{:>9}{:>7} |{:>8} |{:>7} |{:>7}\n", l.label,
                       or_dash(l.front_pressure, units.pressure(l.front_pressure)),
                       or_dash(l.front_friction, fmt::format("{:.2f}", l.front_friction)),
                       or_dash(l.rear_pressure, units.pressure(l.rear_pressure)),
                       or_dash(l.rear_friction, fmt::format("{:.2f}", l.rear_friction)),
                       or_dash(l.effort, units.value(l.effort, "N")),
                       or_dash(l.growth, fmt::format("{:+.0f} %", 100 * l.growth)),
                       or_dash(l.front_share, fmt::format("{:.1f} %", 100 * l.front_share)));
  }
}

void reach(std::string& out, const answer::Answers& a, const DisplayUnits& units) {
  const answer::PedalCar& p = a.pedal;
  if (p.corners.empty()) return;
  std::size_t brakes = 0;
  for (const answer::Corner& c : p.corners) brakes += std::string_view(c.limited_by()) == "brakes" ? 1 : 0;
  if (p.effort_known)
    out += line(brakes == 0 ? std::string("the driver's leg is enough for every braking")
                            : fmt::format("the driver's leg limits before the tyres in {} of {} brakings", brakes,
                                          p.corners.size()));
  else
    out += line(
        "pedal force is not known: give brakes.hydraulic: {master_diameter: ..., pedal_ratio: ..., booster_gain: ...} "
        "for newtons, and for whether your leg or the tyres limit");
  if (p.unreachable > 0)
    out += line(fmt::format("the trace is not reachable in {} of {} brakings: the worst ({}) gets about {} longer",
                            p.unreachable, p.corners.size(), place_text(p.longer_place, units),
                            units.lap_distance(p.longer)));
  const answer::BrakeBalance& b = a.brake_balance;
  const std::string rear =
      b.rear_excess > 0 ? fmt::format("the rear takes up to {:.1f} points more than its weight", 100 * b.rear_excess)
                        : "the rear never takes more than its weight";
  out += line(fmt::format("front share of the braking, {}: {:.1f} to {:.1f} %; {}{}", b.law, 100 * b.lowest,
                          100 * b.highest, rear, b.settled ? "" : " (share and temperatures did not settle)"));
}

void pads(std::string& out, const answer::Answers& a, const DisplayUnits& units) {
  for (const auto& [name, axle] : {std::pair{"front", &a.front}, std::pair{"rear", &a.rear}}) {
    const answer::PadAnswer& p = axle->pads;
    const double all = p.below + p.inside + p.above;
    std::string text = fmt::format("{} pads: ", name);
    if (all > 0)
      text += fmt::format("{:.0f} % of the braking below their window, {:.0f} % above; ", 100 * p.below / all,
                          100 * p.above / all);
    text += fmt::format("{} worn, {} left; ring {} worn", units.clearance(p.worn), units.clearance(p.left),
                        units.wear(p.ring_worn));
    if (std::isfinite(p.ring_sessions_left))
      text += fmt::format(", about {:.0f} sessions to its minimum, where it holds {:.0f} % of the heat",
                          p.ring_sessions_left, 100 * p.ring_capacity_at_minimum / p.ring_capacity);
    out += line(text);
  }
}

}  // namespace

std::string bedding_text(const answer::Answers& a, const DisplayUnits& units) {
  std::string out;
  for (const auto& [name, axle] : {std::pair{"front", &a.front}, std::pair{"rear", &a.rear}}) {
    const answer::BeddingAnswer& b = axle->bedding;
    if (!b.applicable) continue;
    out += line(fmt::format("{} bedding: {} of {} stops reach the band of {} to {}, {} pass the ceiling of {}", name,
                            b.reached, b.stops.size(), units.temperature(b.band_low), units.temperature(b.band_high),
                            b.over, units.temperature(b.ceiling)));
    int group = 0;
    std::string row;
    for (const answer::BeddingStop& s : b.stops) {
      if (s.group != group && !row.empty()) out += line(row);
      if (s.group != group) row = fmt::format("  group {}:", s.group);
      group = s.group;
      // The mark says what the number alone does not: + over the ceiling, - short of the band.
      row += fmt::format(" {:.0f}{}", units.temperature_number(s.face_peak),
                         !s.under_ceiling  ? "+"
                         : !s.reaches_band ? "-"
                                           : "");
    }
    out += line(row);
  }
  if (a.front.bedding.applicable || a.rear.bedding.applicable)
    out += line("(peak of the face at each stop; - short of the band, + over the ceiling)");
  return out;
}

std::string pedal_text(const answer::Answers& a, const DisplayUnits& units) {
  std::string out;
  laps(out, a, units);
  reach(out, a, units);
  pads(out, a, units);
  for (const answer::Symptom& s : a.symptoms)
    if (s.seen) out += line(fmt::format("if the pedal is {}: {}. Here: {}.", s.pedal, s.cause, s.shows));
  return out;
}

}  // namespace hatring::tools
